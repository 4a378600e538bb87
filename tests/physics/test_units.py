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
    convert,
    from_si,
    reference_typed,
    scaled,
    shown,
    shown_range,
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


OHMS = ("Ω", "mΩ", "kΩ", "MΩ")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("mΩ", "mΩ"), ("mω", "mΩ"), ("mohm", "mΩ"), ("milliohms", "mΩ"), ("MΩ", "MΩ"),
        ("Mω", "MΩ"), ("Mohm", "MΩ"), ("megohm", "MΩ"), ("MEGOHM", "MΩ"), ("K", "kΩ"),
        ("kohm", "kΩ"), ("KOHM", "kΩ"), ("OHM", "Ω"), ("M", None), ("m", None), ("MOHM", None),
    ],
)  # fmt: skip
def test_capitals_tell_milli_from_mega_and_what_could_be_both_is_asked(typed, meant):
    assert unit_named(typed, OHMS) == meant


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("psi", "psi"), ("PSI", "psi"), ("psig", "psi"), ("kpa", "kPa"), ("kPa g", "kPa"),
        ("bar", "bar"), ("bar (g)", "bar"), ("in. Hg", "inHg"), ("in hg", "inHg"), ("hg", "inHg"),
        ("INHG", "inHg"), ("microns", "micron"), ("Micron", "micron"), ("kg/cm²", None),
    ],
)  # fmt: skip
def test_a_pressure_is_known_by_what_people_type(typed, meant):
    assert unit_named(typed, ("kPa", "psi", "bar", "inHg", "micron")) == meant


def test_hg_alone_is_asked_where_inches_and_millimeters_may_be_meant():
    assert unit_named("hg", ("inHg", "mmHg")) is None


@pytest.mark.parametrize(
    "typed", ["psia", "PSIA", "psi abs", "bar abs", "bara", "kPa a", "kPa (a)", "kPa absolute"]
)
def test_an_absolute_pressure_is_never_read_as_gauge(typed):
    allowed = ("kPa", "psi", "bar")
    assert reference_typed(typed) == "absolute"
    assert unit_named(typed, allowed) is None
    assert unit_named(typed, allowed, "absolute") in allowed


@pytest.mark.parametrize("typed", ["psig", "psi gauge", "bar g", "kPa gage", "inHg (g)"])
def test_a_gauge_pressure_is_never_read_as_absolute(typed):
    allowed = ("kPa", "psi", "bar", "inHg")
    assert reference_typed(typed) == "gauge"
    assert unit_named(typed, allowed) in allowed
    assert unit_named(typed, allowed, "absolute") is None


@pytest.mark.parametrize(
    "typed", ["kPa", "Pa", "pa", "inHg", "hPa", "bar", "g", "A", "mg", "", "Ω"]
)
def test_a_plain_unit_says_nothing_of_gauge_and_absolute(typed):
    assert reference_typed(typed) == ""


@given(st.text(max_size=8), st.sampled_from(["gauge", "absolute"]))
def test_any_text_is_a_unit_that_is_allowed_or_none(typed, reference):
    allowed = tuple(UNITS)
    assert unit_named(typed, allowed, reference) in (*allowed, None)


@pytest.mark.parametrize("unit", UNITS.values(), ids=UNITS)
def test_every_spelling_means_its_unit_where_only_that_is_asked(unit):
    for typed in (unit.symbol, *unit.spellings):
        assert unit_named(typed, (unit.symbol,)) == unit.symbol
        shouted = typed.upper()
        other = UNITS.get(shouted, unit)  # mΩ shouted is MΩ
        another = other != unit and other.quantity == unit.quantity
        assert unit_named(shouted, (unit.symbol,)) == (None if another else unit.symbol)


@given(st.floats(-1e4, 1e4))
def test_a_difference_of_temperature_has_no_zero(kelvin):
    assert from_si(kelvin, "Δ°F") == pytest.approx(kelvin * 1.8)
    assert to_si(kelvin, "ΔK") == kelvin
    assert with_unit("8", "Δ°F") == "8\u00a0°F"


@given(st.sampled_from(sorted(UNITS)), st.sampled_from(sorted(UNITS)), st.floats(1, 1e6))
def test_only_units_of_one_thing_are_brought_to_each_other_and_back(one, other, value):
    if UNITS[one].quantity != UNITS[other].quantity:
        with pytest.raises(Malformed):
            convert(value, one, other)
    else:
        assert convert(convert(value, one, other), other, one) == pytest.approx(value, rel=1e-9)


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


@pytest.mark.parametrize("typed", ["MΩ", "Mohm"])
def test_mega_is_never_taken_for_milli_where_only_milli_is_asked(typed):
    assert unit_named(typed, ("Ω", "mΩ")) is None


def test_a_range_whose_ends_are_shown_alike_is_one_number():
    assert shown_range(0.351, 0.649, 2) == "0.35–0.65"
    assert shown_range(0.601, 0.604, 2) == "0.60"
