"""Tests that do not go together with the others are offered again, until readings say alike."""

import pytest

from diagnostics.evidence.case import case_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.evaluate import evaluate
from diagnostics.evidence.inference.disagree import Disagree
from diagnostics.evidence.made_again import to_make_again
from diagnostics.evidence.orders import Made
from diagnostics.evidence.plan import Asked
from diagnostics.evidence.tables import TABLES

CAR = {"drive": "belt_clutch", "clutch": "magnetic", "displacement": "fixed", "voltage": "12"}
ODD = Disagree("odd", ("hub_turn", "limiter"), (1, 2), "hub_turn")
PATTERN = Disagree("pattern", ("hub_turn",), (1, 2))


def asked(*read: str) -> Asked:
    made = tuple(Made("hub_turn", outcome) for outcome in read)
    return Asked({}, made, frozenset({"hub_turn", "fuse"}))


def offered(*told: tuple[str, str]) -> dict[str, str]:
    """The reason of each test that is offered."""
    steps = [{"kind": kind, "outcome": outcome} for kind, outcome in told]
    case = case_of({"car": CAR, "failing_now": "yes", "steps": steps}, KINDS)
    after = evaluate(case, KINDS, TABLES)["next"]
    return {one["kind"]: one["reason"] for one in (after["best"], *after["others"]) if one}


@pytest.mark.parametrize("read", [("free",), ("free", "locked")])
def test_a_test_at_odds_is_free_again_while_its_readings_do_not_say_alike(read):
    found = to_make_again(asked(*read), [ODD])
    assert found.done == {"fuse"}
    assert found.again == {"hub_turn"}


@pytest.mark.parametrize("read", [("free", "free"), ("free", "locked", "free")])
def test_what_two_readings_say_alike_is_not_asked_for_again(read):
    assert to_make_again(asked(*read), [ODD]) == asked(*read)


def test_a_pattern_asks_for_nothing():
    assert to_make_again(asked("free"), [PATTERN]) == asked("free")


@pytest.mark.parametrize(
    ("told", "again"),
    [
        ((("coil_power", "takes_hold"), ("coil_resistance", "open")), "coil_power"),
        ((("hub_turn", "locked"), ("hub_turn", "free")), "hub_turn"),
        ((("air_gap", "too_small"), ("coil_power", "holds_when_pushed")), "coil_power"),
    ],
)
def test_what_is_planned_offers_the_test_that_the_disagreement_names_and_says_why(told, again):
    assert "does not go together" in offered(*told)[again]


def test_where_nothing_is_at_odds_no_test_is_offered_twice():
    assert "fuse" not in offered(("fuse", "blown"), ("coil_resistance", "inside"))
