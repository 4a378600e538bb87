"""How far an instrument may be off as its maker states it, from text."""

import pytest

from diagnostics.physics.errors import Malformed
from diagnostics.physics.quantities import OF_INSTRUMENT, QUANTITIES, stated
from diagnostics.physics.uncertainty import INSTRUMENTS


@pytest.mark.parametrize(
    ("typed", "quantity", "share", "fixed"),
    [
        ("1 % + 10 kPa", "pressure", 0.01, 10_000),
        ("±16 kPa", "pressure", 0, 16_000),
        ("+/-2 °C", "temperature", 0, 2),
        ("1 °F", "temperature", 0, 5 / 9),  # 1 °F is 5/9 K, NIST SP 811, B.8
        ("5 psi", "pressure", 0, 34_473.79),  # 1 psi is 6 894.757 Pa, NIST SP 811, B.8
        ("0.5% and 20 mV", "voltage", 0.005, 0.02),
        ("1 % of reading + 0,1 Ω", "resistance", 0.01, 0.1),
        ("5 g", "mass", 0, 0.005),
        ("2 %", "gas", 0, 0.02),  # of the whole, not of the reading
    ],
)
def test_an_accuracy_is_a_share_of_the_reading_and_a_fixed_part(typed, quantity, share, fixed):
    told = stated(typed, quantity)
    assert told.share == pytest.approx(share)
    assert told.fixed == pytest.approx(fixed)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("16", "needs its unit"),
        ("5 g", "needs its unit"),
        ("1.6 % of full scale", "work it out"),
        ("1 % FS", "work it out"),
        ("good", "no number"),
        ("−3 kPa", "not below zero"),
        ("0 kPa", "No instrument is exact"),
        ("", "No instrument is exact"),
    ],
)
def test_what_is_no_accuracy_of_a_pressure_says_what_is_wrong(typed, sentence):
    with pytest.raises(Malformed, match=sentence):
        stated(typed, "pressure")


def test_it_is_shown_as_it_was_typed_with_its_sign():
    assert stated("+/- 1 % + 10 kPa", "pressure").words == "±1\u00a0% + 10\u00a0kPa"


def test_the_largest_error_grows_with_the_reading():
    assert stated("1 % + 10 kPa", "pressure").limit(-2e6) == pytest.approx(30_000)


def test_every_class_of_instruments_reads_a_quantity_or_is_none_that_a_shop_has_checked():
    assert set(OF_INSTRUMENT.values()) <= set(QUANTITIES)
    assert set(INSTRUMENTS) - set(OF_INSTRUMENT) == {"watch", "scan_data", "measuring_cup"}


def test_each_example_can_be_read_as_an_accuracy_of_its_quantity():
    for name, one in QUANTITIES.items():
        if one.units:
            assert stated(one.example, name).limit(1) > 0
