"""Linear strips hold what stands on them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.fields import Number
from diagnostics.evidence.readings import parse
from diagnostics.evidence.strips import TICKS, axis, range_strip, strip
from tests.evidence.cases import number

SIZES = st.floats(0, 1e4)


@given(SIZES, SIZES)
def test_an_axis_holds_both_ends_on_whole_ticks(one, other):
    start, end = sorted((one, other))
    low, high, ticks = axis(start, end)
    slack = 1e-9 * max(1.0, end)
    assert low <= start + slack
    assert high >= end - slack
    assert (low, high) == (ticks[0], ticks[-1])
    assert 2 <= len(ticks) <= TICKS + 2


@given(SIZES, SIZES, SIZES, st.floats(0, 10))
def test_a_strip_holds_point_error_and_band(point, one, other, error):
    band = tuple(sorted((one, other)))
    drawn = strip("A", point, "x", error, band)
    for value in (point, *band):
        assert 0 <= drawn.percent(value) <= 100
        assert drawn.low - 1e-6 <= value <= drawn.high + 1e-6


def test_the_axis_of_a_current_is_fitted_to_it_and_not_drawn_from_zero():
    drawn = strip("A", 3.05, "3.05 A", 0.1, (2.93, 3.28), 2)
    assert (drawn.low, drawn.high) == (2.8, 3.4)
    assert drawn.expected_words == "expected 2.93–3.28"


@pytest.mark.parametrize("typed", ["123.8", "-3"])
def test_a_slipped_value_stands_past_a_break_beside_what_it_can_be(typed):
    volts = number("volts")
    drawn = range_strip(volts, parse(typed, volts.units, "V"), {})
    assert drawn.beyond
    assert drawn.below is typed.startswith("-")
    assert drawn.expected == (0.0, 16.0)
    assert drawn.expected_words == "can be 0–16\u00a0V"
    assert drawn.point == pytest.approx(float(typed))


def test_its_axis_reaches_no_farther_than_what_it_can_be():
    low = KINDS["static_pressure"].asked("low")
    assert isinstance(low, Number)
    drawn = range_strip(low, parse("1550", low.units, "kPa"), {"refrigerant": "R-134a"})
    assert (drawn.low, drawn.high) == (-101.33, 1500)
    assert list(drawn.ticks) == [0, 400, 800, 1200]
    assert drawn.expected_words == "can be −101\u00a0to\u00a01\u00a0500\u00a0kPa"
