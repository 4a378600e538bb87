"""A coil's resistance against its figure, its pull, and the diode across it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.clutch_coil import (
    brought_to_20,
    judge_coil,
    pull,
    unread_temperature,
    vehicle_figure,
)
from diagnostics.physics.diode import TYPICAL_AMPERE, MeterDrive, read_both_ways
from diagnostics.physics.electrics import PLAUSIBLE_12_V
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.uncertainty import Measured

C0 = 273.15
SURE = Measured(C0 + 20, 1.15)
KELVIN = st.floats(C0 - 40, C0 + 180)


@pytest.mark.parametrize(
    ("ohm", "celsius", "where"),
    [
        # trade facts: 4.7 ohm at 100 °C is a good 3.6 ohm coil
        (4.7, 100, "inside"), (3.6, 20, "inside"), (3.6, 100, "below"), (4.7, 20, "above"),
        (3.3, 20, "cannot_tell"), (3.9, 20, "cannot_tell"),
    ],
)  # fmt: skip
def test_a_coil_is_judged_at_20_degrees_by_the_vehicle_s_figure(ohm, celsius, where):
    found = judge_coil(Measured(ohm, 0.06), Measured(C0 + celsius, 1.15), vehicle_figure(3.6))
    assert found.where == where


@pytest.mark.parametrize(
    ("ohm", "where"),
    [(1.0, "below"), (2.0, "cannot_tell"), (3.6, "inside"), (6.0, "cannot_tell"), (8.0, "above")],
)
def test_without_a_figure_the_plausible_band_of_12_volts_counts(ohm, where):
    # trade articles: 2 to 6 ohm
    assert judge_coil(Measured(ohm, 0.06), SURE, PLAUSIBLE_12_V).where == where


def test_a_coil_whose_temperature_was_not_read_is_seldom_condemned():
    # 4.7 ohm may be 3.6 hot or 5.5 cold
    assert judge_coil(Measured(4.7, 0.06), unread_temperature(), vehicle_figure(3.6)).where == (
        "cannot_tell"
    )


@given(st.floats(0.5, 20), KELVIN, st.floats(0, 0.2), st.floats(0, 5))
def test_uncertainty_of_the_resistance_is_the_first_order_of_both_readings(ohm, kelvin, u, u_k):
    found = brought_to_20(Measured(ohm, u), Measured(kelvin, u_k))
    step = 1e-3
    sure = [
        brought_to_20(Measured(ohm, 0), Measured(kelvin + way, 0)).value for way in (-step, step)
    ]
    by_warmth = (sure[0] - sure[1]) / (2 * step) * u_k
    by_ohm = found.value / ohm * u
    assert found.u == pytest.approx(math.hypot(by_warmth, by_ohm), rel=1e-4, abs=1e-12)


def test_a_hot_coil_pulls_58_to_76_percent_and_42_with_little_voltage():
    # trade facts, computed
    hot = pull(13.5, C0 + 100)
    assert (hot.low, hot.high) == pytest.approx((0.58, 0.76), abs=0.005)
    assert pull(11.5, C0 + 100).square == pytest.approx(0.42, abs=0.005)


@given(st.floats(0, 30), KELVIN, KELVIN)
def test_a_warmer_coil_never_pulls_more(volt, one, other):
    cold, warm = sorted((one, other))
    assert pull(volt, warm).square <= pull(volt, cold).square


@given(st.floats(0, 30), KELVIN)
def test_the_pull_lies_between_its_two_ends(volt, kelvin):
    found = pull(volt, kelvin)
    assert found.low <= found.square <= found.high
    assert found.low <= found.straight <= found.high


def test_the_full_pull_is_full():
    assert pull(13.5, C0 + 20).square == pytest.approx(1)


def test_what_no_coil_has_is_refused():
    for ask, error in (
        (lambda: pull(-12, 300), Impossible),
        (lambda: pull(math.nan, 300), Malformed),
        (lambda: pull(12, 300, full_volt=0), OutOfRange),
        (lambda: vehicle_figure(0), OutOfRange),
        (lambda: vehicle_figure(3.6, 1.0), OutOfRange),
        (lambda: brought_to_20(Measured(-1, 0.1), SURE), Impossible),
    ):
        with pytest.raises(error):
            ask()


def ohm(value, u=0.06):
    return None if value is None else Measured(value, u)


STRONG, WEAK = MeterDrive(3.0, 0.5), MeterDrive(3.0, TYPICAL_AMPERE)


@pytest.mark.parametrize(
    ("one", "other", "drive", "coil", "diode"),
    [
        # most hand meters: a few mV across the coil, so the diode is not seen at all
        (3.6, 3.6, WEAK, "carries", "cannot_tell"), (3.6, 3.6, None, "carries", "cannot_tell"),
        # a meter with voltage enough: conducts nowhere, so open or not fitted
        (3.6, 3.6, STRONG, "carries", "none_seen"),
        (2.4, 3.6, STRONG, "carries", "one_way"), (3.6, 2.4, None, "carries", "one_way"),
        (0.2, 0.2, WEAK, "short", "short"),
        (600.0, None, WEAK, "open", "one_way"), (None, 600.0, None, "open", "one_way"),
        (None, None, WEAK, "open", "none_seen"), (None, None, None, "open", "cannot_tell"),
        (None, None, MeterDrive(0.2, None), "open", "cannot_tell"),
        (1e6, 1e6, WEAK, "open", "none_seen"),
        # what differs by less than the meter's error does not differ
        (3.55, 3.6, WEAK, "carries", "cannot_tell"),
    ],
)  # fmt: skip
def test_two_readings_tell_of_the_diode_only_what_they_can(one, other, drive, coil, diode):
    found = read_both_ways(ohm(one), ohm(other), drive)
    assert (found.coil, found.diode) == (coil, diode)


@given(st.one_of(st.none(), st.floats(0, 1e5)), st.one_of(st.none(), st.floats(0, 1e5)))
def test_which_reading_came_first_does_not_matter(one, other):
    assert read_both_ways(ohm(one), ohm(other), WEAK) == read_both_ways(ohm(other), ohm(one), WEAK)


def test_a_weak_meter_never_says_that_no_diode_is_there():
    assert all(
        read_both_ways(ohm(value), ohm(value), WEAK).diode in ("cannot_tell", "short")
        for value in (0.1, 1, 2, 3.6, 6, 20, 100)
    )


def test_a_resistance_below_zero_means_a_voltage_on_the_wire():
    with pytest.raises(Impossible, match="voltage"):
        read_both_ways(ohm(-0.5), ohm(3.6))
