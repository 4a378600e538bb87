"""A vent's temperature: recorded with what it hangs on, and held to no limit.

Vent temperature depends on ambient, humidity, rpm, fan, doors, recirculation and minutes run: trade
articles. The normal ranges in circulation have no source.
"""

import re

import pytest
from CoolProp.HumidAirProp import HAPropsSI

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

VENT = Trial("vent_temperature")
CAR: System = {"drive": "belt_clutch"}
RUN = {"minutes": "10"}

PATTERNS = [
    (RUN | {"vent": "8", "intake": "30"}, "colder"),
    (RUN | {"vent": "30", "intake": "30"}, "no_colder"),
    (RUN | {"vent": "45", "intake": "30"}, "warmer"),
    ({"vent": "30", "intake": "30"}, "cannot_tell"),
    ({"vent": "30", "intake": "30", "minutes": "3"}, "cannot_tell"),
    (RUN | {"vent": "9", "intake": "9"}, "too_cold"),
    (RUN | {"vent": "14", "intake": "9"}, "too_cold"),
    (RUN | {"vent": "8"}, "nothing_told"),
    ({"vent": "8", "intake": "30", "minutes": "0"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert VENT.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in VENT.kind.outcomes}


def test_how_cold_it_should_be_is_judged_nowhere():
    for vent in ("1", "8", "15", "22"):
        result = VENT.meaning(CAR, **RUN, vent=vent, intake="35")
        assert result.outcome.code == "colder"
        assert standing(result, "Cold enough") == "open"
        assert not re.search(r"should|normal range|good|poor", " ".join(words_of(result)).lower())


def test_too_cold_outside_is_an_honest_end():
    result = VENT.meaning(CAR, **RUN, vent="9", intake="9")
    assert result.outcome.sentence.startswith("Not showable at 9\u00a0°C")
    assert not result.outcome.carries


def test_every_condition_that_was_not_noted_is_named():
    missing = " ".join(VENT.meaning(CAR, vent="8", intake="30").outcome.not_tested)
    for words in ("humidity", "Where the air comes from", "Blower", "Doors", "Minutes", "Engine"):
        assert words in missing


def test_the_dew_point_of_what_goes_in_is_that_of_the_handbooks():
    result = VENT.meaning(CAR, **RUN, vent="8", intake="30", humidity="50")
    (dew,) = [value for value in result.values if value.words.startswith("Dew point")]
    expected = HAPropsSI("D", "T", 303.15, "R", 0.5, "P", 101325)
    assert dew.si == pytest.approx(expected, abs=0.1)
    assert dew.shown == "18\u00a0°C"


def test_dry_air_is_dried_no_further():
    result = VENT.meaning(CAR, **RUN, vent="20", intake="30", humidity="10")
    assert not any(value.words.startswith("Of the heat") for value in result.values)


# Mistake: the rear branch forgotten.


def test_a_rear_unit_that_was_not_measured_is_named():
    rear: System = {**CAR, "branches": ["front", "rear"]}
    line = "Rear unit’s vent: not measured by this step."
    for branch, named in (("front", True), ("rear", False)):
        result = VENT.meaning(rear, **RUN, vent="8", intake="30", branch=branch)
        assert (line in result.outcome.not_tested) is named


def test_colder_is_no_pass_for_the_rest():
    assert subjects(VENT.meaning(CAR, **RUN, vent="8", intake="30"), "ruled_out") == [
        "No cold at all"
    ]
    assert not VENT.meaning(CAR, failing="no", **RUN, vent="8", intake="30").outcome.carries


def test_air_far_below_freezing_is_asked_about():
    assert "vent" in VENT.asks(CAR, **RUN, vent="-12", intake="30")


def test_without_the_minutes_it_ran_no_cold_is_not_ruled_out():
    assert subjects(VENT.meaning(CAR, vent="22", intake="40"), "ruled_out", "proved") == []


# Mistakes: our own limit told as if it were known; hot metal early on taken for a fault.


def test_the_warmth_below_which_nothing_shows_is_said_to_be_our_judgement():
    sentence = VENT.meaning(CAR, **RUN, vent="9", intake="9").outcome.sentence
    assert "below 15\u00a0°C (our judgement)" in sentence


@pytest.mark.parametrize("run", [{}, {"minutes": "3"}], ids=["not told", "early"])
def test_how_long_it_must_run_is_said_to_be_our_judgement(run):
    sentence = VENT.meaning(CAR, **run, vent="30", intake="30").outcome.sentence
    assert "5\u00a0min" in sentence
    assert "(our judgement)" in sentence


@pytest.mark.parametrize(
    ("run", "stands"), [({}, "open"), ({"minutes": "2"}, "open"), (RUN, "likely")]
)
def test_a_vent_warmer_early_on_points_nowhere_yet(run, stands):
    result = VENT.meaning(CAR, **run, vent="45", intake="30")
    assert standing(result, "Heat gets into the air") == stands


def test_a_vent_warmer_early_on_is_run_longer_first():
    assert "ten minutes" in VENT.meaning(CAR, vent="45", intake="30").onward[0]
    assert "Pinch" in VENT.meaning(CAR, **RUN, vent="45", intake="30").onward[0]
