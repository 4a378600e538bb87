"""A rise in vacuum: leak, moisture, no rise, or cannot tell."""

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.rise import GROSS, read_rise
from diagnostics.physics.rise_curves import Timed, criterion
from diagnostics.physics.units import from_si, to_si
from diagnostics.physics.water import vapor_pressure

WATER = vapor_pressure(293.15)
DIGIT = to_si(1, "micron")
MICRON_MINUTE = to_si(1, "micron/min")


def read(minutes, microns, water=WATER):
    readings = [
        Timed(minute * 60, Absolute(to_si(float(one), "micron")))
        for minute, one in zip(minutes, microns, strict=True)
    ]
    return read_rise(readings, water, DIGIT)


def straight(minutes, start, rate):
    return read(minutes, [start + rate * one for one in minutes])


def flattening(minutes, start, gain, pace, noise=lambda: 0.0):
    return read(minutes, [start + gain * (1 - math.exp(-t / pace)) + noise() for t in minutes])


@pytest.mark.parametrize(("start", "rate"), [(400, 100), (500, 500), (300, 40)])
@pytest.mark.parametrize("minutes", [range(0, 26, 5), range(0, 21, 2)])
def test_a_straight_climb_is_a_leak_and_its_rate_is_found(start, rate, minutes):
    found = straight(minutes, start, rate)
    assert (found.seen, found.why) == ("leak", "")
    assert found.rate.value == pytest.approx(rate * MICRON_MINUTE, rel=1e-6)


@pytest.mark.parametrize(("gain", "pace"), [(1_500, 3), (1_200, 6), (5_000, 2)])
def test_a_rise_that_flattens_below_water_s_line_is_moisture(gain, pace):
    found = flattening(range(0, 21, 2), 400, gain, pace)
    assert found.seen == "moisture"
    assert from_si(found.curves["flattening"].plateau, "micron") == pytest.approx(
        400 + gain, rel=0.01
    )
    assert found.curves["flattening"].pace == pytest.approx(pace * 60, rel=0.02)


def test_readings_that_stay_are_no_rise():
    assert read(range(0, 16, 3), [450] * 6).seen == "no_rise"
    assert read(range(0, 16, 3), [450, 452, 449, 451, 450, 452]).seen == "no_rise"


def test_a_falling_pressure_says_nothing_of_a_leak():
    assert straight(range(6), 900, -60).seen == "falls"


@pytest.mark.parametrize("count", [2, 3, 4])
def test_too_few_readings_cannot_tell_what_rises(count):
    found = straight(range(count), 400, 200)
    assert (found.seen, found.why) == ("cannot_tell", "few")


def test_a_small_short_rise_cannot_show_whether_it_flattens():
    found = straight(range(6), 500, 12)
    assert (found.seen, found.why) == ("cannot_tell", "not_shown")


def test_a_rise_through_water_s_line_is_not_water_alone():
    found = read(range(6), [500, 1_500, 3_500, 9_500, 18_500, 30_000])
    assert found.seen == "leak"
    assert found.above_water


def test_a_curve_that_ends_above_water_s_line_is_never_called_moisture():
    cold = vapor_pressure(263.15)  # about 1 950 micron over ice at -10 °C
    assert from_si(cold.pa, "micron") == pytest.approx(1_950, rel=0.01)
    minutes = range(0, 21, 2)
    microns = [400 + 3_000 * (1 - math.exp(-t / 4)) for t in minutes]
    assert read(minutes, microns, cold).seen != "moisture"
    assert read(minutes, microns).seen == "moisture"


@pytest.mark.parametrize("seed", range(20))
def test_scatter_within_the_gauge_s_own_does_not_turn_one_into_the_other(seed):
    chance = random.Random(seed)

    def noise(one=0.0):
        return one * (1 + chance.gauss(0, 0.01))

    minutes = range(0, 21, 2)
    leak = read(minutes, [noise(400 + 60 * t) for t in minutes])
    wet = read(minutes, [noise(400 + 1_200 * (1 - math.exp(-t / 4))) for t in minutes])
    assert leak.seen in ("leak", "cannot_tell")
    assert wet.seen in ("moisture", "cannot_tell")


def test_most_scattered_readings_are_still_told_apart():
    chance = random.Random(7)
    minutes = range(0, 21, 2)
    seen = [
        read(minutes, [(400 + 60 * t) * (1 + chance.gauss(0, 0.01)) for t in minutes]).seen
        for _ in range(100)
    ]
    assert seen.count("leak") >= 85
    assert seen.count("moisture") <= 2


@given(
    st.lists(st.floats(50, 20_000), min_size=2, max_size=12),
    st.floats(0.2, 30),
    st.floats(1.1, 10),
)
def test_the_answer_does_not_depend_on_the_pace_of_the_clock(microns, step, times):
    once = read([step * n for n in range(len(microns))], microns)
    slower = read([step * times * n for n in range(len(microns))], microns)
    assert once.seen == slower.seen
    assert slower.rate.value * times == pytest.approx(once.rate.value, rel=1e-6, abs=1e-9)


@given(st.lists(st.floats(1, 50_000), min_size=2, max_size=12))
def test_any_readings_give_an_answer_with_finite_numbers(microns):
    found = read(range(len(microns)), microns)
    assert math.isfinite(found.rate.value)
    assert found.rate.u > 0
    assert found.hidden_rate >= found.smallest_rate > 0
    for curve in found.curves.values():
        assert all(math.isfinite(curve.at(60.0 * minute)) for minute in range(len(microns)))
    assert found.curves["flattening"].plateau <= WATER.pa * (1 + 1e-9) or (
        found.curves["flattening"].gain == 0
    )


@given(st.floats(100, 2_000), st.floats(0, 500))
def test_a_rise_that_is_seen_is_larger_than_what_could_be_seen(start, rate):
    found = straight(range(0, 31, 5), start, rate)
    if found.seen == "leak" and not found.above_water:
        assert found.rate.value > found.smallest_rate


def test_the_criterion_is_that_of_few_readings():
    # AICc = misfit + 2k + 2k(k + 1)/(n - k - 1), worked by hand for n = 10
    assert criterion(10.0, 2, 10) == pytest.approx(10 + 4 + 12 / 7)
    assert criterion(10.0, 3, 10) == pytest.approx(10 + 6 + 24 / 6)
    assert criterion(0.0, 3, 4) == math.inf


def test_a_held_vacuum_is_never_said_to_be_tight():
    assert "gross check" in GROSS
    assert "never proof of tightness" in GROSS
    assert "no leak" not in GROSS.lower()


def test_readings_out_of_order_and_too_few_are_named():
    with pytest.raises(OutOfRange, match="One reading"):
        read([0], [500])
    with pytest.raises(OutOfRange):
        read(range(600), [500] * 600)
    with pytest.raises(Malformed, match="later"):
        read([0, 2, 2], [500, 510, 520])
    with pytest.raises(Malformed, match="later"):
        read([0, math.nan, 2], [500, 510, 520])
