"""Refrigerants held to published values; refrigerants.json names each source."""

import math

import pytest

from diagnostics.physics.saturation import saturated, table_of
from tests.physics.cases import ROWS, computed, deviation, rows

# Closed forms of the saturation line, ln(p/pc) = Tc/T sum a (1-T/Tc)^b, with critical point, pairs
# (a, b), and how far they may be off over the whole table. R-12, R-152a, R-1234yf (by the
# formulation of 2010) as listed in pychemqt lib/mEoS; R-134a (Tillner-Roth and Baehr 1994) and
# R-744 (Span and Wagner 1996, eq. 3.13) from memory.
VAPOR_PRESSURES = {
    "R-134a": (
        374.18, 4056.29e3, 1.5e-3,
        ((-7.686556, 1), (2.311791, 1.5), (-2.039554, 2), (-3.583758, 4)),
    ),
    "R-1234yf": (
        367.85, 3382.2e3, 3e-3, ((-7.4697, 1), (2.7915, 1.5), (-2.1312, 1.8), (-2.9531, 3.8))
    ),
    "R-12": (
        385.12, 4136.1e3, 3e-4,
        ((-7.0834, 1), (4.3562, 1.5), (-3.5249, 1.67), (-2.8872, 4.14), (-0.89926, 10)),
    ),
    "R-152a": (
        386.411, 4516.75e3, 5e-4,
        ((-7.4821, 1), (2.1105, 1.5), (-2.0761, 2.2), (-3.5539, 4.8), (0.58004, 6.2)),
    ),
    "R-744": (
        304.1282, 7377.3e3, 1e-4,
        ((-7.0602087, 1), (1.9391218, 1.5), (-1.6463597, 2), (-3.2995634, 4)),
    ),
}  # fmt: skip
# K: colder, the formulations of R-1234yf of 2010 and 2022 part by up to 0.9 % (at -60 °C).
COLDEST = {"R-1234yf": 243.15}
# The same for the liquid: density/critical density = 1 + sum a (1-T/Tc)^b; pychemqt lib/mEoS.
LIQUID_DENSITIES = {
    "R-12": (
        385.12, 565.0, 1.5e-3,
        ((32.983, 0.57), (-109.97, 0.72), (170.67, 0.89), (-133.42, 1.07), (42.525, 1.25)),
    ),
    "R-152a": (
        386.411, 368.0, 5e-4,
        ((19.914, 0.56), (-68.624, 0.76), (99.821, 0.95), (-77.984, 1.2), (29.913, 1.4)),
    ),
}  # fmt: skip
ELSEWHERE = ("gwp", "safety", "cylinder")  # asserted in the tests of their own subject
OF_THE_LIBRARY = ("cv", "speed of sound", "pressure R-1234yf")  # in test_refrigerant_tables.py


def is_here(row):
    library = row["group"] == "r1234yf-eos" and row["quantity"].startswith(OF_THE_LIBRARY)
    return row["group"] not in ELSEWHERE and not library


HERE = [row for row in rows("check", "regression") if is_here(row)]
TRAPS = [row for row in rows("trap") if is_here(row)]


@pytest.mark.parametrize("row", HERE, ids=[row["id"] for row in HERE])
def test_a_property_agrees_with_the_published_value(row):
    assert deviation(row, computed(row)) <= 1


@pytest.mark.parametrize("row", TRAPS, ids=[row["id"] for row in TRAPS])
def test_a_published_value_that_is_wrong_is_not_adopted(row):
    assert deviation(row, computed(row)) > 2


def test_every_row_names_its_source_and_how_it_is_known():
    assert len({row["id"] for row in ROWS}) == len(ROWS)
    assert all(row["source"] and row["source_status"] for row in ROWS)


def test_no_group_was_left_out():
    assert len(HERE) > 150
    assert TRAPS


def along(name):
    """Saturated states over the table, to 2 K below the critical point."""
    table, steps = table_of(name), 100
    start = max(table.lowest, COLDEST.get(name, 0))
    for step in range(steps + 1):
        yield saturated(name, start + (table.highest - 2 - start) * step / steps)


@pytest.mark.parametrize("name", VAPOR_PRESSURES)
def test_saturation_pressure_follows_an_independent_closed_form(name):
    critical, pressure, tolerance, terms = VAPOR_PRESSURES[name]
    for rest in along(name):
        reach = 1 - rest.kelvin / critical
        logarithm = critical / rest.kelvin * sum(a * reach**b for a, b in terms)
        assert rest.pressure.pa == pytest.approx(pressure * math.exp(logarithm), rel=tolerance)


@pytest.mark.parametrize("name", LIQUID_DENSITIES)
def test_liquid_density_follows_an_independent_closed_form(name):
    critical, density, tolerance, terms = LIQUID_DENSITIES[name]
    for rest in along(name):
        reach = 1 - rest.kelvin / critical
        expected = density * (1 + sum(a * reach**b for a, b in terms))
        assert rest.liquid_density == pytest.approx(expected, rel=tolerance)
