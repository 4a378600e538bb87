"""The compressor's tests on a tablet: they open without trouble and take few touches."""

import pytest
from playwright.sync_api import expect

from tests.browser.touch import PORTRAIT, Car, Made, answer, keys, made_by_touch
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)

BELT: Car = {"drive": "belt_clutch", "displacement": "fixed", "refrigerant": "R-134a"}
OUTER: Car = {
    "drive": "belt_clutchless",
    "displacement": "variable_outer",
    "refrigerant": "R-134a",
}
ELECTRIC: Car = {
    "drive": "electric_hv",
    "displacement": "speed",
    "refrigerant": "R-134a",
}
PROVEN_DEAD = ("qualified=yes", "plug=out", "waited:10", "figure:5", "proof=dead", "volts:0.3")
RUNNING = ("low:200", "high:1200", "ambient:30")
MADE: list[Made] = [
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
    ("hv_isolation", ELECTRIC, PROVEN_DEAD, 7),
    ("hv_isolation", ELECTRIC, ("qualified=yes", "plug=out", "waited:2", "proof=alive"), 5),
]
test_it_opens_and_scrolls_down_only, test_it_takes_few_touches = made_by_touch(MADE)


def test_a_car_that_bars_it_says_why(at):
    page = at(f"/step/hub_turn/?job={make_job(**ELECTRIC).key}", **PORTRAIT)
    expect(page.locator("[data-barred]")).to_contain_text("there is no hub to turn")


def test_who_does_high_voltage_is_asked_for_as_soon_as_it_was_done(at):
    page = at(f"/step/hv_isolation/?job={make_job(**ELECTRIC).key}", **PORTRAIT)
    expect(page.locator("[data-asked=insulation]")).to_be_hidden()
    answer(page, "proof", "dead")
    expect(page.locator("[data-gate=qualified_first]")).to_be_visible()
    expect(page.locator("[data-asked=insulation]")).to_be_visible()
    answer(page, "qualified", "yes")
    expect(page.locator("[data-gate=qualified_first]")).to_be_hidden()


def test_the_curve_and_both_boiling_points_show_below_the_pressures(at):
    page = at(f"/step/running_pressures/?job={make_job(**BELT).key}", **PORTRAIT)
    for name, typed in (("low", "200"), ("high", "1200"), ("ambient", "30")):
        page.locator(f"#id_{name}").tap()
        keys(page, typed)
    below = page.locator("#meaning")
    expect(below).to_contain_text("Low side boils at")
    expect(below.locator("svg.plot")).to_be_visible()
