"""Depth, needle and altitude, and what water does in a pumped loop."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.atmosphere import SEA_LEVEL, standard_pressure
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.uncertainty import Measured
from diagnostics.physics.units import from_si, to_si
from diagnostics.physics.vacuum import (
    TARGET,
    depth_absolute,
    leaves_at,
    needle_best,
    needle_shows,
    reaches,
    water_in,
)
from diagnostics.physics.water import vapor_pressure

ALTITUDE = st.floats(-400, 5_000)


def micron(number, u=0.0):
    return Measured(to_si(number, "micron"), to_si(u, "micron"))


def celsius(number, u=0.0):
    return Measured(number + 273.15, u)


def inches(depth):
    return Gauge(-to_si(depth, "inHg"))


@pytest.mark.parametrize(("altitude", "best"), [(0, 29.9), (1_500, 25.0), (1_600, 24.66)])
def test_the_best_a_needle_can_show_falls_with_altitude(altitude, best):
    # trade facts, computed: 29.9 inHg at sea level, 25.0 at 1 500 m
    found = -needle_best(standard_pressure(altitude)).pa
    assert from_si(found, "inHg") == pytest.approx(best, abs=0.05)


def test_29_inches_are_deep_at_the_sea_and_impossible_in_the_mountains():
    found = depth_absolute(inches(29), SEA_LEVEL)
    assert from_si(found.pa, "inHg") == pytest.approx(0.921, abs=0.001)
    with pytest.raises(Impossible, match=r"29\.0\u00a0inHg.*deeper than perfect.*25\.0"):
        depth_absolute(inches(29), standard_pressure(1_500))


def test_a_pressure_above_the_air_s_is_no_vacuum():
    with pytest.raises(Malformed, match="no vacuum"):
        depth_absolute(Gauge(1000), SEA_LEVEL)


@given(ALTITUDE, st.floats(0, 1))
def test_needle_and_absolute_are_each_other_s_way_back(altitude, share):
    air = standard_pressure(altitude)
    pressure = Absolute(share * air.pa)
    back = depth_absolute(needle_shows(pressure, air), air)
    assert back.pa == pytest.approx(pressure.pa, abs=1e-6)


@given(ALTITUDE, ALTITUDE)
def test_a_higher_place_never_lets_a_needle_show_more(one, other):
    low, high = sorted((one, other))
    assert needle_best(standard_pressure(low)) <= needle_best(standard_pressure(high))


@pytest.mark.parametrize(
    ("depth", "warmth", "state", "ice"),
    [
        # trade facts, computed: water boils at 17 500 micron at 20 °C, 9 200 at 10 °C
        (15_000, 20, "boils", False), (20_000, 20, "stays", False), (8_000, 10, "boils", False),
        (15_000, 10, "stays", False), (500, 20, "boils", True), (4_000, 5, "boils", True),
        (500, -10, "ice_leaves", True), (3_000, -10, "ice_stays", True),
        (17_500, 20, "cannot_tell", False),
    ],
)  # fmt: skip
def test_water_boils_or_stays_by_depth_and_temperature(depth, warmth, state, ice):
    found = water_in(micron(depth, 0.05 * depth), celsius(warmth, 0.5))
    assert (found.state, found.chills_to_ice) == (state, ice)


@given(st.floats(1, 50_000), st.floats(-40, 60))
def test_water_that_boils_here_leaves_from_a_lower_temperature_on(depth, warmth):
    found = water_in(micron(depth), celsius(warmth))
    assert found.leaves_at is not None
    if found.state in ("boils", "ice_leaves"):
        assert found.leaves_at <= warmth + 273.15 + 1e-6
    elif found.state in ("stays", "ice_stays"):
        assert found.leaves_at >= warmth + 273.15 - 1e-6


@given(st.floats(1, 50_000), st.floats(-40, 60), st.floats(0, 2_000), st.floats(0, 3))
def test_a_worse_instrument_never_says_more(depth, warmth, u, u_k):
    sure = water_in(micron(depth), celsius(warmth)).state
    assert water_in(micron(depth, u), celsius(warmth, u_k)).state in (sure, "cannot_tell")


def test_so_near_to_perfect_no_loop_is_cold_enough_to_keep_ice():
    assert leaves_at(Absolute(0)) is None
    assert leaves_at(Absolute(1e-9)) is None
    assert leaves_at(vapor_pressure(250)) == pytest.approx(250)


@pytest.mark.parametrize(
    ("depth", "u", "where"),
    [(400, 20, "inside"), (490, 20, "cannot_tell"), (600, 20, "above"), (0, 0, "inside")],
)
def test_a_depth_stands_to_the_target_of_500_micron(depth, u, where):
    # trade articles: 500 micron or lower
    assert from_si(TARGET.pa, "micron") == pytest.approx(500)
    assert reaches(micron(depth, u)) == where


def test_what_cannot_be_is_named():
    with pytest.raises(Impossible):
        water_in(Measured(-1, 0), celsius(20))
    with pytest.raises(Impossible):
        water_in(micron(500), Measured(-1, 0))
    with pytest.raises(Malformed):
        water_in(micron(500), Measured(math.nan, 0))
    with pytest.raises(OutOfRange):
        water_in(micron(500), celsius(400))
