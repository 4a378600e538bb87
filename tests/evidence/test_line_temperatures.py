"""Temperatures along the loop: a step where liquid only passes, and nothing held without a source.

A temperature drop across the part is the proof needed before a blocked one is named: trade
articles. Superheat and subcooling have no normal range with a source: shown, held to nothing.
"""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

LINE = Trial("line_temperatures")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
CO2: System = {"drive": "belt_clutch", "refrigerant": "R-744"}
RUNS = {"running": "yes", "by": "clamp"}
DRIER = RUNS | {"vessel": "drier"}
ACROSS = {"drier_in": "48", "drier_out": "36"}
ALONG = {"condenser_out": "48", "device_in": "36"}
WHICH = "between condenser and expansion device, or between evaporator and compressor"

PATTERNS = [
    (DRIER | ACROSS, "step_drier"),
    (RUNS | ACROSS, "step_drier"),
    (RUNS | ALONG | {"exchanger": "not_fitted"}, "step_liquid"),
    (RUNS | ALONG, "step_exchanger"),
    (RUNS | ALONG | {"exchanger": "fitted"}, "step_exchanger"),
    (DRIER | {"frost": "drier"}, "frost_early"),
    (RUNS | {"frost": "liquid", "drier_in": "48", "drier_out": "48"}, "frost_early"),
    (RUNS | {"device_in": "40", "device_out": "40"}, "no_drop"),
    (RUNS | {"frost": "suction"}, "frost_suction"),
    (DRIER | {"drier_in": "48", "drier_out": "47"}, "no_step"),
    (RUNS | {"condenser_out": "48", "device_in": "47"}, "no_step"),
    (RUNS | {"drier_in": "48", "drier_out": "47"}, "recorded"),
    (RUNS | {"suction": "12"}, "recorded"),
    (RUNS | {"vessel": "accumulator", "frost": "drier"}, "recorded"),
    (DRIER | {"by": "bright"} | ACROSS, "recorded"),
    (DRIER | {"running": "no"} | ACROSS, "nothing_told"),
    (ACROSS, "nothing_told"),
    (RUNS | {"frost": "drier"}, "nothing_told"),
    (RUNS, "nothing_told"),
    (RUNS | {"frost": "none"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert LINE.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in LINE.kind.outcomes}


def test_a_step_across_the_drier_points_at_it_and_shows_the_number():
    result = LINE.meaning(CAR, **DRIER, **ACROSS)
    assert standing(result, "Drier blocked") == "likely"
    assert "12\u00a0K" in [value.shown for value in result.values]


@pytest.mark.parametrize(("behind", "code"), [("46", "no_step"), ("44", "no_step")])
def test_what_a_thermometer_may_scatter_is_no_step(behind, code):
    assert LINE.code(CAR, **DRIER, drier_in="48", drier_out=behind) == code


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


# An accumulator sits in the suction line, where cold and frost are as they should be; a drier in
# the liquid line; an exchanger cools the liquid on purpose: common practice, no source.


def test_frost_at_a_drier_in_the_liquid_line_points_at_it():
    assert standing(LINE.meaning(CAR, **DRIER, frost="drier"), "Liquid line, drier") == "likely"


def test_frost_at_one_of_the_two_that_is_not_told_carries_nothing_and_asks_which():
    for vessel in ({}, {"vessel": "cannot_tell"}):
        result = LINE.meaning(CAR, **RUNS, **vessel, frost="drier")
        assert "drier or accumulator" in result.outcome.sentence
        assert result.outcome.marks == ()
        assert WHICH in " ".join(result.onward)


def test_cold_at_an_accumulator_is_no_restriction():
    result = LINE.meaning(CAR, **RUNS, vessel="accumulator", frost="drier", **ACROSS)
    assert result.outcome.marks == ()
    assert any("accumulator" in note and "no restriction" in note for note in result.notes)
    assert not any("the drier" in one for one in result.outcome.not_tested)


def test_temperatures_told_beside_a_drier_where_there_is_an_accumulator_are_asked_about():
    odd = LINE.asks(CAR, **RUNS, vessel="accumulator", **ACROSS)
    assert set(odd) == {"drier_in", "drier_out"}
    assert "accumulator sits in the suction line" in odd["drier_in"][0]


def test_a_step_there_names_no_blocked_drier_while_it_may_be_an_accumulator():
    result = LINE.meaning(CAR, **RUNS, **ACROSS)
    assert standing(result, "Drier blocked") == "open"
    assert "Drier or accumulator: not told." in result.outcome.not_tested


def test_an_exchanger_told_or_not_excluded_leaves_a_step_in_the_liquid_line_open():
    for told in ({}, {"exchanger": "fitted"}, {"exchanger": "cannot_tell"}):
        result = LINE.meaning(CAR, **RUNS, **ALONG, **told)
        assert subjects(result, "likely", "proved") == []
        assert "xchanger" in " ".join(mark.subject for mark in result.outcome.marks)
    without = LINE.meaning(CAR, **RUNS, **ALONG, exchanger="not_fitted")
    assert standing(without, "Liquid line") == "likely"


def test_a_cold_spot_in_the_liquid_line_may_be_the_exchanger():
    assert standing(LINE.meaning(CAR, **RUNS, frost="liquid"), "Liquid line, drier") == "open"
    without = LINE.meaning(CAR, **RUNS, frost="liquid", exchanger="not_fitted")
    assert standing(without, "Liquid line, drier") == "likely"


def test_whether_there_is_an_exchanger_is_named_where_nobody_told():
    line = "Internal heat exchanger: not told."
    assert line in LINE.meaning(CAR, **RUNS, **ALONG).outcome.not_tested
    assert line not in LINE.meaning(CAR, **RUNS, **ALONG, exchanger="fitted").outcome.not_tested


# R-744 has no saturation above its critical temperature, 30.98 °C (CoolProp 8.0.0).


@pytest.mark.parametrize(
    "typed",
    [DRIER | ACROSS, RUNS | ALONG | {"exchanger": "not_fitted"}, RUNS | {"frost": "liquid"},
     RUNS | {"device_in": "40", "device_out": "40"}, DRIER | {"drier_in": "48", "drier_out": "48"}],
)  # fmt: skip
def test_r_744_is_recorded_and_not_judged(typed):
    result = LINE.meaning(CO2, **typed)
    assert result.outcome.sentence == "R-744: recorded, not judged."
    assert result.outcome.marks == ()
    assert not result.outcome.carries


def test_a_refrigerant_that_is_not_noted_is_named():
    line = "Which refrigerant: not noted; on R-744 none of this holds."
    assert line in LINE.meaning({}, **DRIER, **ACROSS).outcome.not_tested
    assert line not in LINE.meaning(CAR, **DRIER, **ACROSS).outcome.not_tested


# What cannot be.


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"vessel": "drier", "drier_in": "40", "drier_out": "44"}, "drier_out"),
        ({"condenser_out": "40", "device_in": "48"}, "device_in"),
        ({"device_in": "10", "device_out": "40"}, "device_out"),
    ],
)
def test_a_part_left_warmer_than_it_was_entered_is_asked_about(typed, field):
    odd = LINE.asks(CAR, **RUNS, **typed)
    assert list(odd) == [field]
    assert "warmer" in odd[field][0]
    assert not LINE.meaning(CAR, **RUNS, **typed).outcome.carries


def test_a_little_warmer_within_the_thermometer_and_the_engine_s_heat_is_not_asked_about():
    assert LINE.asks(CAR, **DRIER, drier_in="40", drier_out="41") == {}
    assert LINE.asks(CAR, **RUNS, condenser_out="40", device_in="43") == {}
    assert LINE.asks(CAR, **DRIER | {"running": "no"}, drier_in="40", drier_out="50") == {}


# R-134a boils at 0.79 °C at 200 kPa gauge at sea level (CoolProp 8.0.0).


def test_a_superheat_far_below_zero_is_asked_about_and_carries_nothing():
    typed = RUNS | {"suction": "-6", "low": "200", "drier_in": "48", "drier_out": "36"}
    (sentence,) = LINE.asks(CAR, **typed)["suction"]
    assert "superheat below zero cannot be" in sentence
    assert not LINE.meaning(CAR, **typed).outcome.carries


def test_a_superheat_a_little_below_zero_is_shown_with_the_word_that_it_cannot_be():
    result = LINE.meaning(CAR, **RUNS, suction="-1", low="200")
    assert any("superheat below zero cannot be" in note for note in result.notes)
    assert LINE.asks(CAR, **RUNS, suction="-1", low="200") == {}
    above = LINE.meaning(CAR, **RUNS, suction="6", low="200")
    assert not any("uperheat" in note for note in above.notes)


def test_sides_the_wrong_way_round_are_asked_about():
    odd = LINE.asks(CAR, **RUNS, suction="60", low="1200", high="500")
    assert any("changed places" in sentence for sentence in odd["low"])


# Order, units.


def test_hoses_have_to_wait_for_the_gas_and_running_for_hub_and_pressure():
    def broken(**typed):
        return [one.code for one in LINE.kind.orders_broken(LINE.readings(**typed), [], CAR)]

    assert broken(frost="none") == ["hub_first", "charge_first"]
    assert broken(low="200") == ["gas_first", "hub_first", "charge_first"]


def test_each_reading_is_shown_in_the_other_unit_too():
    result = LINE.meaning(CAR, **RUNS, suction="12", low="200")
    shown = [value.shown for value in result.values]
    assert "54\u00a0°F" in shown
    assert "29.0\u00a0psi" in shown or "29\u00a0psi" in shown


def test_what_comes_next_goes_no_further_than_what_was_told():
    assert WHICH in " ".join(LINE.meaning(CAR, **RUNS, **ACROSS).onward)
    assert "renew the drier" in " ".join(LINE.meaning(CAR, **DRIER, **ACROSS).onward)
    cold = LINE.meaning(CAR, **RUNS, frost="liquid")
    assert "liquid and suction line meet" in " ".join(cold.onward)


def test_who_cannot_tell_which_it_is_is_quoted_so():
    told = {"vessel": "cannot_tell", "exchanger": "cannot_tell"}
    left = LINE.meaning(CAR, **RUNS, **ALONG, **told).outcome.not_tested
    assert "Drier or accumulator: could not be told." in left
    assert "Internal heat exchanger: could not be told." in left
