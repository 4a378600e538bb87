"""Where water and ice turn to vapor, held to published values (water.json names each source)."""

import json
import math
from pathlib import Path

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics import humid_air
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.units import from_si, to_si
from diagnostics.physics.vacuum import needle_shows
from diagnostics.physics.water import (
    CRITICAL_KELVIN,
    TRIPLE_KELVIN,
    TRIPLE_PRESSURE,
    over_ice,
    over_water,
    slope,
    vapor_pressure,
    vapor_temperature,
)

ROWS = json.loads((Path(__file__).parent / "water.json").read_text("utf-8"))
HELD = [row for row in ROWS if row["role"] in ("check", "regression")]
TRAPS = [row for row in ROWS if row["role"] == "trap"]
KELVIN = st.floats(65, CRITICAL_KELVIN)
SEA_LEVEL = 101_325.0


def kelvin(given_):
    return given_["T_K"] if "T_K" in given_ else given_["t_C"] + 273.15


def needle(pascal, given_):
    air = Absolute(given_.get("p_atm_Pa", SEA_LEVEL))
    return -from_si(needle_shows(Absolute(pascal), air).pa, "inHg")


def computed(row):
    given_, what = row["input"], row["quantity"]
    if "temperature" in what:
        pascal = given_["p_Pa"] if "p_Pa" in given_ else to_si(given_["micron"], "micron")
        found = vapor_temperature(Absolute(pascal))
        return found if row["units"] == "K" else found - 273.15
    if "micron as inHg" in what:
        return needle(to_si(given_["micron"], "micron"), given_)
    pascal = (over_ice if "ice" in what else over_water)(kelvin(given_)).pa
    if row["units"] == "micron":
        return from_si(pascal, "micron")
    return needle(pascal, given_) if row["units"] == "inHg vacuum" else pascal


@pytest.mark.parametrize("row", HELD, ids=[row["id"] for row in HELD])
def test_water_and_ice_have_the_published_vapor_pressure(row):
    off = {"rel": "rel", "abs": "abs"}[row["tolerance_kind"]]
    assert computed(row) == pytest.approx(row["expected"], **{off: row["tolerance"]})


@pytest.mark.parametrize("row", TRAPS, ids=[row["id"] for row in TRAPS])
def test_500_micron_is_not_a_perfect_vacuum(row):
    assert computed(row) < row["expected"] - row["tolerance"]
    assert computed(row) == pytest.approx(29.902, abs=0.001)


@given(st.floats(TRIPLE_KELVIN, 640))
def test_water_agrees_with_the_reference_equation_of_state(at):
    assert over_water(at).pa == pytest.approx(PropsSI("P", "T", at, "Q", 0, "Water"), rel=4e-4)


@given(st.floats(213.15, 373.15))
def test_pumped_water_and_humid_air_agree_where_both_are_followed(at):
    air = humid_air.saturation_vapor_pressure(at).pa
    assert vapor_pressure(at).pa == pytest.approx(air, rel=6e-4)


@given(KELVIN, KELVIN)
def test_warmer_water_never_presses_less(one, other):
    cold, warm = sorted((one, other))
    assert vapor_pressure(cold) <= vapor_pressure(warm)


@given(KELVIN)
def test_pressure_and_temperature_are_each_other_s_way_back(at):
    assert vapor_temperature(vapor_pressure(at)) == pytest.approx(at, rel=1e-7)


def test_ice_and_water_meet_at_the_triple_point():
    assert over_ice(TRIPLE_KELVIN).pa == pytest.approx(TRIPLE_PRESSURE.pa, rel=1e-9)
    assert over_water(TRIPLE_KELVIN).pa == pytest.approx(TRIPLE_PRESSURE.pa, rel=1e-6)


@given(st.floats(200, 640))
def test_the_slope_is_that_of_the_curve(at):
    step = 0.01
    chord = (vapor_pressure(at + step).pa - vapor_pressure(at - step).pa) / (2 * step)
    assert slope(at) == pytest.approx(chord, rel=0.01 if abs(at - TRIPLE_KELVIN) > 0.02 else 0.2)


def test_the_figures_of_the_trade_are_met():
    # trade facts, computed: 17 500 micron at 20 °C, 9 200 at 10 °C, ice below about 4 585
    assert from_si(vapor_pressure(293.15).pa, "micron") == pytest.approx(17_500, rel=0.005)
    assert from_si(vapor_pressure(283.15).pa, "micron") == pytest.approx(9_200, rel=0.005)
    assert from_si(TRIPLE_PRESSURE.pa, "micron") == pytest.approx(4_585, rel=0.001)


@pytest.mark.parametrize("function", [vapor_pressure, over_water, over_ice, slope])
@pytest.mark.parametrize(
    ("at", "error"), [(-1, Impossible), (math.nan, Malformed), (20, OutOfRange), (700, OutOfRange)]
)
def test_a_temperature_that_cannot_be_or_is_not_followed_is_named(function, at, error):
    with pytest.raises(error):
        function(at)


def test_ice_above_its_melting_point_and_water_below_freezing_are_refused():
    with pytest.raises(OutOfRange, match="it is water"):
        over_ice(280)
    with pytest.raises(OutOfRange, match="Liquid water"):
        over_water(270)


@pytest.mark.parametrize("pascal", [0, 1e-40, 30e6])
def test_a_pressure_at_which_water_never_boils_is_named(pascal):
    with pytest.raises(OutOfRange):
        vapor_temperature(Absolute(pascal))
