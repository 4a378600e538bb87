"""The tests of the command on a tablet: they open without trouble and take few touches."""

import pytest
from playwright.sync_api import expect

from diagnostics.models import Step
from tests.browser.touch import PORTRAIT, Made, answer, made_by_touch, touches
from tests.factories import make_job

pytestmark = pytest.mark.django_db(transaction=True)

LOADED = ("load=coil", "commanded=yes", "volts:13.4", "battery:13.6", "black=minus", "carries=yes")
MADE: list[Made] = [
    ("fuse", {}, ("looked=blown", "rating=same"), 3),
    ("relay", {}, ("click=no",), 2),
    ("pressure_switch", {}, ("type=low_switch", "contacts=open", "rest:200", "temperature:20"), 5),
    ("command_data", {}, ("power=on", "asked=yes", "commanded=no"), 4),
    ("feed_voltage", {}, LOADED, 7),
    ("feed_drop", {}, ("volts:0.12", "carries=yes"), 3),
    ("ground_drop", {}, ("volts:0.05", "carries=yes"), 3),
]
test_it_opens_and_scrolls_down_only, test_it_takes_few_touches = made_by_touch(MADE)


@pytest.mark.parametrize("name", ["fuse", "relay", "pressure_switch", "command_data"])
def test_nothing_wrong_is_two_touches(at, name):
    assert touches(at, name, {}, ("fine",)) == 2
    assert Step.objects.get(kind=name).marks == []


def test_a_test_without_numbers_has_no_pad(at):
    page = at(f"/step/command_data/?job={make_job().key}", **PORTRAIT)
    answer(page, "power", "on")
    expect(page.locator(".pad")).to_have_count(0)


def test_a_bridge_of_a_sensor_is_not_offered_and_what_was_done_is_told_at_once(at):
    page = at(f"/step/pressure_switch/?job={make_job().key}", **PORTRAIT)
    answer(page, "type", "sensor")
    expect(page.locator("[data-asked=bridged]")).to_be_hidden()
    answer(page, "all_the_same", "yes")
    expect(page.locator("[data-gate=never_bridged]")).to_be_visible()


def test_a_bridge_of_a_low_pressure_switch_is_offered_once_charge_and_engine_are_told(at):
    page = at(f"/step/pressure_switch/?job={make_job().key}", **PORTRAIT)
    answer(page, "type", "low_switch")
    comes_on = page.locator("label:has([name=bridged][value=comes_on])")
    expect(comes_on).to_be_hidden()
    answer(page, "engine", "running")
    expect(comes_on).to_be_hidden()
    answer(page, "ready", "yes")
    expect(comes_on).to_be_visible()
