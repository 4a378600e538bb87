"""Saturation both ways: round trips, monotony, continuity, and what has no answer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.refrigerants import NAMES
from diagnostics.physics.saturation import (
    liquid_density_temperature,
    saturated,
    saturation_pressure,
    saturation_temperature,
    table_of,
)

ZERO_C = 273.15
NAME = st.sampled_from(NAMES)
SHARE = st.floats(0, 1)
RISING = ("pressure", "vapor_density", "liquid_enthalpy", "liquid_entropy")


def within(name, share):
    table = table_of(name)
    return min(table.lowest + share * (table.highest - table.lowest), table.highest)


@given(NAME, SHARE)
def test_a_temperature_survives_the_way_to_pressure_and_back(name, share):
    kelvin = within(name, share)
    pressure = saturation_pressure(name, kelvin)
    assert saturation_temperature(name, pressure) == pytest.approx(kelvin, abs=1e-6)


@given(NAME, SHARE)
def test_a_temperature_survives_the_way_to_liquid_density_and_back(name, share):
    kelvin = within(name, share)
    density = saturated(name, kelvin).liquid_density
    assert liquid_density_temperature(name, density) == pytest.approx(kelvin, abs=1e-5)


@given(NAME, SHARE, SHARE)
def test_warmer_is_always_the_same_way(name, one, other):
    cold, warm = sorted((within(name, one), within(name, other)))
    if warm - cold < 1e-6:
        return
    before, after = saturated(name, cold), saturated(name, warm)
    assert all(getattr(before, key) < getattr(after, key) for key in RISING)
    if name != "R-1234yf":  # its saturated vapor gains entropy on the way to middle temperatures
        assert before.vapor_entropy > after.vapor_entropy
    assert before.liquid_density > after.liquid_density
    assert before.latent_heat > after.latent_heat


@given(NAME, SHARE)
def test_nothing_jumps_between_two_neighbors(name, share):
    kelvin = within(name, share * 0.999)
    here, beside = saturated(name, kelvin), saturated(name, kelvin + 1e-7)
    for key in ("liquid_density", "vapor_density", "liquid_enthalpy", "vapor_enthalpy"):
        assert getattr(beside, key) == pytest.approx(getattr(here, key), rel=1e-5, abs=0.1)


@given(NAME, SHARE)
def test_liquid_is_denser_and_vapor_richer_in_heat(name, share):
    rest = saturated(name, within(name, share))
    assert rest.liquid_density > rest.vapor_density
    assert rest.vapor_enthalpy > rest.liquid_enthalpy
    assert rest.vapor_entropy > rest.liquid_entropy


@given(NAME, st.floats(0.01, 0.98))
def test_the_slope_of_the_pressure_is_that_of_clausius_and_clapeyron(name, share):
    kelvin = within(name, share)
    pressures = [saturation_pressure(name, kelvin + step).pa for step in (-0.05, 0.05)]
    measured = (pressures[1] - pressures[0]) / 0.1
    assert saturated(name, kelvin).pressure_slope == pytest.approx(measured, rel=2e-4)


@given(NAME, SHARE)
def test_latent_heat_is_temperature_times_the_gain_of_entropy(name, share):
    rest = saturated(name, within(name, share))
    gained = rest.kelvin * (rest.vapor_entropy - rest.liquid_entropy)
    assert rest.latent_heat == pytest.approx(gained, rel=2e-4, abs=1)


@pytest.mark.parametrize("name", NAMES)
def test_both_references_are_where_they_are_said_to_be(name):
    iir, ashrae = saturated(name, ZERO_C), saturated(name, ZERO_C - 40, "ASHRAE")
    assert iir.liquid_enthalpy == pytest.approx(200e3, abs=0.5)
    assert iir.liquid_entropy == pytest.approx(1000, abs=0.002)
    assert ashrae.liquid_enthalpy == pytest.approx(0, abs=0.5)
    assert ashrae.liquid_entropy == pytest.approx(0, abs=0.002)


@given(NAME, SHARE)
def test_differences_do_not_depend_on_the_reference(name, share):
    kelvin = within(name, share)
    iir, ashrae = saturated(name, kelvin), saturated(name, kelvin, "ASHRAE")
    assert iir.latent_heat == pytest.approx(ashrae.latent_heat, rel=1e-9)
    assert iir.pressure_slope == pytest.approx(ashrae.pressure_slope, rel=1e-9)


def test_a_gauge_pressure_is_not_taken_for_an_absolute_one():
    with pytest.raises(TypeError):
        saturation_temperature("R-134a", Gauge(470_000))  # type: ignore[arg-type]


@pytest.mark.parametrize("kelvin", [ZERO_C + 31, ZERO_C + 45])
def test_r744_above_31_degrees_is_recorded_and_not_judged(kelvin):
    with pytest.raises(OutOfRange, match="recorded, not judged"):
        saturation_pressure("R-744", kelvin)


def test_a_pressure_above_the_critical_one_is_recorded_and_not_judged():
    with pytest.raises(OutOfRange, match="recorded, not judged"):
        saturation_temperature("R-744", Absolute(9e6))


def test_right_below_the_critical_point_the_table_says_that_it_ends():
    with pytest.raises(OutOfRange, match=r"ends 0\.1 K below"):
        saturation_pressure("R-134a", table_of("R-134a").critical_kelvin - 0.05)
    with pytest.raises(OutOfRange, match=r"ends 0\.1 K below"):
        saturation_temperature("R-134a", Absolute(table_of("R-134a").critical_pressure.pa - 1))


@pytest.mark.parametrize(
    ("error", "kelvin"),
    [(Impossible, -1), (OutOfRange, 100), (Malformed, float("nan")), (Malformed, float("inf"))],
)
def test_a_temperature_that_cannot_be_or_is_not_in_the_table_is_named(error, kelvin):
    with pytest.raises(error):
        saturation_pressure("R-134a", kelvin)


@pytest.mark.parametrize("pa", [0, 1000, 15_000])
def test_a_pressure_below_the_table_is_said_to_be_so(pa):
    with pytest.raises(OutOfRange, match="begins at"):
        saturation_temperature("R-134a", Absolute(pa))


@pytest.mark.parametrize("density", [10, 5000])
def test_a_density_that_the_liquid_never_has_is_said_to_be_so(density):
    with pytest.raises(OutOfRange, match="never"):
        liquid_density_temperature("R-134a", density)


def test_an_unknown_reference_and_an_unknown_refrigerant_are_named():
    with pytest.raises(Malformed, match="IIR, ASHRAE"):
        saturated("R-134a", ZERO_C, "NBP")  # type: ignore[arg-type]
    with pytest.raises(Malformed, match="R-134a, R-1234yf"):
        saturation_pressure("R-410A", ZERO_C)


def test_static_pressures_of_the_trade_agree():
    # kPa gauge at sea level, trade facts, computed
    table = {"R-134a": (313, 470, 669, 915), "R-1234yf": (336, 491, 682, 917)}
    for name, expected in table.items():
        found = [
            saturation_pressure(name, ZERO_C + t).pa / 1000 - 101.325 for t in (10, 20, 30, 40)
        ]
        assert [round(one) for one in found] == list(expected)
