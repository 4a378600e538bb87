"""A number with its unit in a form of work on the loop: asked in the unit of the shop, kept in SI.

What is outside the usual is asked about once and kept with why. What cannot be is kept as typed,
too, and feeds no computation and no move.
"""

from decimal import Decimal
from fractions import Fraction
from typing import Any, NotRequired, TypedDict

from django.utils.datastructures import MultiValueDict

from diagnostics.physics.errors import Malformed
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.typed import split
from diagnostics.physics.units import (
    EN_DASH,
    UNITS,
    Reference,
    scaled,
    shown,
    unit_named,
    with_unit,
)
from jobs.forms.chosen_unit import ask_in_chosen, unit_asked
from jobs.forms.fields import OnJob, Typed, Why
from jobs.logbook import Told
from jobs.models.shop import units_chosen

Ends = tuple[float, float]


class Read(TypedDict):
    """A number as it is kept: in SI, as typed, in which unit; `unused`: it cannot be."""

    si: float
    typed: str
    unit: str
    unused: NotRequired[bool]


class Quantity(Typed):
    """One number. `usual` and `can_be` are its ends in the first of `units`, `odd` a mark's code.

    `absolute`: a pressure above perfect vacuum, not above the air's. `quiet`: one of several alike,
    above which stands what holds for all of them.
    """

    def __init__(  # noqa: PLR0913  what is asked of a number
        self,
        label: str,
        units: tuple[str, ...],
        usual: Ends,
        can_be: Ends,
        odd: str,
        hint: str = "",
        *,
        absolute: bool = False,
        tells_range: bool = True,
        quiet: bool = False,
    ) -> None:
        low, high = (shown(Decimal(str(end)), 0) for end in usual)
        told = f"{low}{EN_DASH}{with_unit(high, units[0])};" if tells_range else ""
        super().__init__(label, " ".join(filter(None, (hint, told))), units[0])
        self.units, self.usual, self.can_be, self.odd = units, usual, can_be, odd
        self.absolute, self.quiet = absolute, quiet

    def is_within(self, si: float, ends: Ends) -> bool:
        """Whether an SI value lies between ends told in the first unit."""
        low, high = (scaled(end, self.units[0]) for end in ends)
        return low <= si <= high


class WithQuantities(OnJob):
    """A form with such numbers; `read` has by field those that were told, once it is clean."""

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        units: ShownIn | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        self.read: dict[str, Read] = {}
        chosen = units_chosen() if units is None else units
        for name, field in list(self.fields.items()):
            if isinstance(field, Quantity):
                self.fields[f"{name}_why"] = Why()
                ask_in_chosen(self, name, field.units, chosen)
                field.help_text = "" if field.quiet else field.help_text
        for name, value in self.initial.items():  # a correction begins in the unit then typed
            begun = self.fields.get(name.removesuffix("_unit"))
            if name.endswith("_unit") and isinstance(begun, Quantity) and not self.is_bound:
                begun.unit = value

    def clean(self) -> dict[str, Any]:
        """Read all numbers; ask about those that are odd."""
        said = super().clean()
        for name, field in list(self.fields.items()):
            if isinstance(field, Quantity) and said.get(name):
                self.read_one(name, field, said[name])
        return said

    def read_one(self, name: str, field: Quantity, typed: str) -> None:
        """Read one number, or say at its field why it is none."""
        reference: Reference = "absolute" if field.absolute else "gauge"
        try:
            number, suffix = split(typed)
            asked = unit_asked(self, name, field.units)
            unit = unit_named(suffix, field.units, reference) if suffix else asked
            if unit is None:
                raise Malformed(f"“{typed}” is not in {in_words(field.units)}.")
            si = scaled(number, unit)
        except Malformed as wrong:
            self.add_error(name, wrong.sentence)
            return
        self.read[name] = {"si": si, "typed": f"{number:f}", "unit": unit}
        if not field.is_within(si, field.can_be):
            self.read[name]["unused"] = True
        if not field.is_within(si, field.usual):
            self.asks(name, field.odd)

    def si(self, name: str) -> float | None:
        """A number told that can be, in SI; None: none was."""
        told = self.read.get(name)
        return None if told is None or told.get("unused") else told["si"]

    def microliters(self, name: str) -> int | None:
        """A volume told that can be, in whole microliters; None: none was."""
        return self.whole(name, 10**9)

    def whole(self, name: str, in_one: int) -> int | None:
        """A number told that can be, in whole parts of its SI unit, exact; None: none was."""
        told = self.read.get(name)
        if told is None or told.get("unused"):
            return None
        return round(Fraction(Decimal(told["typed"])) * UNITS[told["unit"]].factor * in_one)


def in_words(units: tuple[str, ...]) -> str:
    """Such as: micron, Pa or mbar."""
    *first, last = units
    return f"{', '.join(first)} or {last}" if first else last


def as_typed(told: dict[str, Any]) -> dict[str, str]:
    """What a row keeps of a form, as the form begins with it to be corrected."""
    first: dict[str, str] = {}
    for name, value in told.items():
        if isinstance(value, dict):
            first |= {name: value["typed"], f"{name}_unit": value["unit"]}
        elif isinstance(value, str):
            first[name] = value
    return first
