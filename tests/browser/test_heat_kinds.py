"""Whether heat is moved from the cabin to the outside, told by touch on a tablet."""

import pytest
from playwright.sync_api import expect

from tests.browser.touch import PORTRAIT, Car, Made, keys, made_by_touch
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)

BELT: Car = {"drive": "belt_clutch", "refrigerant": "R-134a"}
RUNS = ("running=yes", "by=clamp")
MADE: list[Made] = [
    ("condenser_fan", BELT, ("fine",), 2),
    ("condenser_fan", BELT, ("asked=yes", "fan_1=stands", "fan_2=not_fitted"), 4),
    ("condenser_face", BELT, ("fine",), 2),
    ("condenser_face", BELT, ("dirt=much", "dry:1800", "wet:1400", "colder=yes"), 5),
    ("line_temperatures", BELT, (*RUNS, "drier_in:48", "drier_out:47"), 5),
    ("line_temperatures", BELT, (*RUNS, "drier_in:48", "drier_out:36", "frost=drier"), 6),
    ("evaporator_sensor", BELT, ("shown:22", "beside:22", "still=soaked"), 4),
    ("evaporator_sensor", BELT, ("shown:3", "beside:22", "still=soaked", "refused=yes"), 5),
    ("vent_temperature", BELT, ("branch=front", "vent:8", "intake:30", "minutes:10"), 5),
    ("vent_temperature", BELT, ("vent:30", "intake:30", "blower=high", "minutes:10"), 5),
    ("air_doors", BELT, ("fine",), 2),
    ("air_doors", BELT, ("pinched=yes", "before:18", "after:9"), 4),
    ("cabin_airflow", BELT, ("fine",), 2),
    ("cabin_airflow", BELT, ("flow=weak", "filter=blocked"), 3),
]
test_it_opens_and_scrolls_down_only, test_it_takes_few_touches = made_by_touch(MADE)


def test_a_step_across_the_drier_shows_below_the_fields(at):
    page = at(f"/step/line_temperatures/?job={make_job(**BELT).key}", **PORTRAIT)
    page.locator("label:has([name=running][value=yes])").tap()
    for name, typed in (("drier_in", "48"), ("drier_out", "36")):
        page.locator(f"#id_{name}").tap()
        keys(page, typed)
    expect(page.locator("#meaning")).to_contain_text("The line turns colder across the drier.")
