"""The air gap: limits, wobble, shims, and what would remain."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.gap import (
    FEELER_U,
    PLAUSIBLE,
    GapLimits,
    after_shims,
    plan_shims,
    read_gap,
)

MM = 1e-3
OWN = GapLimits(0.35 * MM, 0.6 * MM)
READINGS = st.lists(st.floats(0, 2), min_size=3, max_size=6)
SHIMS = st.lists(st.sampled_from([0.1, 0.2, 0.3, 0.5, 1.0]), max_size=4)


def gap(*points, limits=PLAUSIBLE):
    return read_gap([point * MM for point in points], limits)


def mm(*thicknesses):
    return [one * MM for one in thicknesses]


@pytest.mark.parametrize(
    ("points", "where"),
    [
        # trade articles: 0.3 to 0.8 mm is plausible; too small is a fault too
        ((0.4, 0.5, 0.6), "inside"), ((0.9, 1.0, 1.0), "too_wide"), ((0.1, 0.15, 0.2), "too_small"),
        ((0.5, 0.6, 1.0), "too_wide"), ((0.2, 0.4, 0.5), "too_small"), ((0.1, 0.5, 1.0), "both"),
        ((0.3, 0.4, 0.5), "cannot_tell"), ((0.5, 0.6, 0.8), "cannot_tell"),
    ],
)  # fmt: skip
def test_a_gap_stands_to_the_plausible_band(points, where):
    assert gap(*points).where == where


def test_the_vehicle_s_own_limits_go_before_the_plausible_band():
    points = (0.65, 0.7, 0.7)
    assert gap(*points).where == "inside"
    assert gap(*points, limits=OWN).where == "too_wide"


def test_smallest_largest_and_wobble_are_told_with_what_they_may_be_off():
    found = gap(0.45, 0.35, 0.6, 0.5)
    assert found.smallest.value == pytest.approx(0.35 * MM)
    assert found.largest.value == pytest.approx(0.6 * MM)
    assert found.wobble.value == pytest.approx(0.25 * MM)
    assert found.smallest.u == FEELER_U == pytest.approx(0.0144 * MM, abs=1e-7)
    assert found.wobble.u == pytest.approx(FEELER_U * math.sqrt(2))


def test_a_wobble_wider_than_the_limits_cannot_be_shimmed():
    found = gap(0.3, 0.6, 0.9, limits=OWN)
    assert not found.fits
    assert plan_shims(found, mm(0.1, 0.3, 0.5), mm(0.1, 0.3)) is None


def test_the_fewest_shims_that_bring_it_inside_are_taken_out():
    plan = plan_shims(gap(0.9, 1.0, 1.05), mm(0.1, 0.3, 0.5))
    assert plan is not None
    assert list(plan.out) == pytest.approx(mm(0.5))
    assert plan.put == ()
    assert plan.gap.smallest.value == pytest.approx(0.4 * MM)
    assert plan.gap.where == "inside"


def test_a_gap_too_small_gets_a_shim_put_in():
    plan = plan_shims(gap(0.15, 0.2, 0.2), (), mm(0.1, 0.3, 1.0))
    assert plan is not None
    assert plan.out == ()
    assert list(plan.put) == pytest.approx(mm(0.3))


def test_a_thick_shim_is_changed_for_a_thinner_one():
    plan = plan_shims(gap(0.75, 0.8, 0.8, limits=OWN), mm(1.0), mm(0.7))
    assert plan is not None
    assert list(plan.out) == pytest.approx(mm(1.0))
    assert list(plan.put) == pytest.approx(mm(0.7))


def test_shims_stay_where_the_gap_is_inside():
    plan = plan_shims(gap(0.5, 0.55, 0.6), mm(0.1, 0.3), mm(0.1))
    assert plan is not None
    assert plan.moved == 0


def test_too_thick_a_shim_is_not_taken_out():
    # a mistake of the trade: shims removed below the smallest gap
    assert plan_shims(gap(0.9, 0.95, 1.0), mm(1.0)) is None
    assert plan_shims(gap(1.1, 1.15, 1.2, limits=OWN), mm(0.2, 0.9)) is None
    assert after_shims(gap(0.9, 1.0, 1.05), mm(0.3, 0.5)).where == "too_small"


def test_more_taken_out_than_there_is_gap_is_impossible():
    with pytest.raises(Impossible, match="rub"):
        after_shims(gap(0.5, 0.5, 0.5), mm(0.3, 0.5))


@given(READINGS, SHIMS, SHIMS)
def test_a_plan_always_ends_between_the_limits_and_moves_only_what_is_there(points, fitted, spare):
    found = gap(*points)
    plan = plan_shims(found, mm(*fitted), mm(*spare))
    if plan is None:
        return
    slack = 2e-9
    assert plan.gap.smallest.value >= PLAUSIBLE.low - slack
    assert plan.gap.largest.value <= PLAUSIBLE.high + slack
    assert all(plan.out.count(one) <= mm(*fitted).count(one) for one in plan.out)
    assert all(plan.put.count(one) <= mm(*spare).count(one) for one in plan.put)
    assert plan.gap.wobble.value == pytest.approx(found.wobble.value, abs=1e-12)


@given(READINGS, SHIMS)
def test_a_shim_put_in_and_taken_out_again_changes_nothing(points, shims):
    found = gap(*points)
    back = after_shims(after_shims(found, put=mm(*shims)), out=mm(*shims))
    assert back.smallest.value == pytest.approx(found.smallest.value, abs=1e-12)
    assert back.largest.value == pytest.approx(found.largest.value, abs=1e-12)


@given(st.lists(st.floats(0, 2), min_size=3, max_size=5), st.floats(0, 2))
def test_one_more_point_never_turns_outside_into_inside(points, more):
    if gap(*points).where in ("too_small", "too_wide", "both"):
        assert gap(*points, more).where in ("too_small", "too_wide", "both")


@pytest.mark.parametrize("points", [(), (0.4,), (0.4, 0.5), (0.4,) * 7])
def test_fewer_than_three_points_or_more_than_six_are_refused(points):
    with pytest.raises(OutOfRange, match="three to six"):
        gap(*points)


@pytest.mark.parametrize(
    ("point", "error"), [(-0.1, Impossible), (math.nan, Malformed), (11, OutOfRange)]
)
def test_a_gap_that_no_clutch_has_is_named(point, error):
    with pytest.raises(error):
        gap(0.4, 0.4, point)


def test_limits_and_shims_that_cannot_be_are_refused():
    for low, high in ((0, 0.5), (0.5, 0.5), (0.6, 0.4), (0.3, 20)):
        with pytest.raises(OutOfRange):
            GapLimits(low * MM, high * MM)
    with pytest.raises(Impossible, match="thickness"):
        after_shims(gap(0.5, 0.5, 0.5), put=[0.0])
    with pytest.raises(Malformed):
        plan_shims(gap(0.5, 0.5, 0.5), [math.nan])
