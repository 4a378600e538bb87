"""Running pressures that must stop it at once, and those that refute a charge told as right.

A compressor is never run empty or under vacuum: trade articles. That liquid at rest presses as much
as the coldest place it lies in gives: values of the tables, which tests/physics holds to a source.
"""

import pytest

from diagnostics.evidence.cautions import NEVER_DRY
from diagnostics.evidence.running import ONE_IS_ENOUGH
from tests.evidence.test_running_pressures import AT_30, CO2, FIXED, RIGHT, RUN
from tests.evidence.trial import standing, subjects, words_of


@pytest.mark.parametrize(
    "typed",
    [
        {"low": "0", "high": "0"},
        {"low": "-40", "high": "80"},
        {"low": "-30", "high": "1200"},
        {"low": "-30", "high": "1200", "shaft": "", "ambient": ""},
    ],
)
@pytest.mark.parametrize("charge", [{}, RIGHT])
def test_a_loop_run_dry_or_under_vacuum_is_switched_off_before_anything_else(typed, charge):
    result = RUN.meaning(FIXED, **(AT_30 | charge | typed))
    assert result.onward[0] == "Switch it off."
    assert any("no oil comes back" in note or "oil coming back" in note for note in result.notes)


@pytest.mark.parametrize(("low", "high"), [("0", "0"), ("-40", "0"), ("-40", "1200")])
@pytest.mark.parametrize("shaft", ["", "yes", "cannot_tell"])
@pytest.mark.parametrize("ambient", ["", "12", "30"])
def test_a_loop_that_must_not_run_is_never_sent_to_run_again(low, high, shaft, ambient):
    result = RUN.meaning(FIXED, low=low, high=high, shaft=shaft, ambient=ambient)
    for words in words_of(result):
        assert "epeat" not in words
        assert "at one moment" not in words


def test_a_shaft_that_stands_needs_no_switching_off():
    assert "Switch it off" not in RUN.words(FIXED, **AT_30 | {"shaft": "no", "low": "0"})


@pytest.mark.parametrize("ambient", ["25", "30", "40"])
def test_only_a_high_side_colder_than_any_evaporator_points_at_a_low_charge(ambient):
    # R-134a: 101 kPa boils at −10 °C, 450 kPa at 19 °C, where a cooled evaporator may well be.
    at = {"ambient": ambient, "shaft": "yes"} | RIGHT
    assert standing(RUN.meaning(FIXED, **at, low="101", high="101"), "Charge") == "likely"
    result = RUN.meaning(FIXED, **at, low="450", high="450")
    assert standing(result, "Charge") == "open"
    assert "Only liquid in a colder evaporator rests so." in result.outcome.marks[0].sentence


@pytest.mark.parametrize("high", ["101", "300", "500"])
def test_a_charge_told_as_right_is_refuted_by_a_high_side_below_rest(high):
    result = RUN.meaning(FIXED, **AT_30 | RIGHT | {"low": "101", "high": high})
    assert not any("not pumping" in one for one in subjects(result, "likely", "proved"))
    assert any("whatever was told of the charge" in text for text in words_of(result))
    assert "Charge told as right" not in " ".join(result.notes)


@pytest.mark.parametrize(
    "typed",
    [
        {"low": "100", "high": "-50"},  # the low side above the high side
        {"low": "-30", "high": "-99"},
        {"low": "200", "high": "50"},
        {"low": "-30", "high": "1200", "rpm": "0"},
        {"low": "-30", "high": "1200", "suction": "-58"},  # colder than it boils
    ],
)
def test_readings_at_odds_keep_the_word_that_one_of_them_alone_demands(typed):
    result = RUN.meaning(FIXED, **AT_30 | typed)
    assert result.outcome.sentence == "Nothing is made of it."
    assert f"{ONE_IS_ENOUGH} {NEVER_DRY}" in result.notes


def test_readings_at_odds_that_harm_nothing_switch_nothing_off():
    result = RUN.meaning(FIXED, **AT_30 | {"low": "1200", "high": "200"})
    assert result.outcome.sentence == "Nothing is made of it."
    assert not any(ONE_IS_ENOUGH in note for note in result.notes)
    stands = RUN.meaning(FIXED, **AT_30 | {"low": "100", "high": "-50", "shaft": "no"})
    assert not any(ONE_IS_ENOUGH in note for note in stands.notes)


@pytest.mark.parametrize("high", ["3000", "3900", "4500"])
def test_a_running_high_side_that_strains_the_loop_is_switched_off(high):
    result = RUN.meaning(FIXED, **AT_30, low="250", high=high)
    assert result.onward[0] == "Switch it off."
    assert any("strains" in note for note in result.notes)
    assert "weigh" not in " ".join(result.onward)


def test_r_744_runs_higher_and_is_not_switched_off_for_it():
    assert "Switch it off." not in RUN.meaning(CO2, **AT_30, low="4000", high="9000").onward
