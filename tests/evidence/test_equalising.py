"""How fast both sides meet: a weak sign. All bands are our judgement, no source gives any."""

import pytest

from diagnostics.evidence.charge_told import WEIGH_FIRST
from diagnostics.evidence.orders import OWN_HOSES, RUN
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

EVEN = Trial("equalising")
FIXED: System = {"drive": "belt_clutch", "displacement": "fixed"}
RIGHT = {"pumped": "yes", "charge_known": "weighed_in"}

PATTERNS = [
    ({"seconds": "4"}, "at_once"),
    ({"seconds": "20"}, "quick"),
    ({"seconds": "90"}, "usual"),
    ({"seconds": "2 min"}, "usual"),
    ({"seconds": "400"}, "slow"),
    ({"apart": "yes"}, "slow"),
    ({"seconds": "9"}, "between"),
    ({"seconds": "301"}, "between"),
    ({"apart": "no"}, "nothing_told"),
    ({"seconds": "4", "pumped": "no"}, "nothing_told"),
    ({"device": "orifice"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_time_has_its_outcome(typed, outcome):
    assert EVEN.code(FIXED, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in EVEN.kind.outcomes}


@pytest.mark.parametrize("typed", [typed for typed, _outcome in PATTERNS])
def test_a_time_never_points_at_a_part_and_rules_none_out(typed):
    assert subjects(EVEN.meaning(FIXED, **typed), "likely", "proved", "ruled_out") == []


def test_while_the_charge_is_not_known_a_fast_one_names_no_part():
    result = EVEN.meaning(FIXED, seconds="4", pumped="yes")
    assert [mark.subject for mark in result.outcome.marks] == ["Charge"]
    assert WEIGH_FIRST in result.outcome.marks[0].sentence
    assert not any("ompressor" in text or "alve plate" in text for text in words_of(result))


def test_with_the_charge_right_a_fast_one_leaves_two_suspects_open():
    result = EVEN.meaning(FIXED, seconds="4", **RIGHT)
    assert standing(result, "What keeps") == "open"
    assert "weak sign" in result.outcome.marks[0].sentence


def test_sides_that_never_stood_apart_carry_nothing():
    result = EVEN.meaning(FIXED, seconds="4", pumped="no")
    assert not result.outcome.carries
    assert "nothing to even out" in result.outcome.sentence


def test_a_valve_that_closes_at_rest_is_told_beside_a_slow_one():
    assert "closes at rest" in EVEN.words(FIXED, apart="yes", device="valve")
    assert "closes at rest" not in EVEN.words(FIXED, apart="yes", device="orifice")


def test_the_bands_are_said_to_be_our_judgement():
    assert "Our judgement, no source" in EVEN.meaning(FIXED, seconds="90").band


def test_a_time_and_still_apart_do_not_fit():
    assert "seconds" in EVEN.asks(FIXED, seconds="20", apart="yes")
    assert not EVEN.meaning(FIXED, seconds="20", apart="yes").outcome.carries


def test_a_time_below_zero_is_impossible_and_is_not_called_unread():
    result = EVEN.meaning(FIXED, seconds="-5")
    assert "kept as typed, not used" in result.outcome.sentence
    assert any("below zero" in one for one in EVEN.asks(FIXED, seconds="-5")["seconds"])


def test_gas_hub_and_charge_come_first():
    assert EVEN.kind.orders == (*OWN_HOSES, *RUN)


def test_the_title_is_spelled_as_on_screen():
    assert EVEN.kind.title.startswith("Equalizing")
