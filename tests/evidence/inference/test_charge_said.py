"""A charge that is said to be known counts once, against what it cannot be, and proves nothing."""

from dataclasses import replace

import pytest

from diagnostics.evidence.inference.charge_said import SAID, charge_said
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.told import Test as Made
from tests.evidence.inference.cars import CLUTCHED, verdict_on

AMOUNTS = model_of(CLUTCHED).answers["amount"]


def told(*charges: str) -> list[Made]:
    kinds = (("running_pressures", "starved"), ("line_temperatures", "no_step"))
    return [
        Made(number, kind, outcome, "yes", 0, charge)
        for number, ((kind, outcome), charge) in enumerate(zip(kinds, charges, strict=True), 1)
    ]


def share(tests: list[Made], code: str) -> float:
    return verdict_on(tests).of("amount", code).share


def test_every_way_of_saying_it_has_a_share_for_every_amount():
    for how in SAID:
        table = charge_said("amount", how, AMOUNTS).values
        assert table.max() == 1
        assert table.min() > 0


@pytest.mark.parametrize("how", SAID)
def test_what_is_said_to_be_known_is_less_likely_low_or_empty(how):
    for code in ("low", "empty"):
        assert share(told(how, ""), code) < share(told("", ""), code) / 5


def test_said_beside_two_tests_it_counts_once():
    assert share(told("weighed_in", "weighed_in"), "low") == share(told("weighed_in", ""), "low")


def test_what_is_said_proves_no_amount():
    for code in (*AMOUNTS, "not_ok"):
        assert verdict_on(told("weighed_in", "weighed_in")).of("amount", code).standing != "proved"


def test_beside_a_test_that_does_not_see_the_amount_it_changes_nothing():
    silent = Made(1, "air_gap", "inside", "yes")
    said = replace(silent, charge="agrees")
    assert share([said], "low") == share([silent], "low")


def test_the_pressures_of_a_blocked_device_speak_more_against_the_flow_where_the_charge_is_known():
    known, unknown = (verdict_on(told(how, "")).of("flow", "not_ok") for how in ("weighed_in", ""))
    assert known.share > unknown.share
    assert known.standing == "likely"
