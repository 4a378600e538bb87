"""A coil's current held against what is expected of it, cold or hot, specified or not."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.cases import (
    GENERAL,
    GOOD,
    HOLDS,
    all_words,
    band,
    code,
    drawn,
    meaning,
    standing,
)


def test_with_good_voltage_the_current_is_held_against_the_vehicles_own_figure():
    result = meaning(**GOOD, holds="no", pushed="yes")
    assert result.outcome.basis == "vehicle"
    assert result.lead == (
        "With 12.38\u00a0V the coil draws the current it should, 3.05\u00a0A, and the magnet is"
        " felt."
    )
    plain = result.band.replace("\u00a0", " ")
    assert "3.6 Ω at 20 °C (workshop data), ±10 % (our judgement" in plain
    assert "brought to 48 °C" in plain
    # 12.38 V over 3.6 ohm ±10 % at 48 ± 2 °C, by hand: 12.38/(3.96 x 1.1179) = 2.797,
    # 12.38/(3.24 x 1.1022) = 3.467
    assert band(result) == pytest.approx((2.797, 3.467), abs=0.002)
    assert drawn(result).expected_words == "expected 2.80–3.47"
    assert drawn(result).point_words == "3.05\u00a0A"


# Mistake: a coil condemned by a universal ohm rule or a hot reading.


def test_a_hot_coil_that_draws_less_is_not_called_weak():
    # 3.6 ohm at 20 °C is 4.7 at 100 °C: 2.62 A from 12.38 V is what it should draw
    assert code(**(GOOD | {"amps": "2.62", "temperature": "100", "holds": "yes"})) == "takes_hold"
    assert meaning(**(GOOD | {"amps": "2.62", "temperature": "100"})).lead.startswith(
        "With 12.38\u00a0V the coil draws the current it should"
    )


def test_the_same_current_from_a_cold_coil_is_less_than_it_should_be():
    assert code(**(GOOD | {"amps": "2.62", "temperature": "20", "holds": "no"})) == "low_current"


def test_a_temperature_not_read_widens_the_band_and_says_so():
    cold = band(meaning(**GOOD))
    wide = meaning(**(GOOD | {"temperature": ""}))
    assert band(wide)[0] < cold[0]
    assert band(wide)[1] > cold[1]
    assert "coil temperature not read" in wide.band
    assert standing(wide, "Coil shorted in part") == "open"


def test_without_the_vehicles_figure_the_plausible_band_is_named_as_no_limit():
    result = meaning(GENERAL, **HOLDS)
    assert result.outcome.basis == "general"
    assert "No figure of this vehicle" in result.band
    assert "not a limit" in result.band
    assert standing(result, "Coil shorted in part") == "open"


def test_without_the_vehicles_figure_too_much_current_names_no_coil():
    result = meaning(GENERAL, **(HOLDS | {"amps": "8.9"}))
    assert result.outcome.code == "high_current"
    assert standing(result, "Coil shorted in part, or its diode") == "open"
    assert any("Look up this vehicle’s own figure" in words for words in all_words(result))


def test_a_reading_over_the_edge_of_the_band_cannot_be_told():
    result = meaning(**(HOLDS | {"amps": "3.46"}))
    assert result.outcome.code == "takes_hold"
    assert "cannot be told with this instrument" in result.lead
    assert standing(result, "Coil shorted in part") == "open"


def test_fewer_digits_typed_cannot_rule_out_what_more_digits_can():
    sure = meaning(**(HOLDS | {"amps": "3.10"}))
    assert standing(sure, "Coil open, coil shorted") == "ruled_out"
    rough = meaning(**(HOLDS | {"amps": "3"}))
    assert standing(rough, "Coil shorted in part") == "open"


def test_the_tolerance_nobody_can_note_is_called_our_judgement():
    system: System = {"voltage": "12", "coil_ohm": 3.6, "coil_ohm_source": "workshop data"}
    assert "±10\u00a0% (our judgement: no tolerance is noted)" in meaning(system, **GOOD).band


def test_24_volts_are_judged_by_the_vehicles_figure_only():
    typed = HOLDS | {"volts": "26.4", "amps": "1.9"}
    without = meaning({"drive": "belt_clutch", "voltage": "24"}, **typed)
    assert without.outcome.basis == ""
    assert without.strip is None
    assert "vehicle’s own figure only" in without.band
    own: System = {"drive": "belt_clutch", "voltage": "24", "coil_ohm": 13.0}
    assert meaning(own, **typed).outcome.basis == "vehicle"
