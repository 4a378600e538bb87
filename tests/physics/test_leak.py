"""What a pressure that moves means as a leak; nitrogen held in a loop."""

import math

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.atmosphere import SEA_LEVEL
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.leak import NOTHING, Loop, gas_flow, pressure_rate, refrigerant_flow
from diagnostics.physics.nitrogen import (
    HeldReading,
    expected_pressure,
    read_hold,
)
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.uncertainty import Measured
from diagnostics.physics.units import from_si, to_si

C0 = 273.15
LOOP = Loop()
FIVE_MINUTES = 300


@pytest.mark.parametrize(
    ("leak", "unit", "micron", "tolerance"),
    # trade facts, computed: 14 g a year add about 0.2 micron in 5 minutes in 3 L, 1 kg about 13
    [(14, "g/yr", 0.2, 0.1), (1, "kg/yr", 13, 0.06)],
)
def test_a_leak_a_detector_finds_hardly_moves_a_vacuum(leak, unit, micron, tolerance):
    rate = pressure_rate(to_si(leak, unit), C0 + 20, NOTHING, SEA_LEVEL, LOOP)
    assert from_si(rate * FIVE_MINUTES, "micron") == pytest.approx(micron, rel=tolerance)


def test_a_rise_as_an_amount_of_gas_follows_the_published_equation():
    # 40 CFR 1065.644: 2.0000 L from 25.300 to 50.600 kPa in 70 s at 293.15 K (read; the result,
    # 2.966e-4 mol/s, is computed from its equation)
    flow = gas_flow((50_600 - 25_300) / 70, 0.002)
    assert flow / (8.314472 * 293.15) == pytest.approx(2.9657e-4, rel=1e-4)


def test_pressure_drives_a_leak_by_its_square():
    # leak test handbook's example, read: 10 to 20 atm inside, 1 outside: 0.001 becomes 0.004
    atm = 101_325.0
    ten, twenty = (
        refrigerant_flow(1.0, 300, Absolute(n * atm), Absolute(atm), LOOP) for n in (10, 20)
    )
    assert ten / twenty == pytest.approx(4.03, abs=0.01)


def test_refrigerant_through_its_own_drive_is_just_the_gas_as_a_mass():
    # R-134a: 102.03 g/mol
    found = refrigerant_flow(1.0, 300, LOOP.rest, SEA_LEVEL, LOOP)
    assert found == pytest.approx(0.10203 / (8.314462618 * 300), rel=1e-4)


@given(st.floats(1e-12, 1e-3), st.floats(250, 330), st.sampled_from(["R-134a", "R-1234yf"]))
def test_a_leak_and_its_rise_are_each_other_s_way_back(kilogram, kelvin, refrigerant):
    loop = Loop(refrigerant=refrigerant)
    rate = pressure_rate(kilogram, kelvin, NOTHING, SEA_LEVEL, loop)
    flow = gas_flow(rate, loop.volume)
    assert refrigerant_flow(flow, kelvin, NOTHING, SEA_LEVEL, loop) == pytest.approx(kilogram)


@given(st.floats(0.001, 0.02), st.floats(0.001, 0.02))
def test_a_larger_loop_rises_more_slowly(one, other):
    small, large = sorted((one, other))
    rates = [
        pressure_rate(1e-8, 293, NOTHING, SEA_LEVEL, Loop(volume=volume))
        for volume in (small, large)
    ]
    assert rates[0] >= rates[1]


def test_a_loop_without_volume_pressure_or_name_is_refused():
    with pytest.raises(OutOfRange, match="volume"):
        Loop(volume=0)
    with pytest.raises(OutOfRange, match="cold"):
        Loop(rest_kelvin=C0 - 40)
    with pytest.raises(Malformed):
        Loop(refrigerant="R-99")
    with pytest.raises(OutOfRange, match="same pressure"):
        refrigerant_flow(1.0, 300, SEA_LEVEL, SEA_LEVEL, LOOP)
    for ask in (
        lambda: gas_flow(math.nan, 0.003),
        lambda: pressure_rate(math.nan, 300, NOTHING, SEA_LEVEL, LOOP),
    ):
        with pytest.raises(Malformed):
            ask()
    with pytest.raises(OutOfRange):
        gas_flow(1.0, 0)


def held(bar, celsius):
    return HeldReading(Gauge(bar * 1e5), Measured(C0 + celsius, 2 / math.sqrt(3)))


def test_ten_bar_at_25_degrees_read_9_82_at_20():
    # trade facts, computed
    found = expected_pressure(Gauge(10e5), C0 + 25, C0 + 20, SEA_LEVEL)
    assert found.pa / 1e5 == pytest.approx(9.82, abs=0.005)


@pytest.mark.parametrize(("bar", "off"), [(5, 0.002), (10, 0.005), (20, 0.02)])
def test_real_nitrogen_falls_hardly_more_than_an_ideal_gas(bar, off):
    density = PropsSI("D", "T", C0 + 25, "P", bar * 1e5 + SEA_LEVEL.pa, "Nitrogen")
    real = PropsSI("P", "T", C0 + 20, "D", density, "Nitrogen") - SEA_LEVEL.pa
    found = expected_pressure(Gauge(bar * 1e5), C0 + 25, C0 + 20, SEA_LEVEL).pa
    assert 0 < found - real < off * 1e5


@given(st.floats(0.1, 30), st.floats(-30, 60), st.floats(-30, 60))
def test_the_way_back_to_the_first_temperature_gives_the_first_reading(bar, one, other):
    there = expected_pressure(Gauge(bar * 1e5), C0 + one, C0 + other, SEA_LEVEL)
    back = expected_pressure(there, C0 + other, C0 + one, SEA_LEVEL)
    assert back.pa == pytest.approx(bar * 1e5, rel=1e-9, abs=1e-3)


@pytest.mark.parametrize(
    ("end", "celsius", "seen"),
    [
        (9.82, 20, "cannot_tell"), (9.0, 20, "leak"), (10.0, 25, "cannot_tell"),
        (9.9, 25, "cannot_tell"), (9.82, 25, "leak"), (10.5, 20, "rises"),
    ],
)  # fmt: skip
def test_a_hold_is_judged_after_the_temperature_is_taken_out(end, celsius, seen):
    assert read_hold(held(10, 25), held(end, celsius), 1_800, LOOP).seen == seen


def test_a_hold_tells_the_smallest_leak_it_could_have_seen():
    short = read_hold(held(10, 25), held(10, 25), 600, LOOP)
    long = read_hold(held(10, 25), held(10, 25), 6_000, LOOP)
    assert short.smallest == pytest.approx(10 * long.smallest)
    assert from_si(long.smallest, "g/yr") > 14  # far from what a detector finds
    assert short.leak == 0


@given(st.floats(2, 20), st.floats(-5, 45), st.floats(-5, 45), st.floats(60, 1e6))
def test_a_leak_at_the_edge_of_the_hold_is_the_smallest_one(bar, one, other, seconds):
    start = held(bar, one)
    quiet = read_hold(start, held(bar, other), seconds, LOOP)
    edge = (quiet.expected.pa - quiet.change.expanded) / 1e5
    at_edge = read_hold(start, held(edge, other), seconds, LOOP)
    assert at_edge.leak == pytest.approx(at_edge.smallest, rel=1e-6)


def test_a_hold_that_cannot_be_is_refused():
    with pytest.raises(OutOfRange, match="minute"):
        read_hold(held(10, 25), held(10, 25), 10, LOOP)
    with pytest.raises(OutOfRange, match="nothing to hold"):
        read_hold(held(0, 25), held(0, 25), 600, LOOP)
    with pytest.raises(Impossible, match="absolute zero"):
        expected_pressure(Gauge(10e5), -1, 300, SEA_LEVEL)
    with pytest.raises(OutOfRange):
        expected_pressure(Gauge(10e5), 0, 300, SEA_LEVEL)
    with pytest.raises(Impossible, match="perfect vacuum"):
        expected_pressure(Gauge(-2e5), 300, 300, SEA_LEVEL)
