"""Temperatures along the loop: a step where liquid only passes, and nothing held without a source.

A temperature drop across the part is the proof needed before a blocked one is named: trade
articles. Superheat and subcooling have no normal range with a source: shown, held to nothing.
"""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

LINE = Trial("line_temperatures")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
RUNS = {"running": "yes", "by": "clamp"}

PATTERNS = [
    (RUNS | {"drier_in": "48", "drier_out": "36"}, "step_drier"),
    (RUNS | {"condenser_out": "48", "device_in": "36"}, "step_liquid"),
    (RUNS | {"frost": "drier"}, "frost_early"),
    (RUNS | {"frost": "liquid", "drier_in": "48", "drier_out": "48"}, "frost_early"),
    (RUNS | {"device_in": "40", "device_out": "40"}, "no_drop"),
    (RUNS | {"frost": "suction"}, "frost_suction"),
    (RUNS | {"drier_in": "48", "drier_out": "47"}, "no_step"),
    (RUNS | {"suction": "12"}, "recorded"),
    (RUNS | {"by": "bright", "drier_in": "48", "drier_out": "36"}, "recorded"),
    ({"running": "no", "drier_in": "48", "drier_out": "36"}, "nothing_told"),
    ({"drier_in": "48", "drier_out": "36"}, "nothing_told"),
    (RUNS, "nothing_told"),
    (RUNS | {"frost": "none"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert LINE.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in LINE.kind.outcomes}


def test_a_step_across_the_drier_points_at_it_and_shows_the_number():
    result = LINE.meaning(CAR, **RUNS, drier_in="48", drier_out="36")
    assert standing(result, "Drier blocked") == "likely"
    assert "12\u00a0K" in [value.shown for value in result.values]


@pytest.mark.parametrize(("behind", "code"), [("46", "no_step"), ("44", "no_step")])
def test_what_a_thermometer_may_scatter_is_no_step(behind, code):
    assert LINE.code(CAR, **RUNS, drier_in="48", drier_out=behind) == code


# Mistakes: superheat and subcooling judged by memory; the compressor named while charge is unknown.


def test_superheat_and_subcooling_are_shown_and_held_to_nothing():
    typed = RUNS | {"suction": "12", "low": "200", "condenser_out": "40", "high": "1200"}
    result = LINE.meaning(CAR, **typed)
    assert {"Superheat", "Subcooling"} <= {value.words for value in result.values}
    assert subjects(result, "likely", "proved", "ruled_out") == []


def test_no_drop_at_the_device_names_no_part_while_the_charge_is_not_known():
    typed = RUNS | {"device_in": "40", "device_out": "40"}
    assert subjects(LINE.meaning(CAR, **typed), "open") == ["Charge"]
    known = LINE.meaning(CAR, **typed, charge_known="weighed_in")
    assert subjects(known, "likely", "proved") == []
    for result in (LINE.meaning(CAR, **typed), known):
        assert not any("ompressor" in mark.subject for mark in result.outcome.marks)


def test_at_rest_nothing_is_made_of_it():
    result = LINE.meaning(CAR, running="no", drier_in="48", drier_out="36")
    assert "a loop at rest tell nothing" in result.outcome.sentence
    assert not result.outcome.carries


def test_bright_metal_is_recorded_and_not_judged():
    result = LINE.meaning(CAR, **RUNS | {"by": "bright"}, drier_in="48", drier_out="36")
    assert any("Bright metal fools" in note for note in result.notes)
    assert result.outcome.marks == ()


def test_behind_the_condenser_hotter_than_before_it_is_asked_about():
    assert list(LINE.asks(CAR, **RUNS, discharge="40", condenser_out="70")) == ["condenser_out"]


def test_what_was_not_read_is_named():
    words = " ".join(words_of(LINE.meaning(CAR, **RUNS, suction="12")))
    for place in ("Before the drier", "Behind the expansion device", "Charge: not known"):
        assert place in words
