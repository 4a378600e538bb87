"""What is seen first, told by touch on a tablet."""

import pytest

from diagnostics.models import Step
from tests.browser.touch import (
    PORTRAIT,
    Car,
    Made,
    answer,
    made_by_touch,
    record,
)
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)

BELT: Car = {"drive": "belt_clutch"}
MADE: list[Made] = [
    ("complaint_seen", BELT, ("fine",), 2),
    ("complaint_seen", BELT, ("engages=no", "there=yes", "click=no", "plate=no"), 5),
    ("walk_round", BELT, ("fine",), 2),
    ("walk_round", BELT, ("hoses=not_fine", "turned=fine", "fine"), 4),
    ("codes", BELT, ("fine",), 2),
    ("codes", BELT, ("stored=stored", "state_1=stored", "relevant=yes", "cleared=no"), 5),
    ("belt_drive", BELT, ("fine",), 2),
    ("belt_drive", BELT, ("belt=on", "oily=yes", "load=slips"), 4),
    ("opened_before", BELT, ("fine",), 2),
    ("opened_before", BELT, ("fittings=yes", "fine"), 3),
    ("hot_retest", BELT, ("fine", "test=takes_hold", "minutes:20"), 4),
    ("hot_retest", BELT, ("hot=quits", "cold=works", "test=takes_hold", "minutes:20"), 5),
]
test_it_opens_and_scrolls_down_only, test_it_takes_few_touches = made_by_touch(MADE)


def test_the_rest_of_a_walk_round_leaves_what_was_told_as_it_is(at):
    page = at(f"/step/walk_round/?job={make_job(**BELT).key}", **PORTRAIT)
    page.locator("label:has([name=hoses][value=not_fine])").tap()
    page.locator("[data-fine]").tap()
    assert page.locator("[name=hoses]:checked").get_attribute("value") == "not_fine"
    assert page.locator("[name=condenser]:checked").get_attribute("value") == "fine"
    assert page.locator("[name=gas]:checked").count() == 0


def test_a_further_row_for_a_code_shows_up_once_the_one_before_is_told(at):
    page = at(f"/step/codes/?job={make_job(**BELT).key}", **PORTRAIT)
    answer(page, "stored", "stored")
    page.locator("#id_code_1").fill("P0645")
    assert page.locator("#id_code_2").is_hidden()
    answer(page, "state_1", "stored")
    page.locator("#id_code_2").fill("B1234")
    answer(page, "state_2", "pending")
    record(page)
    told = Step.objects.get(kind="codes").readings
    assert (told["code_1"], told["code_2"]) == ("P0645", "B1234")
    assert (told["state_1"], told["state_2"]) == ("stored", "pending")
