"""Typed amounts to whole numbers of the smallest unit and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.money import DECIMALS, MINOR_MAX, NotAnAmount, minor, plain, shown


@pytest.mark.parametrize(
    ("typed", "currency", "units"),
    [
        ("12.50", "EUR", 1250),
        ("12,5", "EUR", 1250),
        ("1 200,50", "EUR", 120050),
        ("1.200,50", "EUR", 120050),
        ("1,200.50", "USD", 120050),
        ("1200", "USD", 120000),
        ("EUR 12.50", "EUR", 1250),
        ("12.50 eur", "EUR", 1250),
        ("0", "USD", 0),
        ("1500", "JPY", 1500),
        ("1.234", "KWD", 1234),
    ],
)
def test_an_amount_is_read_the_way_people_type_it(typed: str, currency: str, units: int):
    assert minor(typed, currency) == units


@pytest.mark.parametrize(
    ("typed", "currency", "why"),
    [
        ("12.505", "EUR", "EUR has two decimals"),
        ("1.200", "EUR", "EUR has two decimals"),
        ("1,200", "EUR", "can be 1.200 or 1200"),
        ("12.5", "JPY", "JPY has no decimals"),
        ("1.2345", "KWD", "KWD has three decimals"),
        ("-5", "EUR", "zero or more"),
        ("12.50 USD", "EUR", "Amounts here are in EUR"),
        ("$12.50", "USD", "is no number"),
        ("", "EUR", "is no number"),
        ("a lot", "EUR", "is no number"),
        ("NaN", "EUR", "is no number"),
        ("1e9", "EUR", "Amounts here are in EUR"),
        ("9" * 30, "EUR", "more money than a shop can mean"),
        ("1" * 10_000, "EUR", "10000 characters"),
        ("12\x00", "EUR", ""),
        ("\ud800", "EUR", "is no number"),
    ],
)
def test_what_is_no_amount_of_the_currency_is_refused_with_a_sentence(
    typed: str, currency: str, why: str
):
    with pytest.raises(NotAnAmount) as refused:
        minor(typed, currency)
    assert why in str(refused.value)


@given(st.integers(0, MINOR_MAX), st.sampled_from(sorted(DECIMALS)))
def test_an_amount_shown_and_typed_again_is_the_same(units: int, currency: str):
    assert minor(shown(units, currency), currency) == units
    assert minor(plain(units, currency), currency) == units


def test_thousands_are_parted_by_a_space_that_does_not_break():
    assert shown(123456789, "EUR") == "1\u00a0234\u00a0567.89\u00a0EUR"
    assert shown(5, "KWD") == "0.005\u00a0KWD"
    assert shown(1500, "JPY") == "1\u00a0500\u00a0JPY"


def test_every_code_is_three_capitals_and_listed_once():
    assert all(len(code) == 3 and code.isalpha() and code.isupper() for code in DECIMALS)
    assert len(DECIMALS) == 156  # none twice among the three lists
