"""Units and the rule of showing. Factors: NIST SP 811 (2008), B.8; fixed points from memory."""

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Impossible, Malformed, PhysicsError
from diagnostics.physics.units import (
    SI,
    UNITS,
    from_si,
    scaled,
    shown,
    to_si,
    unit_named,
    with_unit,
)

SYMBOLS = st.sampled_from(sorted(UNITS))


@pytest.mark.parametrize(
    ("value", "symbol", "si"),
    [
        (1, "mV", 0.001),
        (250, "mA", 0.25),
        (12.5, "V", 12.5),
        (3.6, "Ω", 3.6),
        (0, "°C", 273.15),
        (32, "°F", 273.15),  # freezing water
        (212, "°F", 373.15),  # boiling water
        (-40, "°F", 233.15),  # where both scales meet
        (-40, "°C", 233.15),
    ],
)
def test_a_value_becomes_si_by_the_exact_factor(value, symbol, si):
    assert to_si(value, symbol) == pytest.approx(si, rel=1e-15)


@given(st.floats(-1e6, 1e6), SYMBOLS)
def test_a_value_survives_the_way_to_si_and_back(value, symbol):
    assert from_si(scaled(value, symbol), symbol) == pytest.approx(value, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(("value", "symbol"), [(-273.16, "°C"), (-459.68, "°F"), (-0.01, "K")])
def test_a_temperature_below_absolute_zero_is_impossible_and_named(value, symbol):
    with pytest.raises(Impossible, match="below absolute zero") as caught:
        to_si(value, symbol)
    assert isinstance(caught.value, PhysicsError)


def test_absolute_zero_itself_can_be():
    assert to_si(-273.15, "°C") == 0
    assert to_si(Decimal("-459.67"), "°F") == 0


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_malformed_both_ways(value):
    with pytest.raises(Malformed):
        to_si(value, "V")
    with pytest.raises(Malformed):
        from_si(value, "V")
    with pytest.raises(Malformed):
        shown(value, 1)


def test_every_quantity_has_its_si_unit():
    for unit in UNITS.values():
        base = UNITS[SI[unit.quantity]]
        assert (float(base.factor), float(base.zero)) == (1.0, 0.0)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("V", "V"), ("v", "V"), ("Volts", "V"), ("mv", "mV"), ("MV", "mV"), ("A", None)],
)
def test_a_unit_is_known_by_its_usual_spellings(typed, meant):
    assert unit_named(typed, ("V", "mV")) == meant


@pytest.mark.parametrize("typed", ["Ω", "\u2126", "ohm", "Ohms"])
def test_both_ohm_signs_and_the_word_mean_ohm(typed):
    assert unit_named(typed, ("Ω",)) == "Ω"


@pytest.mark.parametrize("typed", ["f", "°f", "deg F", "Fahrenheit"])
def test_fahrenheit_is_known_by_its_usual_spellings(typed):
    assert unit_named(typed, ("°C", "°F")) == "°F"


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [
        (12.25, 1, "12.3"),  # half to even would give 12.2
        (12.35, 1, "12.4"),  # in binary it lies below the half
        (-12.25, 1, "−12.3"),
        (1.005, 2, "1.01"),
        (2.5, 0, "3"),
        (-0.04, 1, "0.0"),
        (0.1 + 0.2, 17, "0.30000000000000004"),
        (1234567.5, 0, "1\u00a0234\u00a0568"),
        ("12.380", 3, "12.380"),
        (1e-7, 2, "0.00"),
        (1e21, 0, "1\u00a0000\u00a0000\u00a0000\u00a0000\u00a0000\u00a0000\u00a0000"),
    ],
)
def test_a_number_is_shown_rounded_half_away_from_zero_on_its_decimal_text(value, decimals, text):
    assert shown(value, decimals) == text


@given(st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**9), max_value=10**9))
def test_a_shown_number_lies_within_half_a_step_and_never_on_the_side_of_zero(number):
    back = Decimal(shown(number, 2).replace("\u00a0", "").replace("−", "-"))
    assert abs(back - number) <= Decimal("0.005")
    if abs(back - number) == Decimal("0.005"):
        assert abs(back) > abs(number)


@given(st.floats(-1e9, 1e9), st.integers(0, 6))
def test_showing_what_is_shown_changes_nothing(value, decimals):
    once = shown(value, decimals)
    plain = once.replace("\u00a0", "").replace("−", "-")
    assert shown(plain, decimals) == once


def test_number_and_unit_are_joined_by_a_no_break_space():
    assert with_unit("12.38", "V") == "12.38\u00a0V"
