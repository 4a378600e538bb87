"""First-order uncertainty, JCGM 100:2008."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, place, quotient


def test_a_limit_of_error_counts_as_a_uniform_spread():
    # GUM 4.3.7: u = a / sqrt(3)
    accuracy = INSTRUMENTS["dc_volts"]
    reading = measured(12.38, 0.0, "dc_volts")
    limit = accuracy.share * 12.38 + accuracy.fixed
    assert reading.u == pytest.approx(limit / math.sqrt(3))
    assert reading.expanded == pytest.approx(2 * reading.u)


@given(st.floats(0, 20), st.floats(0, 1), st.floats(0, 1))
def test_fewer_digits_never_make_a_reading_surer(value, one, other):
    fine, coarse = sorted((one, other))
    assert measured(value, fine, "dc_amps").u <= measured(value, coarse, "dc_amps").u


def test_a_quotient_adds_relative_uncertainties_in_squares():
    # GUM 5.1.6: for a quotient the relative uncertainties add in squares
    result = quotient(Measured(12.0, 0.12), Measured(3.0, 0.06))
    assert result.value == pytest.approx(4.0)
    assert result.u / result.value == pytest.approx(math.hypot(0.01, 0.02))


@pytest.mark.parametrize(
    ("value", "where"),
    [(1.0, "below"), (1.95, "cannot_tell"), (2.5, "inside"), (3.05, "cannot_tell"), (4.0, "above")],
)
def test_a_value_near_a_limit_cannot_be_told(value, where):
    assert place(Measured(value, 0.05), 2.0, 3.0) == where


def test_a_value_surer_than_its_band_is_wide_can_lie_inside():
    assert place(Measured(2.5, 0.0), 2.5, 2.5) == "inside"


@pytest.mark.parametrize("name", INSTRUMENTS)
def test_every_default_accuracy_says_what_it_rests_on(name):
    assert "our judgement" in INSTRUMENTS[name].basis
