"""The compressor's tests on a tablet: they open without trouble and take few touches."""

from typing import Any

import pytest
from playwright.sync_api import expect

from diagnostics.models import Step
from tests.browser.test_step import PORTRAIT, answer, at, keys  # noqa: F401  (at is a fixture)
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)

BELT: dict[str, Any] = {"drive": "belt_clutch", "displacement": "fixed", "refrigerant": "R-134a"}
OUTER: dict[str, Any] = {
    "drive": "belt_clutchless",
    "displacement": "variable_outer",
    "refrigerant": "R-134a",
}
ELECTRIC: dict[str, Any] = {
    "drive": "electric_hv",
    "displacement": "speed",
    "refrigerant": "R-134a",
}
# Kind, car, what is done in order, and the most touches it may take beyond its digits.
# "name=code" taps an answer, "name:digits" types, "fine" taps the first button.
RUNNING = ("low:200", "high:1200", "ambient:30")
MADE: list[tuple[str, dict[str, Any], tuple[str, ...], int]] = [
    ("hub_turn", BELT, ("fine",), 2),
    ("hub_turn", BELT, ("turns=locked",), 2),
    ("running_pressures", BELT, (*RUNNING, "fine"), 5),
    (
        "running_pressures",
        BELT,
        ("low:450", "high:700", "ambient:30", "shaft=yes", "charge_known=weighed_in"),
        6,
    ),
    ("equalising", BELT, ("seconds:90", "pumped=yes"), 3),
    ("equalising", BELT, ("seconds:4", "pumped=yes", "charge_known=agrees"), 4),
    ("shaft_seal", BELT, ("fine",), 2),
    ("shaft_seal", BELT, ("nose=wet", "dye=at_nose", "again=came_back"), 4),
    ("noise", BELT, ("fine",), 2),
    ("noise", BELT, ("on=yes", "off=yes", "what=rumble", "where=pulley"), 5),
    ("control_valve_duty", OUTER, ("fine",), 2),
    ("control_valve_duty", OUTER, ("follows=no", "duty:80", "amps:0.6", "charge_known=agrees"), 5),
    ("hv_command", ELECTRIC, ("fine", "commanded:4000", "actual:3960"), 4),
    ("hv_command", ELECTRIC, ("asked=yes", "refusal=battery"), 3),
    ("hv_isolation", ELECTRIC, ("qualified=yes", "plug=out", "waited:10", "proof=dead"), 5),
    ("hv_isolation", ELECTRIC, ("qualified=yes", "plug=out", "waited:2", "proof=alive"), 5),
]
NAMES = sorted({name for name, *_rest in MADE})


@pytest.mark.parametrize("name", NAMES)
def test_it_opens_without_trouble_and_scrolls_down_only(at, name):  # noqa: F811
    system = next(car for kind, car, *_rest in MADE if kind == name)
    page = at(f"/step/{name}/?job={make_job(**system).key}", **PORTRAIT)
    expect(page.locator("#meaning")).to_contain_text("Nothing is read yet.")
    expect(page.locator("[data-barred]")).to_be_hidden()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


@pytest.mark.parametrize(
    ("name", "system", "done", "most"), MADE, ids=[f"{one[0]}-{one[2][0]}" for one in MADE]
)
def test_it_takes_few_touches_beyond_its_digits(at, name, system, done, most):  # noqa: F811
    job = make_job(**system)
    page = at(f"/step/{name}/?job={job.key}", **PORTRAIT)
    touched = 0
    for one in done:
        touched += 1
        field, _, typed = one.partition(":")
        if typed:
            page.locator(f"#id_{field}").tap()
            keys(page, typed)
        elif one == "fine":
            page.locator("[data-fine]").tap()
        else:
            answer(page, *one.split("="))
    with page.expect_navigation():
        page.locator("button.bar").tap()
    touched += 1
    step = Step.objects.get(job=job, kind=name)
    told = [one.partition(":")[0].partition("=")[0] for one in done if one != "fine"]
    assert set(told) <= set(step.readings)
    assert touched <= most


def test_a_car_that_bars_it_says_why(at):  # noqa: F811
    page = at(f"/step/hub_turn/?job={make_job(**ELECTRIC).key}", **PORTRAIT)
    expect(page.locator("[data-barred]")).to_contain_text("there is no hub to turn")


def test_who_does_high_voltage_is_asked_for_as_soon_as_it_was_done(at):  # noqa: F811
    page = at(f"/step/hv_isolation/?job={make_job(**ELECTRIC).key}", **PORTRAIT)
    expect(page.locator("[data-asked=insulation]")).to_be_hidden()
    answer(page, "proof", "dead")
    expect(page.locator("[data-gate=qualified_first]")).to_be_visible()
    expect(page.locator("[data-asked=insulation]")).to_be_visible()
    answer(page, "qualified", "yes")
    expect(page.locator("[data-gate=qualified_first]")).to_be_hidden()


def test_the_curve_and_both_boiling_points_show_below_the_pressures(at):  # noqa: F811
    page = at(f"/step/running_pressures/?job={make_job(**BELT).key}", **PORTRAIT)
    for name, typed in (("low", "200"), ("high", "1200"), ("ambient", "30")):
        page.locator(f"#id_{name}").tap()
        keys(page, typed)
    below = page.locator("#meaning")
    expect(below).to_contain_text("Low side boils at")
    expect(below.locator("svg.plot")).to_be_visible()
