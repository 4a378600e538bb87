"""Figures told in the units that a shop chose.

Factors stand in unit_table.py with their sources (NIST SP 811); here they are held to round numbers
that are exact by definition.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.shown_units import UNIT_CHOICES, ShownIn
from diagnostics.physics.units import UNITS, from_si, to_si

AMERICAN = ShownIn(
    {"pressure": "psi", "temperature": "°F", "mass": "oz", "oil": "fl oz", "gap": "in"}
)


def test_nothing_chosen_changes_no_sentence():
    text = "Expected 570 to 610\u00a0kPa at 20 °C."
    assert ShownIn().sentence(text) == text


@pytest.mark.parametrize(
    ("usual", "told"),
    [
        ("at 20\u00a0°C", "at 68\u00a0°F"),
        ("5\u00a0K colder", "9\u00a0°F colder"),  # 1 K = 1.8 °F, no zero
        ("±2 °C", "±4\u00a0°F"),
        ("−40\u00a0to\u00a0150\u00a0°C", "−40\u00a0to\u00a0302\u00a0°F"),
        ("0.35–0.65\u00a0mm", "0.014–0.026\u00a0in"),  # 25.4 mm = 1 in
        ("254\u00a0mm wide", "10.0\u00a0in wide"),
        ("3\u00a0500\u00a0kPa", "508\u00a0psi"),  # 6.894757 kPa = 1 psi, NIST SP 811
        ("567\u00a0g", "20.0\u00a0oz"),  # 28.34952 g = 1 oz
        ("500 and 5000 micron", "500 and 5000 micron"),  # not chosen otherwise
        ("12\u00a0V at 3.6\u00a0Ω", "12\u00a0V at 3.6\u00a0Ω"),
        ("0.4\u00a0kPa/K", "0.4\u00a0kPa/K"),
    ],
)
def test_a_sentence_has_its_figures_in_the_units_chosen(usual, told):
    assert AMERICAN.sentence(usual) == told


def test_what_was_typed_stays_as_typed():
    said = AMERICAN.sentence("470\u00a0kPa low, 10 over 460\u00a0kPa.", {"470\u00a0kPa"})
    assert said == "470\u00a0kPa low, 10 over 67\u00a0psi."


def test_a_typed_number_inside_a_longer_one_is_not_taken_for_it():
    assert AMERICAN.sentence("1470\u00a0kPa", {"70\u00a0kPa"}) == "213\u00a0psi"


def test_a_number_in_two_units_still_stands_in_two():
    assert AMERICAN.beside("kPa") == "psi"
    assert AMERICAN.beside("psi") == "kPa"
    assert ShownIn().beside("psi") == "psi"


def test_a_field_begins_with_the_shops_unit_where_it_takes_that():
    assert AMERICAN.start(("kPa", "psi", "bar")) == "psi"
    assert AMERICAN.start(("kPa", "bar")) == "kPa"
    assert AMERICAN.start(("inHg", "kPa", "mbar")) == "inHg"


def test_a_unit_that_is_none_of_its_quantity_is_not_taken():
    assert ShownIn({"pressure": "°F"}).unit("kPa") == "kPa"


MEASURED = {name: one for name, one in UNIT_CHOICES.items() if name != "distance"}


@given(st.data(), st.sampled_from(sorted(MEASURED)), st.integers(0, 3))
def test_a_figure_in_any_unit_is_no_farther_off_than_its_last_digit(data, name, decimals):
    usual, *_ = MEASURED[name].units
    unit = data.draw(st.sampled_from(MEASURED[name].units))
    value = round(data.draw(st.floats(0, 5_000)), decimals)
    said = ShownIn({name: unit}).sentence(f"{value:.{decimals}f}\u00a0{usual}")
    number, _, told = said.rpartition("\u00a0")
    if unit == "fl oz":
        number, told = said.removesuffix("\u00a0fl oz"), "fl oz"
    assert told == unit
    plain = number.replace("\u00a0", "")
    last = 10.0 ** -len(plain.partition(".")[2])
    exact = from_si(to_si(value, usual), unit)
    assert math.isclose(float(plain), exact, abs_tol=last / 2 + 1e-9 * abs(exact))


@given(st.sampled_from(sorted(MEASURED)), st.data())
def test_a_place_on_an_axis_comes_back_from_any_unit(name, data):
    usual = MEASURED[name].units[0]
    unit = data.draw(st.sampled_from(MEASURED[name].units))
    value = data.draw(st.floats(-200, 10_000))
    there = ShownIn({name: unit}).in_usual(value, usual)
    assert math.isclose(to_si_or_scaled(there, unit), to_si_or_scaled(value, usual), abs_tol=1e-6)


def to_si_or_scaled(value: float, symbol: str) -> float:
    unit = UNITS[symbol]
    return float((value + float(unit.zero)) * float(unit.factor))
