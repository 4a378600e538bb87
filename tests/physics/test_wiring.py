"""Wire, drops under current, and a lamp as load (wire.json names each source)."""

import json
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.lamp import (
    TWENTY_ONE_WATT,
    Lamp,
    joint_before_lamp,
    joint_by_lamp,
)
from diagnostics.physics.uncertainty import Measured
from diagnostics.physics.wiring import (
    FEED_DROP,
    GROUND_DROP,
    awg_area,
    awg_diameter,
    drop_resistance,
    joint_before_coil,
    place_drop,
    wire_resistance,
)

ROWS = json.loads((Path(__file__).parent / "wire.json").read_text("utf-8"))
AWG = [row for row in ROWS if row["group"] == "awg"]
METRIC = [row for row in ROWS if row["group"] == "mm2"]
ROOM = 293.15
GAUGE = st.integers(-3, 40)


@pytest.mark.parametrize("row", AWG, ids=[row["id"] for row in AWG])
def test_a_wire_gauge_has_its_published_resistance_and_diameter(row):
    gauge = row["input"]["awg"]
    found = wire_resistance(awg_area(gauge), 1, ROOM)
    assert found == pytest.approx(row["expected"], rel=row["tolerance"])
    published = float(row["note"].split("d=")[1].split(" mm")[0])
    assert awg_diameter(gauge) * 1000 == pytest.approx(published, abs=1e-4)


@pytest.mark.parametrize("row", METRIC, ids=[row["id"] for row in METRIC])
def test_a_metric_wire_stays_below_the_standard_s_largest_resistance(row):
    found = wire_resistance(row["input"]["mm2"] * 1e-6, 1, ROOM)
    assert row["expected"] * (1 - row["tolerance"]) <= found <= row["expected"]


@given(GAUGE)
def test_three_gauges_thinner_is_about_half_the_copper(gauge):
    if gauge <= 37:
        assert awg_area(gauge + 3) / awg_area(gauge) == pytest.approx(0.5, abs=0.002)


@given(st.floats(1e-8, 1e-4), st.floats(0, 100), st.floats(1, 5), st.floats(250, 400))
def test_resistance_goes_with_length_and_against_copper(area, length, times, kelvin):
    once = wire_resistance(area, length, kelvin)
    assert wire_resistance(area, length * times, kelvin) == pytest.approx(once * times)
    assert wire_resistance(area * times, length, kelvin) == pytest.approx(once / times)
    assert wire_resistance(area, length, kelvin + 10) >= once


@pytest.mark.parametrize(
    ("gauge", "error"),
    [(12.5, Malformed), (41, OutOfRange), (-4, OutOfRange), (math.nan, Malformed)],
)
def test_a_gauge_that_does_not_exist_is_named(gauge, error):
    with pytest.raises(error, match="gauge"):
        awg_area(gauge)


def test_no_copper_and_a_length_below_zero_are_refused():
    for area, length in ((0, 1), (1e-6, -1), (math.nan, 1), (1e-6, math.inf)):
        with pytest.raises(OutOfRange):
            wire_resistance(area, length, ROOM)


def test_a_drop_under_current_means_a_resistance():
    found = drop_resistance(Measured(0.45, 0.005), Measured(-3.5, 0.05))
    assert found.value == pytest.approx(0.12857, abs=1e-5)
    assert found.u == pytest.approx(0.12857 * math.hypot(0.005 / 0.45, 0.05 / 3.5), rel=1e-3)


@pytest.mark.parametrize("ampere", [0, 0.04, -0.04])
def test_a_drop_without_current_shows_nothing(ampere):
    with pytest.raises(OutOfRange, match="shows nothing"):
        drop_resistance(Measured(0.45, 0.005), Measured(ampere, 0.01))


@pytest.mark.parametrize(
    ("volt", "limit", "where"),
    [
        # feed: trade articles, 0.20 to 0.30 V; ground: common practice, no source
        (0.12, FEED_DROP, "inside"), (0.25, FEED_DROP, "at_limit"), (0.45, FEED_DROP, "outside"),
        (-0.45, FEED_DROP, "outside"), (0.205, FEED_DROP, "cannot_tell"),
        (0.05, GROUND_DROP, "inside"), (0.2, GROUND_DROP, "outside"),
        (0.1, GROUND_DROP, "cannot_tell"),
    ],
)  # fmt: skip
def test_a_drop_stands_to_its_limit_with_the_meter_s_error(volt, limit, where):
    assert place_drop(Measured(volt, 0.005), limit) == where


def test_a_rotten_joint_shows_only_under_current():
    # trade facts: with an open coil a 10 ohm joint still shows 13.5 V
    assert joint_before_coil(13.5, 10, 1e9).load_volt == pytest.approx(13.5)
    assert joint_before_coil(13.5, 10, 3.6).load_volt == pytest.approx(3.57, abs=0.01)


def test_a_21_watt_lamp_behind_10_ohm_gets_about_5_volts():
    # trade facts, computed: about 5 V, and 6.3 V by a sum with constant resistance
    found = joint_before_lamp(13.5, 10, TWENTY_ONE_WATT)
    assert found.load_volt == pytest.approx(5.0, abs=0.1)
    assert joint_before_coil(13.5, 10, 13.5**2 / 21).load_volt == pytest.approx(6.3, abs=0.05)


@given(st.floats(1, 24), st.floats(0, 1_000), st.floats(2, 60), st.floats(6, 28))
def test_volts_at_the_lamp_and_in_the_joint_add_up(volt, ohm, watt, rated):
    lamp = Lamp(watt, rated)
    found = joint_before_lamp(volt, ohm, lamp)
    assert 0 <= found.load_volt <= volt * (1 + 1e-12)
    assert found.load_volt + found.drop == pytest.approx(volt)
    assert found.ampere == pytest.approx(lamp.ampere(found.load_volt))
    assert found.drop == pytest.approx(found.ampere * ohm, rel=1e-6, abs=1e-9)


@given(st.floats(6, 24), st.floats(0.1, 50))
def test_the_joint_is_found_again_from_the_lamp(volt, ohm):
    seen = joint_before_lamp(volt, ohm, TWENTY_ONE_WATT).load_volt
    assert joint_by_lamp(volt, seen, TWENTY_ONE_WATT).ohm == pytest.approx(ohm, rel=1e-6)


def test_power_of_a_lamp_goes_as_voltage_to_1_6():
    # lamp rerating, as an encyclopedia quotes a handbook of 1978
    lamp = TWENTY_ONE_WATT
    half = lamp.volt / 2
    assert half * lamp.ampere(half) == pytest.approx(lamp.watt * 0.5**1.6)


def test_a_lamp_and_a_joint_that_cannot_be_are_refused():
    for ask in (
        lambda: Lamp(0, 12),
        lambda: Lamp(21, -1),
        lambda: joint_before_lamp(40, 1, TWENTY_ONE_WATT),
        lambda: joint_before_lamp(12, -1, TWENTY_ONE_WATT),
        lambda: joint_by_lamp(12, 13, TWENTY_ONE_WATT),
        lambda: joint_by_lamp(12, 0, TWENTY_ONE_WATT),
        lambda: joint_before_coil(12, 1, 0),
    ):
        with pytest.raises(OutOfRange):
            ask()
