"""Coils on direct current, held to published values (copper.json names each source)."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics import electrics
from diagnostics.physics.electrics import CoilFigure, copper_factor, current_band
from diagnostics.physics.errors import Impossible, OutOfRange
from diagnostics.physics.uncertainty import Measured

ROWS = json.loads((Path(__file__).parent / "copper.json").read_text("utf-8"))
CHECKS = [row for row in ROWS if row["role"] == "check"]
TRAPS = [row for row in ROWS if row["role"] == "trap"]
KELVIN = st.floats(*electrics.COPPER_RANGE)
ZERO_C = 273.15


@pytest.mark.parametrize("row", CHECKS, ids=[row["id"] for row in CHECKS])
def test_copper_follows_the_published_ratio(row):
    ratio = copper_factor(ZERO_C + row["input"]["t_C"])
    if row["quantity"] == "R(t)/R(25 C)":
        ratio /= copper_factor(ZERO_C + 25)
    assert ratio == pytest.approx(row["expected"], rel=row["tolerance"])


@pytest.mark.parametrize("row", TRAPS, ids=[row["id"] for row in TRAPS])
def test_copper_does_not_follow_the_other_convention_of_some_tables(row):
    celsius = row["input"]["t_C"]
    ours = 1 / copper_factor(ZERO_C + celsius)
    assert ours == pytest.approx(254.5 / (234.5 + celsius), rel=1e-3)
    if celsius > 60:  # nearer to 20 °C the two cannot be told apart
        assert ours != pytest.approx(row["expected"], rel=row["tolerance"])


def test_a_good_coil_read_hot_is_a_good_coil():
    # 3.6 ohm at 20 °C reads 4.7 at 100 °C and draws 76 %: trade facts, computed
    assert electrics.resistance_at(3.6, ZERO_C + 100) == pytest.approx(4.7, abs=0.05)
    assert electrics.resistance_at_20(4.7, ZERO_C + 100) == pytest.approx(3.6, abs=0.05)
    assert 1 / copper_factor(ZERO_C + 100) == pytest.approx(0.76, abs=0.005)


@given(st.floats(0.1, 100), KELVIN)
def test_a_resistance_survives_the_way_to_20_degrees_and_back(ohm, kelvin):
    there = electrics.resistance_at_20(ohm, kelvin)
    assert electrics.resistance_at(there, kelvin) == pytest.approx(ohm, rel=1e-12)


@given(KELVIN, KELVIN)
def test_warmer_copper_never_has_less_resistance(one, other):
    cold, warm = sorted((one, other))
    assert copper_factor(cold) <= copper_factor(warm)


@given(st.floats(1, 30), st.floats(1, 10), KELVIN, KELVIN)
def test_a_warmer_coil_never_draws_more_and_a_band_is_never_upside_down(volt, ohm, one, other):
    cold, warm = sorted((one, other))
    figure = CoilFigure(ohm * 0.9, ohm * 1.1)
    low, high = current_band(volt, figure, cold, warm)
    assert 0 < low <= high
    assert current_band(volt, figure, warm, warm)[0] <= current_band(volt, figure, cold, cold)[0]


def test_resistance_and_power_follow_ohm():
    assert electrics.coil_resistance(12.6, 3.5) == pytest.approx(3.6)
    assert electrics.expected_current(12.6, 3.6) == pytest.approx(3.5)
    assert electrics.power(12.6, 3.5) == pytest.approx(44.1)


@pytest.mark.parametrize("kelvin", [213.1, 473.2, 1000])
def test_copper_outside_its_range_is_said_to_be_so(kelvin):
    with pytest.raises(OutOfRange, match="Copper"):
        copper_factor(kelvin)


def test_copper_below_absolute_zero_is_impossible():
    with pytest.raises(Impossible, match="absolute zero"):
        copper_factor(-1)


def test_a_resistance_below_zero_names_the_crossed_signs():
    with pytest.raises(Impossible, match="opposite signs"):
        electrics.coil_resistance(12.4, -3)


def test_no_current_tells_no_resistance():
    with pytest.raises(Impossible, match="voltage alone"):
        electrics.coil_resistance(12.4, 0)


def test_a_coil_of_no_resistance_is_impossible():
    with pytest.raises(Impossible, match="no resistance"):
        electrics.expected_current(12.4, 0)


@pytest.mark.parametrize(
    ("ampere", "grade"),
    [
        (0.0, "none"), (0.04, "none"), (0.19, "none"), (0.5, "low"), (2.75, "low"),
        (2.95, "cannot_tell"), (3.2, "expected"), (3.45, "cannot_tell"), (3.8, "high"),
    ],
)  # fmt: skip
def test_a_current_is_graded_with_its_uncertainty(ampere, grade):
    assert electrics.grade_current(Measured(ampere, 0.05), 3.0, 3.5) == grade
