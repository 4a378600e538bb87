"""What was typed on this job, and what a repair costs by it now.

Money is whole numbers of the currency's smallest unit. What was not typed is missing, never zero:
then there is no total, and the sentence says what is missing.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from diagnostics.evidence.options.lines import FLUIDS, OPERATIONS, PARTS
from diagnostics.evidence.options.option import Option

Kind = Literal["labor", "parts", "refrigerant"]
KINDS: tuple[Kind, ...] = ("labor", "parts", "refrigerant")
BROUGHT = "customer"  # the source of a part that the customer brings
MINUTES = 60
MILLION = 1_000_000  # milligrams in a kilogram, microliters in a liter, millionths in a whole


@dataclass(frozen=True)
class PartPrice:
    """What the part of this car costs. `source`: new, remanufactured, used or customer.

    `pieces` are how many it takes. A part that the customer brings costs nothing in this sum.
    """

    amount: int | None = None
    source: str = ""
    pieces: int = 1


@dataclass(frozen=True)
class Tax:
    """A share in millionths of labor, of parts, of refrigerant and oil."""

    millionths: int
    on: tuple[Kind, ...]


@dataclass(frozen=True)
class Typed:
    """What was typed on this job.

    `rate`: for an hour; `minutes` of each operation; `parts` by their code; `fluid_price` for a
    kilogram or liter; `fluids`: how much of each, in milligrams or microliters.
    """

    rate: int | None = None
    minutes: Mapping[str, int] = field(default_factory=dict)
    parts: Mapping[str, PartPrice] = field(default_factory=dict)
    fluid_price: Mapping[str, int] = field(default_factory=dict)
    fluids: Mapping[str, int] = field(default_factory=dict)
    taxes: tuple[Tax, ...] = ()


@dataclass(frozen=True)
class Line:
    """One line. `amount` in smallest units, None: not typed. `much`: minutes, pieces, mg or µL."""

    kind: Kind
    code: str
    words: str
    much: int | None
    amount: int | None
    missing: str = ""
    note: str = ""


@dataclass(frozen=True)
class Cost:
    """The lines of one or more repairs, each once, and what they come to.

    `missing`: a sentence for each thing that was not typed; while there is one there is no total.
    """

    lines: tuple[Line, ...]
    taxes: tuple[Tax, ...] = ()

    @property
    def missing(self) -> tuple[str, ...]:
        """What was not typed, each said once."""
        return tuple(dict.fromkeys(one.missing for one in self.lines if one.missing))

    @property
    def notes(self) -> tuple[str, ...]:
        """What is to be said of single lines."""
        return tuple(one.note for one in self.lines if one.note)

    def of(self, *kinds: Kind) -> int | None:
        """What lines of these kinds come to, tax included; None: something of them is not typed."""
        amounts = [line.amount for line in self.lines if line.kind in kinds]
        if None in amounts:
            return None
        return sum(amount for amount in amounts if amount is not None) + self.tax_on(kinds)

    def tax_on(self, kinds: Iterable[Kind]) -> int:
        """The taxes on lines of these kinds, each kind rounded by itself, so that parts add up."""
        return sum(
            rounded(tax.millionths * (line_sum(self.lines, kind) or 0), MILLION)
            for tax in self.taxes
            for kind in kinds
            if kind in tax.on
        )

    @property
    def total(self) -> int | None:
        """What it comes to, tax included; None: something is not typed."""
        return self.of(*KINDS)


def line_sum(lines: Iterable[Line], kind: Kind) -> int:
    """What the lines of one kind come to that have an amount."""
    return sum(line.amount or 0 for line in lines if line.kind == kind)


def rounded(number: int, by: int) -> int:
    """A whole number divided, halves up."""
    return (2 * number + by) // (2 * by)


def cost_now(options: Iterable[Option], typed: Typed) -> Cost:
    """What these repairs cost together, done in one go: what two of them share is paid once."""
    chosen = tuple(options)
    operations = dict.fromkeys(code for one in chosen for code in one.operations)
    parts = dict.fromkeys(code for one in chosen for code in one.parts)
    fluids = dict.fromkeys(code for one in chosen for code in one.fluids)
    lines = (
        *(labor(code, typed) for code in operations),
        *(part(code, typed) for code in parts),
        *(fluid(code, typed) for code in fluids),
    )
    return Cost(lines, typed.taxes)


def labor(code: str, typed: Typed) -> Line:
    """The line of one operation."""
    words, minutes = OPERATIONS[code].words, typed.minutes.get(code)
    if minutes is None:
        return Line("labor", code, words, None, None, f"Hours of “{words}” not typed.")
    if typed.rate is None:
        return Line("labor", code, words, minutes, None, "Price of an hour not typed.")
    return Line("labor", code, words, minutes, rounded(minutes * typed.rate, MINUTES))


def part(code: str, typed: Typed) -> Line:
    """The line of one part."""
    words, price = PARTS[code].words, typed.parts.get(code, PartPrice())
    if price.source == BROUGHT:
        note = f"{words}: brought by the customer, its price is not in this sum."
        return Line("parts", code, words, price.pieces, 0, note=note)
    if price.amount is None:
        return Line("parts", code, words, price.pieces, None, f"Price of “{words}” not typed.")
    return Line("parts", code, words, price.pieces, price.amount * price.pieces)


def fluid(code: str, typed: Typed) -> Line:
    """The line of refrigerant, oil or dye."""
    words, much, price = FLUIDS[code].words, typed.fluids.get(code), typed.fluid_price.get(code)
    if price is None:
        return Line("refrigerant", code, words, much, None, f"Price of “{words}” not typed.")
    if much is None:
        return Line("refrigerant", code, words, None, None, f"Amount of “{words}” not typed.")
    return Line("refrigerant", code, words, much, rounded(much * price, MILLION))
