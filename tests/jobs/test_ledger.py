"""Milligrams from text as typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Impossible, Malformed
from jobs.ledger import MASS_UNITS, both, mass, plain_grams, shown_mass


@pytest.mark.parametrize(
    ("typed", "unit", "milligrams"),
    [
        ("520", "g", 520_000),
        ("0,52", "kg", 520_000),
        ("0.52 kg", "g", 520_000),
        ("520 grams", "", 520_000),
        ("1 250 g", "", 1_250_000),
        ("1'250,5 g", "", 1_250_500),
        ("1.250,5", "g", 1_250_500),
        ("٥٢٠", "g", 520_000),
        ("0", "g", 0),
        # NIST SP 811, App. B.8: 1 lb = 453.592 37 g exactly, 1 oz = 28.349 523 125 g exactly.
        ("1 lb", "g", 453_592),
        ("1 oz", "g", 28_350),
        ("16", "oz", 453_592),
        ("18.3 OZ.", "g", 518_796),
        ("2 lbs", "", 907_185),
        ("10000 lb", "", 4_535_923_700),
        ("10000 oz", "", 283_495_231),
    ],
)
def test_a_mass_as_typed_is_whole_milligrams(typed, unit, milligrams):
    assert mass(typed, unit).mg == milligrams


@pytest.mark.parametrize("typed", ["", "half", "5 2 0 g", "12 ft", "g", "1,2,3.4.5", "1e3", "0x1F"])
def test_what_is_no_mass_is_said_so(typed):
    with pytest.raises(Malformed):
        mass(typed, "g")


def test_a_comma_before_three_digits_can_be_read_in_two_ways():
    with pytest.raises(Malformed, match=r"can be 1\.250 or 1250"):
        mass("1,250", "g")


def test_no_unit_at_all_is_said_so():
    with pytest.raises(Malformed, match="g, kg, oz or lb"):
        mass("520", "")


@pytest.mark.parametrize("typed", ["-5 g", "−5 g", "9" * 39])
def test_a_mass_no_shop_has_names_the_fault(typed):
    with pytest.raises(Impossible):
        mass(typed, "g")


@given(st.integers(0, 10**9), st.sampled_from(sorted(MASS_UNITS)))
def test_grams_filled_into_a_field_come_back_the_same(milligrams, unit):
    assert mass(plain_grams(milligrams), "g").mg == milligrams
    assert mass(f"{plain_grams(milligrams)} g", unit).mg == milligrams


def test_a_mass_is_shown_in_the_unit_asked_for():
    assert shown_mass(520_000, "g") == "520\u00a0g"
    assert shown_mass(520_000, "oz") == "18.3\u00a0oz"
    assert shown_mass(1_250_500, "kg") == "1.251\u00a0kg"  # half away from zero
    assert both(1_250_000) == "1\u00a0250\u00a0g\u00a0(44.1\u00a0oz)"
