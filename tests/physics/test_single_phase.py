"""Vapor and liquid alone: they meet the tables, keep their order, and say where they are not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.helmholtz import equation_of, state
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.refrigerants import NAMES
from diagnostics.physics.root import crossing
from diagnostics.physics.saturation import saturated, saturation_pressure, table_of
from diagnostics.physics.single_phase import at_pressure, liquid, phase_at, vapor

ZERO_C = 273.15
NAME = st.sampled_from(NAMES)
SHARE = st.floats(0, 0.99)


def within(name, share):
    table = table_of(name)
    return table.lowest + share * (table.highest - table.lowest)


@given(NAME, SHARE)
def test_table_and_equation_agree_that_both_phases_are_at_rest(name, share):
    """Maxwell's condition, by coefficients and code that the table's maker did not use."""
    rest, equation = saturated(name, within(name, share)), equation_of(name)
    below = state(equation, rest.kelvin, rest.liquid_density)
    above = state(equation, rest.kelvin, rest.vapor_density)
    assert above.pressure.pa == pytest.approx(rest.pressure.pa, rel=2e-5)
    free = [one.enthalpy - one.kelvin * one.entropy for one in (below, above)]
    assert free[0] == pytest.approx(free[1], abs=0.5)  # J/kg, of about 20 000 that RT is


@given(NAME, SHARE)
def test_vapor_and_liquid_begin_where_the_table_ends(name, share):
    rest = saturated(name, within(name, share))
    dry, wet = vapor(name, rest.kelvin, rest.pressure), liquid(name, rest.kelvin, rest.pressure)
    assert dry.density == pytest.approx(rest.vapor_density, rel=2e-4)
    assert wet.density == pytest.approx(rest.liquid_density, rel=2e-4)
    assert dry.enthalpy == pytest.approx(rest.vapor_enthalpy, abs=30)
    assert wet.enthalpy == pytest.approx(rest.liquid_enthalpy, abs=30)


@given(NAME, SHARE, st.floats(0.05, 0.95), st.floats(1.01, 1.5))
def test_more_pressure_makes_vapor_denser(name, share, part, more):
    kelvin = within(name, share)
    full = saturation_pressure(name, kelvin).pa
    thin, dense = sorted((part * full, min(part * more, 1) * full))
    found = [vapor(name, kelvin, Absolute(pa)).density for pa in (thin, dense)]
    assert found[0] < found[1]


@given(NAME, SHARE, st.floats(0.01, 0.9), st.floats(0.1, 30))
def test_warmer_vapor_is_thinner_and_has_more_heat_and_entropy(name, share, part, step):
    kelvin = within(name, share)
    pressure = Absolute(part * saturation_pressure(name, kelvin).pa)
    cold, warm = vapor(name, kelvin, pressure), vapor(name, kelvin + step, pressure)
    assert warm.density < cold.density
    assert warm.enthalpy > cold.enthalpy
    assert warm.entropy > cold.entropy


@given(NAME, st.floats(0.05, 0.9), st.floats(0, 40), st.sampled_from(["enthalpy", "entropy"]))
def test_vapor_is_found_again_by_its_heat_or_entropy(name, share, over, which):
    rest = saturated(name, within(name, share))
    begun = vapor(name, rest.kelvin + over, rest.pressure)
    found = at_pressure(name, rest.pressure, which, getattr(begun, which))
    assert found.kelvin == pytest.approx(begun.kelvin, abs=0.01)


@given(NAME, st.floats(0.05, 0.9), st.floats(0.001, 0.999))
def test_wet_vapor_lies_on_the_line_between_both_phases(name, share, quality):
    rest = saturated(name, within(name, share))
    enthalpy = rest.liquid_enthalpy + quality * rest.latent_heat
    found = at_pressure(name, rest.pressure, "enthalpy", enthalpy)
    assert found.kelvin == pytest.approx(rest.kelvin, abs=1e-3)
    entropy = rest.liquid_entropy + quality * (rest.vapor_entropy - rest.liquid_entropy)
    assert found.entropy == pytest.approx(entropy, abs=0.5)
    volume = (1 - quality) / rest.liquid_density + quality / rest.vapor_density
    assert 1 / found.density == pytest.approx(volume, rel=1e-3)


@given(NAME, st.floats(0.05, 0.8), st.floats(0.2, 0.8))
def test_heat_and_entropy_belong_to_one_equation(name, share, part):
    """Along a line of one pressure dh = T ds."""
    kelvin = within(name, share)
    pressure = Absolute(part * saturation_pressure(name, kelvin).pa)
    cold, warm = (vapor(name, kelvin + step, pressure) for step in (0, 0.1))
    middle = kelvin + 0.05
    assert warm.enthalpy - cold.enthalpy == pytest.approx(
        middle * (warm.entropy - cold.entropy), rel=1e-5
    )


def test_thin_vapor_is_an_ideal_gas():
    found = vapor("R-134a", ZERO_C + 20, Absolute(100))
    molar = found.pressure.pa * 0.102032 / found.density / found.kelvin  # 102.032 g/mol
    assert molar == pytest.approx(8.314471, rel=1e-4)


def test_a_reference_moves_heat_and_entropy_only():
    iir, ashrae = (vapor("R-134a", 300, Absolute(2e5), one) for one in ("IIR", "ASHRAE"))
    assert iir.enthalpy - ashrae.enthalpy == pytest.approx(table_of("R-134a").ashrae[0])
    assert iir.density == ashrae.density


@pytest.mark.parametrize(
    ("kelvin", "pa", "phase"),
    [(300, 5e5, "vapor"), (300, 9e5, "liquid"), (400, 2e6, "vapor")],
)
def test_the_phase_is_told_from_temperature_and_pressure(kelvin, pa, phase):
    assert phase_at("R-134a", kelvin, Absolute(pa)) == phase


def test_vapor_that_would_be_liquid_names_what_can_be_wrong():
    with pytest.raises(OutOfRange, match="liquid, not vapor"):
        vapor("R-134a", 300, Absolute(9e5))
    with pytest.raises(OutOfRange, match="vapor, not liquid"):
        liquid("R-134a", 300, Absolute(5e5))


@pytest.mark.parametrize(
    ("error", "kelvin", "pa"),
    [
        (OutOfRange, 460, 1e5),
        (OutOfRange, 300, 0),
        (OutOfRange, 400, 5e6),
        (OutOfRange, 200, 1e3),
        (Impossible, -5, 1e5),
        (Malformed, float("nan"), 1e5),
    ],
)
def test_vapor_outside_its_range_is_refused(error, kelvin, pa):
    with pytest.raises(error):
        vapor("R-134a", kelvin, Absolute(pa))


def test_liquid_under_a_pressure_of_no_car_is_refused():
    with pytest.raises(OutOfRange, match="10 MPa"):
        liquid("R-134a", 300, Absolute(2e7))


def test_heat_beyond_both_ends_is_refused():
    with pytest.raises(OutOfRange, match="is liquid"):
        at_pressure("R-134a", Absolute(1e6), "enthalpy", 100e3)
    with pytest.raises(OutOfRange, match="hotter"):
        at_pressure("R-134a", Absolute(1e6), "enthalpy", 900e3)


def test_a_crossing_is_found_or_the_nearer_end_given():
    assert crossing(lambda x: x * x - 2, 0, 2) == pytest.approx(2**0.5, rel=1e-12)
    assert crossing(lambda x: x + 1, 0, 2) == 0
    assert crossing(lambda x: x - 3, 0, 2) == 2
