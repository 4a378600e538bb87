"""The condenser's fans: what stands, what turns, and what neither tells. Common practice."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, asked_on, standing, subjects

FAN = Trial("condenser_fan")
CAR: System = {"drive": "belt_clutch"}
ASKED = {"asked": "yes"}

PATTERNS = [
    (ASKED | {"fan_1": "stands"}, "one_stands"),
    (ASKED | {"fan_1": "stands", "fan_2": "not_fitted"}, "all_stand"),
    (ASKED | {"fan_1": "stands", "fan_2": "runs"}, "one_stands"),
    (ASKED | {"fan_1": "push"}, "push"),
    (ASKED | {"fan_1": "runs", "air": "forward"}, "backwards"),
    (ASKED | {"fan_1": "backwards"}, "backwards"),
    ({"belt_fan": "loose"}, "loose"),
    ({"belt_fan": "drags"}, "belt_only"),
    ({"belt_fan": "drags", "air": "drawn"}, "belt_only"),
    ({"belt_fan": "drags", "speeds": "no"}, "belt_only"),
    ({"belt_fan": "drags", "fan_1": "not_fitted", "fan_2": "not_fitted"}, "belt_only"),
    (ASKED | {"fan_1": "runs", "air": "hardly"}, "hardly"),
    (ASKED | {"fan_1": "runs", "speeds": "no"}, "no_faster"),
    (FAN.fine, "runs"),
    (ASKED | {"fan_1": "runs"}, "runs_only"),
    ({"fan_1": "stands"}, "nothing_told"),
    ({"fan_1": "stands", "asked": "no"}, "nothing_told"),
    ({"fan_1": "push", "asked": "no"}, "nothing_told"),
    ({"fan_1": "push"}, "nothing_told"),
    ({"fan_1": "backwards", "fan_2": "runs", "asked": "no"}, "nothing_told"),
    ({"fan_1": "not_fitted", "fan_2": "not_fitted"}, "nothing_told"),
    (ASKED, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert FAN.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in FAN.kind.outcomes}


def test_a_fan_that_stands_while_nobody_asked_for_cold_says_nothing():
    result = FAN.meaning(CAR, fan_1="stands", asked="no")
    assert "nothing is made of it" in result.outcome.sentence
    assert result.outcome.marks == ()


def test_a_fan_that_stands_is_seen_and_why_stays_open():
    result = FAN.meaning(CAR, **ASKED, fan_1="stands")
    assert standing(result, "A fan stands") == "proved"
    assert standing(result, "Why it stands") == "open"
    assert standing(result, "Air through the condenser") == "likely"


def test_a_fan_that_runs_does_not_tell_how_much_air_goes_through():
    result = FAN.meaning(CAR, **FAN.fine)
    assert standing(result, "Air through the condenser") == "open"
    assert "What the fans do hot, in traffic, or with the wind: not tested." in (
        result.outcome.not_tested
    )


def test_air_without_a_fan_that_turns_is_asked_about():
    assert list(FAN.asks(CAR, **ASKED, fan_1="stands", air="drawn")) == ["air"]
    assert FAN.asks(CAR, **ASKED, fan_1="stands", air="drawn", belt_fan="drags") == {}


def test_current_in_a_fan_that_stands_is_asked_about():
    assert list(FAN.asks(CAR, **ASKED, fan_1="stands", amps="12")) == ["amps"]


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_a_fan_on_the_engine_is_asked_only_where_a_belt_turns_something(drive):
    assert "belt_fan" not in asked_on(FAN.kind, {"drive": drive})
    assert "belt_fan" in asked_on(FAN.kind, CAR)


def test_blades_that_start_alone_are_warned_of_first():
    assert "start alone" in FAN.kind.cautions[0]


def test_no_part_is_shown_to_be_at_fault_by_a_look():
    for typed, _outcome in PATTERNS:
        assert set(subjects(FAN.meaning(CAR, **typed), "proved")) <= {"A fan stands"}


def test_a_second_fan_that_was_not_told_is_neither_standing_nor_ruled_out():
    assert subjects(FAN.meaning(CAR, **FAN.fine), "ruled_out") == []
    both = FAN.meaning(CAR, **FAN.fine, fan_2="not_fitted")
    assert subjects(both, "ruled_out") == ["Condenser fan standing"]


def test_a_fan_on_the_engine_does_not_make_the_fans_run():
    result = FAN.meaning(CAR, belt_fan="drags")
    assert result.outcome.sentence == "The fan on the engine drags; no electric fan was told."
    assert "Fan 1: not told." in result.outcome.not_tested
    assert "fans run" not in FAN.words(CAR, belt_fan="drags", air="drawn", asked="yes")


def test_where_no_electric_fan_is_fitted_none_is_missing():
    none = {"fan_1": "not_fitted", "fan_2": "not_fitted"}
    result = FAN.meaning(CAR, belt_fan="drags", **none)
    assert result.outcome.sentence == "The fan on the engine drags; no electric fan is fitted."
    assert not any("Fan 1" in one for one in result.outcome.not_tested)


@pytest.mark.parametrize("asked", ["no", "cannot_tell", ""])
def test_a_fan_nobody_asked_for_that_moves_by_hand_says_nothing_about_its_motor(asked):
    result = FAN.meaning(CAR, fan_1="push", asked=asked)
    assert "nothing is made of it" in result.outcome.sentence
    assert result.outcome.marks == ()
    assert not result.outcome.carries


def test_a_fan_that_starts_only_when_pushed_though_asked_for_points_at_its_motor():
    assert standing(FAN.meaning(CAR, **ASKED, fan_1="push"), "Fan’s motor") == "likely"


def test_a_fan_beside_one_that_runs_may_be_turned_backwards_by_its_draft():
    beside = FAN.meaning(CAR, **ASKED, fan_1="backwards", fan_2="runs")
    assert standing(beside, "Fan put in or wired") == "open"
    assert standing(FAN.meaning(CAR, **ASKED, fan_1="backwards"), "Fan put in or wired") == "likely"


def test_one_fan_that_was_told_speaks_for_no_other():
    assert FAN.meaning(CAR, **ASKED, fan_1="runs").outcome.sentence == "Fan 1 runs."
    both = FAN.meaning(CAR, **ASKED, fan_1="runs", fan_2="runs")
    assert both.outcome.sentence == "Both fans run."
