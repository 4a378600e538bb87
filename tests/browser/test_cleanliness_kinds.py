"""How clean the loop is, told by touch on a tablet."""

import pytest

from tests.browser.touch import Car, Made, made_by_touch

pytestmark = pytest.mark.django_db(transaction=True)

BELT: Car = {"drive": "belt_clutch"}
MADE: list[Made] = [
    ("debris", BELT, ("fine",), 2),
    ("debris", BELT, ("expansion=found", "flakes=yes", "condenser=parallel"), 4),
    ("oil_condition", BELT, ("fine", "amount:60"), 3),
    ("oil_condition", BELT, ("look=black", "smell=yes", "amount:60", "source=compressor"), 5),
    ("filter_second_look", BELT, ("fine", "minutes:30"), 3),
    ("filter_second_look", BELT, ("shows=debris", "minutes:30", "place=inline"), 4),
]
test_it_opens_and_scrolls_down_only, test_it_takes_few_touches = made_by_touch(MADE)
