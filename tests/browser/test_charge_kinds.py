"""The charge's tests on a tablet: they open without trouble and take few touches."""

import pytest

from tests.browser.touch import Car, Made, made_by_touch

pytestmark = pytest.mark.django_db(transaction=True)

BELT: Car = {"drive": "belt_clutch", "refrigerant": "R-134a"}
ROWS = ("t1:5", "p1:402", "t2:10", "p2:401", "t3:15", "p3:400", "t4:20", "p4:401")
HELD = ("start:1000", "start_temperature:25", "minutes:30", "end:982", "end_temperature:20")
MADE: list[Made] = [
    ("gas_identity", BELT, ("fine",), 2),
    ("gas_identity", BELT, ("how=instrument", "result=air", "share:94", "air:6"), 5),
    ("sealant_test", BELT, ("fine",), 2),
    ("static_pressure", BELT, ("low:470", "temperature:20", "where=places", "soaked=yes"), 5),
    ("static_pressure", BELT, ("low:30", "temperature:20", "soaked=no"), 4),
    ("leak_search", BELT, ("nose=found", "fine"), 3),
    ("vacuum_hold", BELT, ("gauge=system", "depth:400", *ROWS), 11),
    ("vacuum_hold", BELT, ("gauge=needle", "needle:29", "needle_after=stayed"), 4),
    ("nitrogen_hold", BELT, ("gas=nitrogen", *HELD), 7),
    ("recovered_share", BELT, ("recovered:290", "machine=newer", "temperature:22"), 4),
]
test_it_opens_and_scrolls_down_only, test_it_takes_few_touches = made_by_touch(MADE)
