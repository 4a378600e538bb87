"""What lines and taxes come to: exact fractions, rounded to whole smallest units at named places.

A line is rounded once. A tax is rounded on each line or once on the sum of all it is taken on, as
the shop chose; both are allowed to sellers by section 324 of the Streamlined Sales and Use Tax
Agreement, as enacted in R.I. Gen. Laws § 44-18.1-25 ("on an item or an invoice basis"), which
rounds half up. That a fraction of a penny may be left out of an invoice's tax is paragraph 17.5 of
the United Kingdom's VAT Notice 700, as told by HMRC's manual VATREC12010. Half to even is rule A of
ISO 80000-1:2009, annex B, from memory. Which of them holds where is for the shop to know.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

LINE, TOTAL = "line", "total"  # where a tax is rounded
UP, EVEN, DOWN = "up", "even", "down"  # what becomes of a fraction
MILLION = 1_000_000


@dataclass(frozen=True)
class Tax:
    """A share in millionths of lines of some sorts."""

    name: str
    millionths: int
    on: Collection[str]


@dataclass(frozen=True)
class Taken:
    """What one line comes to, and as what it is taxed; `amount` None: something is missing."""

    amount: int | None
    taxed: str


@dataclass(frozen=True)
class TaxSum:
    """One tax, what it was taken on, and what it comes to."""

    tax: Tax
    base: int
    amount: int


@dataclass(frozen=True)
class Sums:
    """What it all comes to. All None and no taxes where a line is missing or it falls below zero.

    `below_zero`: discounts take off more than there is to take them off.
    """

    subtotal: int | None = None
    tax: int | None = None
    total: int | None = None
    taxes: Sequence[TaxSum] = ()
    below_zero: bool = False


def whole(exact: Fraction, how: str = UP) -> int:
    """A whole number of smallest units; what is below zero is rounded as its opposite is.

    So a discount that takes a line off takes off its tax as well, to the last unit.

    Raises:
        KeyError: `how` is none of UP, EVEN, DOWN.

    """
    kept, rest = divmod(abs(exact), 1)
    goes_up = {UP: rest >= Fraction(1, 2), EVEN: rest > Fraction(1, 2), DOWN: False}[how]
    if how == EVEN and rest == Fraction(1, 2):
        goes_up = bool(kept % 2)
    size = int(kept) + goes_up
    return -size if exact < 0 else size


def priced(price: int, count: Fraction) -> int:
    """So many at that price, half up."""
    return whole(price * count)


def share_of(millionths: int, amounts: Iterable[int | None]) -> int | None:
    """A share of some lines, half up; None: one of them has no amount."""
    listed = list(amounts)
    if None in listed:
        return None
    return whole(Fraction(millionths * sum(one or 0 for one in listed), MILLION))


def summed(lines: Iterable[Taken], taxes: Iterable[Tax], rounding: str, how: str) -> Sums:
    """The lines, each tax on those it is taken on, and both together."""
    amounts: list[tuple[int, str]] = []
    for line in lines:
        if line.amount is None:
            return Sums()
        amounts.append((line.amount, line.taxed))
    sums = [tax_sum(tax, amounts, rounding, how) for tax in taxes]
    subtotal = sum(amount for amount, _ in amounts)
    if subtotal < 0 or any(one.base < 0 for one in sums):
        return Sums(below_zero=True)
    tax = sum(one.amount for one in sums)
    return Sums(subtotal, tax, subtotal + tax, sums)


def tax_sum(tax: Tax, lines: Iterable[tuple[int, str]], rounding: str, how: str) -> TaxSum:
    """One tax on (amount, taxed as) of the lines, rounded where the shop rounds it."""
    bases = [amount for amount, taxed in lines if taxed and taxed in tax.on]
    parts = bases if rounding == LINE else [sum(bases)]
    amount = sum(whole(Fraction(tax.millionths * part, MILLION), how) for part in parts)
    return TaxSum(tax, sum(bases), amount)
