"""Readings: text to SI, and never more digits than were typed."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.readings import Reading, from_json, parse
from diagnostics.physics.errors import Malformed

VOLTS = ("V", "mV")


@pytest.mark.parametrize(
    ("typed", "chosen", "si", "unit"),
    [
        ("12.38", "V", 12.38, "V"),
        ("12,38", "V", 12.38, "V"),
        ("12380", "mV", 12.38, "mV"),
        ("12,4 V", "mV", 12.4, "V"),  # the unit typed wins over the one chosen
        ("12.38V", "V", 12.38, "V"),
        ("85 mv", "V", 0.085, "mV"),
        ("−12.4", "V", -12.4, "V"),
    ],
)
def test_a_typed_number_becomes_si_in_the_unit_meant(typed, chosen, si, unit):
    reading = parse(typed, VOLTS, chosen)
    assert reading.si == pytest.approx(si, rel=1e-15)
    assert reading.unit == unit
    assert reading.typed == typed


@pytest.mark.parametrize("typed", ["12.4 A", "12.4 kV", "1e3", "12.4 bar", "12 V 3"])
def test_a_unit_that_the_reading_does_not_take_is_named_with_those_it_takes(typed):
    with pytest.raises(Malformed, match="Type it in V or mV") as caught:
        parse(typed, VOLTS, "V")
    assert typed in caught.value.sentence


def test_a_unit_chosen_that_the_field_does_not_have_is_malformed():
    with pytest.raises(Malformed):
        parse("12", VOLTS, "furlong")


@pytest.mark.parametrize(
    ("typed", "shown", "decimals"),
    [("12", "12\u00a0V", 0), ("12,40", "12.40\u00a0V", 2), ("012.4 V", "12.4\u00a0V", 1)],
)
def test_a_reading_is_shown_with_the_digits_typed(typed, shown, decimals):
    reading = parse(typed, VOLTS, "V")
    assert reading.shown == shown
    assert reading.decimals == decimals


@given(st.decimals(-100, 100, allow_nan=False, allow_infinity=False, places=3))
def test_a_reading_shows_as_many_digits_as_were_typed_never_more(number):
    digits = sum(letter.isdigit() for letter in str(number))
    reading = parse(str(number), VOLTS, "V")
    assert sum(letter.isdigit() for letter in reading.shown) == digits


def test_the_last_digit_typed_is_worth_its_step_in_si():
    assert parse("12.4", VOLTS, "V").last_digit == pytest.approx(0.1)
    assert parse("12400", VOLTS, "mV").last_digit == pytest.approx(0.001)
    assert parse("118.4", ("°C", "°F"), "°F").last_digit == pytest.approx(0.1 * 5 / 9)


def test_a_temperature_below_absolute_zero_is_kept_for_the_field_to_judge():
    assert parse("-300", ("°C",), "°C").si < 0


@given(
    st.dictionaries(
        st.sampled_from(["volts", "amps"]),
        st.one_of(
            st.builds(Reading, st.floats(-1e3, 1e3), st.just("12.4"), st.just("V")),
            st.sampled_from(["yes", "no"]),
        ),
    )
)
def test_readings_survive_being_stored(read):
    stored = {
        name: told.as_json() if isinstance(told, Reading) else told for name, told in read.items()
    }
    assert from_json(json.loads(json.dumps(stored))) == read
