"""A loop at rest: what its pressure shows, and how blind it is."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.atmosphere import SEA_LEVEL
from diagnostics.physics.charge import (
    FOREIGN_GAS,
    StaticBand,
    last_liquid,
    lockout_temperature,
    read_static,
    static_band,
    static_pressure,
    unseen_loss,
)
from diagnostics.physics.errors import Impossible, OutOfRange
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.saturation import saturated
from diagnostics.physics.uncertainty import Measured, measured

ZERO_C = 273.15
CAR = st.sampled_from(["R-134a", "R-1234yf"])
WARMTH = st.floats(ZERO_C - 20, ZERO_C + 60)
ORDER = ("none", "below", "expected", "a_little_above", "above")
GAUGE_U = 10e3


@pytest.mark.parametrize(
    ("name", "celsius", "kpa"),
    [
        ("R-134a", 10, 313), ("R-134a", 20, 470), ("R-134a", 30, 669), ("R-134a", 40, 915),
        ("R-1234yf", 10, 336), ("R-1234yf", 20, 491), ("R-1234yf", 30, 682), ("R-1234yf", 40, 917),
        ("R-134a", 45, 1059), ("R-134a", 1, 202), ("R-134a", 11, 327),
    ],
)  # fmt: skip
def test_the_pressure_at_rest_is_the_one_of_trade_tables(name, celsius, kpa):
    # trade facts, computed: gauge, sea level
    assert static_pressure(name, ZERO_C + celsius).pa / 1000 == pytest.approx(kpa, abs=0.5)


def test_on_a_mountain_the_gauge_shows_more_for_the_same_loop():
    high_up = static_pressure("R-134a", ZERO_C + 20, Absolute(84_500))
    assert high_up.pa - static_pressure("R-134a", ZERO_C + 20).pa == pytest.approx(16_825)


@pytest.mark.parametrize(("name", "grams"), [("R-134a", 97), ("R-1234yf", 114)])
def test_the_needle_stays_full_until_hardly_anything_is_left(name, grams):
    # trade facts, computed: 3 L loop at 25 °C
    assert last_liquid(name, ZERO_C + 25) * 1000 == pytest.approx(grams, abs=0.5)


def test_most_of_a_label_charge_can_be_gone_unseen():
    assert unseen_loss("R-134a", 0.65, ZERO_C + 25) == pytest.approx(0.553, abs=0.001)
    assert unseen_loss("R-134a", 0.05, ZERO_C + 25) == 0


@given(CAR, WARMTH, st.floats(0.1, 3), st.floats(0, 30e3))
def test_a_band_is_as_wide_as_thermometer_and_gauge_make_it(name, kelvin, warm_u, gauge_u):
    band = static_band(name, Measured(kelvin, warm_u), gauge_u)
    slope = saturated(name, kelvin).pressure_slope
    assert band.u == pytest.approx(math.hypot(gauge_u, slope * warm_u))
    assert band.low <= band.expected <= band.high
    assert band.high.pa - band.low.pa == pytest.approx(4 * band.u)


@given(CAR, WARMTH, st.floats(-101e3, 3e6), st.floats(-101e3, 3e6))
def test_a_higher_reading_never_shows_less(name, kelvin, one, other):
    band = static_band(name, measured(kelvin, 1.0, "thermometer"), GAUGE_U)
    low, high = sorted((one, other))
    found = [read_static(band, Gauge(pa), GAUGE_U, soaked=True) for pa in (low, high)]
    assert ORDER.index(found[0]) <= ORDER.index(found[1])


@given(CAR, WARMTH, st.floats(-101e3, 3e6))
def test_a_loop_that_has_not_soaked_only_tells_some_from_none(name, kelvin, pa):
    band = static_band(name, Measured(kelvin, 1.0), GAUGE_U)
    assert read_static(band, Gauge(pa), GAUGE_U, soaked=False) in {"some", "none"}


BAND = StaticBand(Gauge(470e3), 20e3)


@pytest.mark.parametrize(
    ("kpa", "finding"),
    [
        (-90, "none"), (0, "none"), (15, "none"), (25, "below"), (429, "below"),
        (431, "expected"), (470, "expected"), (509, "expected"), (511, "a_little_above"),
        (539, "a_little_above"), (541, "above"), (900, "above"),
    ],
)  # fmt: skip
def test_a_reading_after_a_full_soak_is_placed(kpa, finding):
    assert read_static(BAND, Gauge(kpa * 1000), GAUGE_U, soaked=True) == finding


def test_air_in_the_loop_is_called_only_well_above_the_band():
    just = Gauge(BAND.high.pa + FOREIGN_GAS)
    assert read_static(BAND, just, GAUGE_U, soaked=True) == "a_little_above"


def test_a_cold_bay_locks_a_full_loop_out():
    # trade facts, computed: 327 kPa only at 11 °C, 202 kPa at 1 °C
    assert lockout_temperature("R-134a", Gauge(327e3)) - ZERO_C == pytest.approx(11, abs=0.1)
    assert lockout_temperature("R-134a", Gauge(202e3)) - ZERO_C == pytest.approx(1, abs=0.1)


@given(CAR, WARMTH)
def test_lockout_is_the_way_back_from_the_pressure_at_rest(name, kelvin):
    rest = static_pressure(name, kelvin)
    assert lockout_temperature(name, rest) == pytest.approx(kelvin, abs=1e-6)


@pytest.mark.parametrize("volume", [0, -1, float("nan")])
def test_a_loop_of_no_volume_is_refused(volume):
    with pytest.raises(OutOfRange):
        last_liquid("R-134a", 300, volume)


def test_a_label_charge_below_zero_is_refused():
    with pytest.raises(OutOfRange):
        unseen_loss("R-134a", -0.1, 300)


def test_a_switch_deeper_than_vacuum_is_impossible():
    with pytest.raises(Impossible):
        lockout_temperature("R-134a", Gauge(-200e3))


def test_r744_at_31_degrees_and_more_has_no_pressure_at_rest():
    with pytest.raises(OutOfRange, match="recorded, not judged"):
        static_pressure("R-744", ZERO_C + 31, SEA_LEVEL)
