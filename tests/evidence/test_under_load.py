"""Volts lost under current: one limit for a drop read directly and for one made of two readings."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.readings import parse
from diagnostics.evidence.under_load import (
    FEED_LIMIT,
    GROUND_LIMIT,
    drop_between,
    drop_read,
    grade,
    load_of,
)
from diagnostics.evidence.worked_out import worked_out
from diagnostics.physics.uncertainty import Measured
from tests.evidence.trial import Trial


def volts(typed: str):
    """A voltage as typed."""
    return parse(typed, ("V", "mV"), "V")


# Feed, 0.20 to 0.30 V: trade articles. Ground side, 0.1 V: common practice, no source.
@pytest.mark.parametrize(
    ("typed", "outcome"),
    [
        ("0.05", "within"),
        ("0.15", "within"),
        ("0.19", "cannot_tell"),
        ("0.25", "edge"),
        ("0.31", "cannot_tell"),
        ("0.40", "above"),
        ("0.99", "above"),
        ("1.00", "far"),
        ("9", "far"),
        ("-0.40", "above"),
    ],
)
def test_a_drop_over_the_feed_has_its_grade(typed, outcome):
    assert drop_read(volts(typed), FEED_LIMIT).grade == outcome


@pytest.mark.parametrize(
    ("typed", "outcome"),
    [
        ("0.05", "within"),
        ("0.09", "cannot_tell"),
        ("0.10", "cannot_tell"),
        ("0.14", "above"),
        ("95 mV", "within"),
        ("105 mV", "above"),
        ("1.2", "far"),
    ],
)
def test_a_drop_on_the_ground_side_has_its_grade_and_mv_tell_more_than_v(typed, outcome):
    assert drop_read(volts(typed), GROUND_LIMIT).grade == outcome


@pytest.mark.parametrize("lost", ["0.05", "0.25", "0.50", "0.70", "1.5", "6"])
def test_voltage_at_the_coil_and_drop_over_the_feed_come_to_the_same_grade(lost):
    """Two kinds that measure one thing share one limit."""
    coil = f"{13.90 - float(lost):.2f}"
    read, made = (
        drop_read(volts(lost), FEED_LIMIT),
        drop_between(volts("13.90"), volts(coil), FEED_LIMIT),
    )
    assert read.grade == made.grade
    assert made.volts.value == pytest.approx(float(lost))


def test_one_meter_for_both_readings_counts_its_share_for_the_difference_only():
    # 0.5 % of 13.9 V alone would be 0.07 V on either reading
    made = drop_between(volts("13.90"), volts("13.80"), FEED_LIMIT)
    limits = (0.005 * 0.10, math.sqrt(2) * 0.02, math.hypot(0.01, 0.01) / 2)
    assert made.volts.u == pytest.approx(math.hypot(*limits) / math.sqrt(3))


def test_a_difference_is_shown_with_no_more_digits_than_the_coarser_reading():
    assert drop_between(volts("13.9"), volts("13.21"), FEED_LIMIT).words == "0.7\u00a0V"


@given(st.floats(0, 20), st.floats(0, 1))
def test_more_volts_lost_never_come_to_a_better_grade(value, more):
    order = ["within", "cannot_tell", "edge", "above", "far"]
    first, second = (grade(Measured(one, 0.012), FEED_LIMIT) for one in (value, value + more))
    rank = {"within": 0, "cannot_tell": 1, "edge": 1, "above": 2, "far": 3}
    assert first in order
    assert rank[first] <= rank[second]


@pytest.mark.parametrize(
    ("told", "flows"),
    [
        ({"carries": "yes"}, "yes"),
        ({"carries": "no"}, "no"),
        ({"carries": "cannot_tell"}, ""),
        ({}, ""),
    ],
)
def test_whether_current_flowed_is_what_was_told_and_nothing_else(told, flows):
    assert load_of(told, {}).flows == flows


@pytest.mark.parametrize(("typed", "flows"), [("3.1", "yes"), ("-3.1", "yes"), ("0.02", "no")])
def test_amps_on_the_meter_go_before_a_tap(typed, flows):
    amps = parse(typed, ("A", "mA"), "A")
    assert load_of({"amps": amps, "carries": "cannot_tell"}, {}).flows == flows


@pytest.mark.parametrize("kind", ["feed_drop", "ground_drop"])
@pytest.mark.parametrize(
    "system", [{"voltage": "12"}, {}, {"voltage": "24"}, {"coil_ohm": 3.6}, {"coil_ohm": 13.2}]
)
def test_no_resistance_is_worked_out_of_a_drop_of_which_nothing_is_made(kind, system):
    trial, around = Trial(kind), Circumstances(system)
    lost = ("0.05", "0.25", "0.35", "0.7", "1", "1.00", "-5", "10", "12.5")
    flowing = ("0", "0.02", "0.2", "0.5", "0.9", "1.2", "-1.6", "3")
    shown = 0
    for volts, amps, carries in itertools.product(lost, flowing, ("", "yes", "no", "cannot_tell")):
        readings = trial.readings(volts=volts, amps=amps, carries=carries)
        found = list(worked_out(trial.kind.works_out, readings, around))
        assert trial.kind.meaning(readings, around).outcome.carries or not found, readings
        shown += len(found)
    assert bool(shown) == (system.get("voltage") != "24")
