"""The belt drive: a belt that slips makes a clutch look weak. Common practice, no source."""

import pytest

from diagnostics.evidence.cautions import STOP_DRIVING
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

BELT = Trial("belt_drive")
CAR: System = {"drive": "belt_clutch"}

PATTERNS = [
    ({"belt": "missing"}, "missing"),
    (BELT.fine | {"load": "slips"}, "slips"),
    (BELT.fine | {"load": "slips", "loose": "yes"}, "slips_seen_why"),
    (BELT.fine | {"wobble": "yes"}, "wobbles"),
    (BELT.fine | {"loose": "yes"}, "loose"),
    (BELT.fine | {"tensioner": "beyond"}, "loose"),
    (BELT.fine | {"oily": "yes"}, "oily"),
    (BELT.fine | {"glazed": "yes"}, "worn"),
    (BELT.fine, "fine"),
    (BELT.fine | {"tensioner": "no_mark"}, "fine"),
    ({"load": "holds", "engaged": "yes"}, "holds"),
    ({"load": "holds"}, "nothing_told"),
    ({"load": "holds", "engaged": "no"}, "nothing_told"),
    ({"load": "holds", "engaged": "not_seen"}, "nothing_told"),
    ({"belt": "on"}, "nothing_told"),
    (BELT.fine | {"oily": "not_looked"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert BELT.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in BELT.kind.outcomes}


def test_all_that_was_seen_is_shown_not_only_the_weightiest():
    result = BELT.meaning(CAR, load="slips", oily="yes", cracked="yes")
    assert len(subjects(result, "proved")) == 3


def test_a_belt_that_slips_leaves_open_what_makes_it_slip():
    result = BELT.meaning(CAR, load="slips")
    assert standing(result, "Why it slips") == "open"
    assert "a stiff compressor makes a sound belt slip" in result.onward[0]


def test_a_look_says_nothing_of_slip_under_load():
    result = BELT.meaning(CAR, **BELT.fine)
    assert "Slip under load: not tested." in result.outcome.not_tested
    assert subjects(result, "ruled_out") == []
    held = BELT.meaning(CAR, **BELT.fine, load="holds", engaged="yes")
    assert standing(held, "Belt slipping") == "ruled_out"


@pytest.mark.parametrize("typed", [{"belt": "missing"}, {"wobble": "yes"}])
def test_a_thrown_belt_or_a_wobble_tells_the_customer_to_stop_driving(typed):
    assert STOP_DRIVING in BELT.meaning(CAR, **typed).notes
    assert STOP_DRIVING not in BELT.meaning(CAR, **BELT.fine).notes


@pytest.mark.parametrize(
    "typed",
    [
        {"belt": "missing", "load": "slips"},
        {"belt": "missing", "loose": "yes"},
        {"belt": "missing", "tensioner": "inside", "wobble": "yes"},
    ],
)
def test_a_belt_told_as_missing_stops_the_driving_though_it_is_at_odds_with_the_rest(typed):
    result = BELT.meaning(CAR, **typed)
    assert result.outcome.sentence == "Nothing is made of it."
    assert STOP_DRIVING in result.notes


def test_every_belt_that_is_missing_or_wobbles_stops_the_driving_whatever_else_is_seen():
    assert STOP_DRIVING in BELT.meaning(CAR, wobble="yes", load="slips", engaged="yes").notes


def test_a_missing_belt_that_was_tried_under_load_is_asked_about():
    assert list(BELT.asks(CAR, belt="missing", load="slips")) == ["load"]


@pytest.mark.parametrize("told", [{"tensioner": "inside"}, {"loose": "yes"}])
def test_a_missing_belt_is_neither_tight_nor_loose(told):
    assert list(BELT.asks(CAR, belt="missing", **told)) == list(told)
    assert BELT.asks(CAR, belt="on", **told) == {}


def test_only_the_try_under_load_has_to_wait_for_hub_and_pressure():
    assert BELT.kind.orders_broken(BELT.readings(load="slips"), [], CAR)
    assert not BELT.kind.orders_broken(BELT.readings(belt="on"), [], CAR)


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_it_is_barred_where_no_belt_turns_it(drive):
    assert BELT.kind.forbids({"drive": drive})
    assert BELT.code({"drive": drive}, load="slips") == "nothing_told"


@pytest.mark.parametrize("engaged", ["", "no", "not_seen"])
def test_a_belt_that_held_says_nothing_of_load_unless_the_compressor_was_engaged(engaged):
    alone = BELT.meaning(CAR, load="holds", engaged=engaged)
    assert alone.onward == ("Try it under load again, the compressor engaged.",)
    assert not alone.outcome.carries
    assert "engaged" in alone.outcome.sentence
    looked = BELT.meaning(CAR, **BELT.fine, load="holds", engaged=engaged)
    assert subjects(looked, "ruled_out") == []
    assert looked.onward == alone.onward
    assert any("Slip under load: not tested" in one for one in looked.outcome.not_tested)


def test_a_belt_that_slips_with_the_compressor_let_go_is_not_slipping_by_its_load():
    result = BELT.meaning(CAR, load="slips", engaged="no")
    assert result.outcome.code == "slips"
    assert "under load" not in result.outcome.sentence
    why = next(mark for mark in result.outcome.marks if mark.subject == "Why it slips")
    assert "compressor that turns hard" not in why.sentence
    assert "stiff compressor" not in " ".join(result.onward)


def test_whether_it_was_engaged_is_asked_only_of_a_belt_tried_under_load():
    assert list(BELT.asks(CAR, belt="on", engaged="yes")) == ["engaged"]
    assert BELT.asks(CAR, belt="on", load="holds", engaged="yes") == {}
