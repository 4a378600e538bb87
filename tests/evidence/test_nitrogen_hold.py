"""Nitrogen held: a pressure without its temperature tells nothing. Trade articles.

10.0 bar gauge at 25 °C reads 9.82 bar at 20 °C with nothing lost: (10 + 1.01325) x 293.15 / 298.15
- 1.01325 = 9.8153 (ideal gas).
"""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

HOLD = Trial("nitrogen_hold")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
AT_25 = {"start": "1000", "start_temperature": "25", "minutes": "30", "gas": "nitrogen"}
AT_20 = AT_25 | {"end_temperature": "20"}

PATTERNS = [
    (AT_20 | {"end": "982"}, "held"),
    (AT_20 | {"end": "990"}, "held"),
    (AT_20 | {"end": "940"}, "falls"),
    (AT_20 | {"end": "1000"}, "rises"),
    ({"start": "1000", "end": "500"}, "falls_far"),
    ({"start": "1000", "end": "982"}, "nothing_told"),
    (AT_25 | {"end": "982"}, "nothing_told"),
    (AT_20, "nothing_told"),
    (AT_20 | {"end": "982", "minutes": "0.5"}, "nothing_told"),
    (AT_20 | {"start": "0", "end": "0"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_hold_has_its_outcome(typed, outcome):
    assert HOLD.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in HOLD.kind.outcomes}


def test_a_drop_that_the_temperature_explains_is_no_leak():
    result = HOLD.meaning(CAR, **AT_20 | {"start": "10.0 bar", "end": "9.82 bar"})
    assert result.outcome.code == "held"
    shown = {value.words: value.shown for value in result.values}
    assert shown["With nothing lost it would show"] == "982\u00a0kPa"
    assert shown["Change with temperature taken out"].startswith("0\u00a0kPa")


def test_a_drop_without_its_temperatures_is_not_called_a_leak():
    result = HOLD.meaning(CAR, start="1000", end="940", minutes="30")
    assert not result.outcome.carries
    assert result.outcome.marks == ()
    told = result.outcome.not_tested
    assert "Temperature at the start: no reading to go by." in told
    assert "Temperature at the end: no reading to go by." in told


def test_what_falls_further_than_any_temperature_explains_needs_none():
    # From 60 to −20 °C: 1101 kPa absolute x 253.15 / 333.15 = 837 kPa, gauge 735 kPa.
    assert HOLD.code(CAR, start="1000", end="700") == "falls_far"
    assert HOLD.code(CAR, start="1000", end="730") == "nothing_told"


def test_held_says_how_small_a_leak_it_could_have_seen_and_never_that_it_is_tight():
    result = HOLD.meaning(CAR, **AT_20, end="982")
    assert any("could have seen" in value.words for value in result.values)
    assert standing(result, "A smaller leak") == "open"
    assert "kg a year" in result.outcome.marks[0].sentence
    words = " ".join(words_of(result)).lower()
    assert not any(claim in words for claim in ("no leak", "tight.", "leak-free"))


def test_a_longer_hold_sees_a_smaller_leak():
    def smallest(minutes: str) -> float:
        values = HOLD.meaning(CAR, **AT_20 | {"minutes": minutes}, end="982").values
        return next(value.si for value in values if "could have seen" in value.words)

    assert smallest("600") == pytest.approx(smallest("60") / 10)


def test_a_fall_points_at_a_leak_with_the_hoses_as_rivals():
    result = HOLD.meaning(CAR, **AT_20, end="900")
    assert standing(result, "A leak") == "likely"
    assert "hoses, couplers" in result.outcome.marks[0].sentence


def test_a_rise_points_at_no_part():
    assert subjects(HOLD.meaning(CAR, **AT_20, end="1000"), "likely", "proved") == []


def test_the_makers_limit_is_asked_for_and_never_guessed():
    assert "ask, never guess" in " ".join(HOLD.meaning(CAR, **AT_20, end="982").notes)
    told = HOLD.meaning(CAR, **AT_20, end="982", limit="1200")
    assert "ask, never guess" not in " ".join(told.notes)


def test_more_than_the_makers_limit_is_told():
    notes = HOLD.meaning(CAR, **AT_20, end="982", limit="800").notes
    assert any("above the maker’s limit of 800\u00a0kPa" in note for note in notes)


def test_air_or_oxygen_is_barred_recorded_and_warned_of():
    (problem,) = HOLD.asks(CAR, gas="air")["gas"]
    assert "was put into the loop" in problem
    assert "burn or explode" in HOLD.words(CAR, **AT_20 | {"gas": "air"}, end="982")
    assert HOLD.asks(CAR, gas="tracer") == {}
    assert HOLD.asks(CAR, **AT_20 | {"gas": ""}, end="982") == {}


def test_it_warns_of_regulator_oxygen_and_limit():
    words = " ".join(HOLD.kind.cautions)
    assert all(part in words for part in ("regulator", "never oxygen", "maker’s limit"))


def test_pressure_and_temperature_are_told_in_the_other_unit_too():
    shown = {value.shown for value in HOLD.meaning(CAR, **AT_20, end="982").values}
    assert {"145.0\u00a0psi", "142.4\u00a0psi", "77\u00a0°F", "68\u00a0°F"} <= shown


def test_what_is_taken_for_the_size_of_a_leak_is_said():
    band = HOLD.meaning({}, **AT_20, end="982").band
    assert "a loop of 3\u00a0L taken, R-134a at rest at 25\u00a0°C" in band
    assert "factor of two or three" in band


def test_a_hold_that_began_with_no_pressure_held_nothing():
    typed = AT_20 | {"start": "20", "end": "20"}
    assert HOLD.asks(CAR, **typed)["start"] == [
        "Outside what a loop is held at.",
        "Next to no pressure at the start: nothing was held.",
    ]
    assert HOLD.code(CAR, **typed) == "nothing_told"


def test_an_end_below_the_airs_pressure_is_no_leak():
    typed = AT_20 | {"end": "-60"}
    assert any("was pumped" in sentence for sentence in HOLD.asks(CAR, **typed)["end"])
    assert HOLD.code(CAR, **typed) == "nothing_told"


def test_where_nothing_is_left_it_is_filled_before_anybody_searches():
    onward = " ".join(HOLD.meaning(CAR, **(AT_20 | {"end": "0"})).onward)
    assert "Put nitrogen on again" in onward
    assert "under this pressure" not in onward


@pytest.mark.parametrize("more", [{"gas": "air"}, {"gas": "nitrogen", "limit": "800"}])
def test_air_or_too_much_pressure_is_let_down_before_any_search(more):
    held = {"start": "1000", "start_temperature": "20", "minutes": "60"}
    held |= {"end": "995", "end_temperature": "20"}
    onward = Trial("nitrogen_hold").meaning({}, **held, **more).onward
    assert onward[0].startswith("Let it down slowly")
    assert not any("search" in words.lower() for words in onward)


def test_a_pressure_no_loop_is_held_at_is_let_down_whatever_it_showed():
    for limit in ({}, {"limit": "15000"}):
        result = HOLD.meaning(CAR, **AT_20 | {"start": "4000", "end": "3930"} | limit)
        assert result.onward[0].startswith("Let it down")
        assert any("let it down" in note for note in result.notes)


def test_the_same_pressure_typed_in_another_unit_is_not_above_the_limit():
    # 10 bar are 145.04 psi (NIST SP 811)
    result = HOLD.meaning(CAR, **AT_20 | {"start": "10 bar", "end": "9.8 bar", "limit": "145 psi"})
    assert not any("above" in note for note in result.notes)


def test_a_hold_of_an_untold_gas_is_told_as_nothing():
    typed = AT_20 | {"end": "982", "gas": ""}
    result = HOLD.meaning(CAR, **typed)
    assert result.outcome.code == "nothing_told"
    assert "What was put in is not told" in result.outcome.sentence


def test_so_short_a_hold_clears_no_gross_leak():
    result = HOLD.meaning(CAR, **AT_20 | {"end": "982", "minutes": "1"})
    assert subjects(result, "ruled_out") == []


def test_a_coarse_digit_widens_what_a_change_may_be_off():
    fine = HOLD.meaning(CAR, **AT_20 | {"start": "10.00 bar", "end": "9.82 bar"})
    coarse = HOLD.meaning(CAR, **AT_20 | {"start": "10 bar", "end": "10 bar"})
    change = [
        next(v.u or 0.0 for v in one.values if v.words.startswith("Change"))
        for one in (fine, coarse)
    ]
    assert change[1] > 3 * change[0] > 0
