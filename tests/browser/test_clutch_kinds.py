"""The clutch's tests on a tablet: they open without trouble and take few touches."""

import pytest
from playwright.sync_api import expect

from diagnostics.models import Step
from jobs.actions.fill import fill
from tests.browser.touch import PORTRAIT, Car, Made, answer, keys, made_by_touch
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)

BELT: Car = {"drive": "belt_clutch", "displacement": "fixed", "voltage": "12"}
CLUTCHLESS: Car = {"drive": "belt_clutchless", "displacement": "variable_outer"}
GAPS = ("gap_1:0.80", "gap_2:0.85", "gap_3:0.92")
MADE: list[Made] = [
    ("coil_resistance", BELT, ("one:3.6", "other:3.6", "temperature:20", "fine"), 5),
    ("coil_resistance", BELT, ("beyond=both",), 2),
    ("air_gap", BELT, ("gap_1:0.45", "gap_2:0.50", "gap_3:0.50"), 4),
    ("air_gap", BELT, (*GAPS, "shims=fitted", "fitted_1:0.3"), 6),
    ("clutch_face", BELT, ("fine",), 2),
    ("clutch_face", BELT, ("color=yes", "oil=yes", "fine", "whose=dye"), 5),
    ("pulley_bearing", BELT, ("fine",), 2),
    ("pulley_bearing", BELT, ("by_hand=rough", "play=play"), 3),
    ("limiter", CLUTCHLESS, ("fine",), 2),
    ("limiter", CLUTCHLESS, ("hub=stands", "shaft=not_free"), 3),
    ("known_good", BELT, ("part=coil", "where=plug", "does=works"), 4),
    (
        "known_good",
        BELT,
        ("part=coil", "where=plug", "does=does_not", "asked=yes", "known=bench"),
        6,
    ),
]
test_it_opens_and_scrolls_down_only, test_it_takes_few_touches = made_by_touch(MADE)


def test_a_clutchless_car_says_why_no_coil_is_measured(at):
    page = at(f"/step/coil_resistance/?job={make_job(**CLUTCHLESS).key}", **PORTRAIT)
    expect(page.locator("[data-barred]")).to_contain_text("No clutch here")


def test_the_points_of_a_gap_show_up_one_after_another_and_the_shims_with_a_tap(at):
    job = make_job(**BELT)
    fill(job.vehicle.system, {"gap_low_um": 350, "gap_high_um": 650})
    page = at(f"/step/air_gap/?job={job.key}", **PORTRAIT)
    expect(page.locator("[data-asked=gap_2]")).to_be_hidden()
    for one in GAPS:
        field, _, typed = one.partition(":")
        page.locator(f"#id_{field}").tap()
        keys(page, typed)
    expect(page.locator("[data-asked=gap_4]")).to_be_visible()
    expect(page.locator("[data-asked=gap_5]")).to_be_hidden()
    expect(page.locator("[data-asked=gap_3] .worked-out").last).to_have_text("Wobble: 0.12\u00a0mm")
    expect(page.locator("[data-asked=fitted_1]")).to_be_hidden()
    answer(page, "shims", "fitted")
    page.locator("#id_fitted_1").tap()
    keys(page, "0.3")
    expect(page.locator("#meaning")).to_contain_text("Take out 0.30\u00a0mm")


def test_rest_fine_keeps_what_was_seen(at):
    job = make_job(**BELT)
    page = at(f"/step/clutch_face/?job={job.key}", **PORTRAIT)
    answer(page, "oil", "yes")
    page.locator("[data-fine]").tap()
    with page.expect_navigation():
        page.locator("button.bar").tap()
    readings = Step.objects.get(job=job).readings
    assert (readings["oil"], readings["color"]) == ("yes", "no")
