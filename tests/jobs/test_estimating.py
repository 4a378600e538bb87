"""What lines and taxes come to, against sums made otherwise and rules that are published."""

import random
from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest

from jobs.estimating import DOWN, EVEN, LINE, TOTAL, UP, Taken, Tax, priced, share_of, summed, whole

BY_DECIMAL = {UP: ROUND_HALF_UP, EVEN: ROUND_HALF_EVEN, DOWN: ROUND_DOWN}
ALL = ("labor", "parts", "refrigerant")


def by_decimal(millionths: int, base: int, how: str) -> int:
    exact = Decimal(base) * Decimal(millionths) / Decimal(1_000_000)
    return int(exact.quantize(Decimal(1), rounding=BY_DECIMAL[how]))


@pytest.mark.parametrize("how", [UP, EVEN, DOWN])
def test_rounding_is_what_the_decimal_library_makes_of_the_same_number(how):
    chance = random.Random(6)
    for _ in range(2_000):
        base = chance.choice([chance.randrange(-(10**6), 10**6), chance.randrange(-400, 400) * 50])
        millionths = chance.choice([chance.randrange(0, 1_000_001), 10_000, 50_000, 82_500])
        exact = Fraction(millionths * base, 1_000_000)
        assert whole(exact, how) == by_decimal(millionths, base, how)


@pytest.mark.parametrize(
    ("cents", "percent", "tax"),
    [
        # R.I. Gen. Laws § 44-18.1-25 (section 324 of the Streamlined Sales and Use Tax Agreement):
        # up to the next cent whenever the third decimal place is greater than four.
        (1_450, "7", 102),  # 1.0150
        (1_449, "7", 101),  # 1.0143
        (1_000, "8.25", 83),  # 0.8250
        (1_001, "8.25", 83),  # 0.8258
        (999, "8.25", 82),  # 0.8242
    ],
)
def test_half_up_is_the_rule_of_the_streamlined_sales_tax_agreement(cents, percent, tax):
    millionths = int(Decimal(percent) * 10_000)
    sums = summed([Taken(cents, "parts")], [Tax("Sales tax", millionths, ALL)], TOTAL, UP)
    third = Decimal(cents) / 100 * Decimal(percent) / 100 * 1000 // 1
    assert sums.tax == tax == int(third // 10) + (third % 10 > 4)


def test_a_tax_on_each_line_and_one_on_the_total_may_differ_and_both_are_worked_out():
    """Three lines of 0.50 at 7 %: 0.035 each makes 0.04 three times, and 0.105 makes 0.11."""
    lines = [Taken(50, "parts")] * 3
    tax = [Tax("Sales tax", 70_000, ["parts"])]
    assert summed(lines, tax, LINE, UP).tax == 12
    assert summed(lines, tax, TOTAL, UP).tax == 11
    assert summed(lines, tax, LINE, EVEN).tax == 12
    assert summed(lines, tax, TOTAL, EVEN).tax == 10
    assert summed(lines, tax, LINE, DOWN).tax == 9
    assert summed(lines, tax, TOTAL, DOWN).tax == 10


def test_a_worked_example_by_hand():
    """2.25 h at 96.00, a part of 286.00 and 650 g at 85.00 a kilogram; 8.25 % but on labor.

    216.00 + 286.00 + 55.25 = 557.25; 8.25 % of 341.25 = 28.153125, so 28.15; together 585.40.
    """
    labor = priced(9_600, Fraction(135, 60))
    gas = priced(8_500, Fraction(650_000, 1_000_000))
    assert (labor, gas) == (21_600, 5_525)
    lines = [Taken(labor, "labor"), Taken(28_600, "parts"), Taken(gas, "refrigerant")]
    sums = summed(lines, [Tax("Sales tax", 82_500, ["parts", "refrigerant"])], TOTAL, UP)
    assert (sums.subtotal, sums.tax, sums.total) == (55_725, 2_815, 58_540)
    assert [(one.base, one.amount) for one in sums.taxes] == [(34_125, 2_815)]


@pytest.mark.parametrize("rounding", [LINE, TOTAL])
@pytest.mark.parametrize("how", [UP, EVEN, DOWN])
def test_a_discount_that_takes_a_line_off_takes_off_its_tax_to_the_last_unit(rounding, how):
    tax = [Tax("Sales tax", 82_500, ["parts"])]
    for cents in range(400):
        lines = [Taken(cents, "parts"), Taken(-cents, "parts")]
        assert summed(lines, tax, rounding, how).total == 0


def test_random_estimates_come_to_what_a_sum_in_decimals_says():
    chance = random.Random(60)
    for _ in range(300):
        lines = [Taken(chance.randrange(0, 200_000), chance.choice([*ALL, ""])) for _ in range(12)]
        taxes = [Tax("A", 82_500, ["parts"]), Tax("B", chance.randrange(250_000), ALL)]
        rounding, how = chance.choice([LINE, TOTAL]), chance.choice([UP, EVEN, DOWN])
        sums = summed(lines, taxes, rounding, how)
        tax = 0
        for one in taxes:
            bases = [line.amount or 0 for line in lines if line.taxed in one.on]
            parts = bases if rounding == LINE else [sum(bases)]
            tax += sum(by_decimal(one.millionths, part, how) for part in parts)
        assert sums.tax == tax
        assert sums.total == sum(line.amount or 0 for line in lines) + tax


def test_a_line_without_an_amount_leaves_all_without_a_total():
    sums = summed([Taken(100, "parts"), Taken(None, "labor")], [], TOTAL, UP)
    assert (sums.subtotal, sums.tax, sums.total, sums.below_zero) == (None, None, None, False)


@pytest.mark.parametrize(
    "lines",
    [
        [Taken(100, "parts"), Taken(-101, "parts")],
        [Taken(500, "labor"), Taken(100, "parts"), Taken(-101, "parts")],
    ],
)
def test_discounts_beyond_what_they_are_taken_off_leave_no_total(lines):
    sums = summed(lines, [Tax("Sales tax", 82_500, ["parts"])], TOTAL, UP)
    assert (sums.total, sums.below_zero) == (None, True)


def test_a_share_is_of_lines_that_all_have_an_amount():
    assert share_of(50_000, [21_600, 9_990]) == 1_580  # 5 % of 315.90 is 15.795
    assert share_of(50_000, [21_600, None]) is None
    assert share_of(50_000, []) == 0


def test_a_discount_beyond_the_rest_leaves_no_total_where_no_tax_is_taken():
    assert summed([Taken(100, ""), Taken(-101, "")], [], TOTAL, UP).below_zero
