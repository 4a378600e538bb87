"""Numbers as people type them."""

import contextlib
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.units import shown


@pytest.mark.parametrize(
    ("typed", "number", "unit"),
    [
        ("12.38", "12.38", ""),
        ("12,38", "12.38", ""),
        (" 12.38 ", "12.38", ""),
        ("12,4 V", "12.4", "V"),
        ("12.38V", "12.38", "V"),
        ("12.38\u00a0V", "12.38", "V"),
        ("48 °C", "48", "°C"),
        (".5", "0.5", ""),
        (",5", "0.5", ""),
        ("5.", "5", ""),
        ("0,125", "0.125", ""),
        ("1.234", "1.234", ""),
        ("1.234,5", "1234.5", ""),
        ("1,234.5", "1234.5", ""),
        ("1.234.567", "1234567", ""),
        ("1,234,567", "1234567", ""),
        ("1 234,5", "1234.5", ""),
        ("1\u00a0234", "1234", ""),
        ("1\u202f234.5", "1234.5", ""),
        ("1'234.5", "1234.5", ""),
        ("1’234", "1234", ""),
        ("1234,567", "1234.567", ""),
        ("-3.05", "-3.05", ""),
        ("−3.05", "-3.05", ""),
        ("–3,05 A", "-3.05", "A"),
        ("- 3.05", "-3.05", ""),
        ("+12.4", "12.4", ""),
        ("١٢٫٤", "12.4", ""),
        ("１２．４", "12.4", ""),
        ("12.40", "12.40", ""),
    ],
)
def test_a_number_is_read_as_it_is_commonly_typed(typed, number, unit):
    assert split(typed) == (Decimal(number), unit)
    assert str(split(typed)[0]) == number


@pytest.mark.parametrize("typed", ["1,234", "12,345", "123,456", "-1,234", "1,234 V"])
def test_a_comma_before_three_digits_can_be_read_in_two_ways_and_asks(typed):
    with pytest.raises(Malformed, match="can be"):
        split(typed)


def test_the_question_names_both_ways_of_reading_it():
    with pytest.raises(Malformed) as caught:
        split("1,234")
    assert caught.value.sentence == (
        "“1,234” can be 1.234 or 1234. Type it with a point, or without the mark."
    )


@pytest.mark.parametrize(
    "typed",
    [
        "", " ", "abc", "-", "+", ".", ",", "V", "12.3.8", "1,23,4", "12 38", "1 2", "1''2", "--5",
        "12.4.", "12..4", "<script>", "½", "NaN", "inf", "1,2345,678", "1.23,456.7", "🔧",
        "\u202e12",
    ],
)  # fmt: skip
def test_what_is_no_number_is_said_to_be_none(typed):
    with pytest.raises(Malformed):
        split(typed)


@pytest.mark.parametrize("typed", ["1e3", "12²", "12\x004", "12 V 3", "12-", "12.4 kV"])
def test_what_stands_behind_the_number_is_handed_on_as_its_unit(typed):
    number, unit = split(typed)
    assert unit
    assert typed.startswith(str(number))


def test_ten_thousand_characters_get_a_short_sentence():
    with pytest.raises(Malformed) as caught:
        split("9" * 10_000)
    assert "10000 characters" in caught.value.sentence
    assert len(caught.value.sentence) < 100


NUMBERS = st.decimals(
    min_value=-(10**9), max_value=10**9, allow_nan=False, allow_infinity=False, places=3
)


@given(NUMBERS, st.integers(0, 3))
def test_a_number_as_shown_can_be_typed_again(number, decimals):
    text = shown(number, decimals)
    assert shown(split(text)[0], decimals) == text


@given(NUMBERS, st.sampled_from("., "), st.sampled_from(".,"))
def test_thousands_marks_and_decimal_mark_are_told_apart(number, mark, point):
    if mark == point:
        return
    text = f"{number:,.2f}".replace(",", "T").replace(".", point).replace("T", mark)
    assert split(text)[0] == Decimal(f"{number:.2f}")


@given(st.text(max_size=60))
def test_any_text_gives_a_number_or_a_sentence_and_nothing_else(text):
    with contextlib.suppress(Malformed):
        assert split(text)[0].is_finite()
