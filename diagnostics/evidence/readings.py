"""Readings as typed: text to number, and never more digits than the instrument had.

A reading is stored as {"si": number in SI, "typed": text as typed, "unit": symbol of the unit},
the answer to a choice as its code.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.units import UNITS, scaled, shown, unit_named, with_unit


@dataclass(frozen=True)
class Reading:
    """si in SI units; typed as the person typed it; unit as chosen or as typed.

    `used` is False for one that cannot be: it was kept as typed, and no computation takes it.
    """

    si: float
    typed: str
    unit: str
    used: bool = True

    @property
    def decimal(self) -> Decimal:
        """The number in its own unit, with the digits typed."""
        return split(self.typed)[0]

    @property
    def decimals(self) -> int:
        """How many digits were typed behind the point."""
        exponent = self.decimal.as_tuple().exponent
        return max(0, -exponent) if isinstance(exponent, int) else 0

    @property
    def last_digit(self) -> float:
        """What one step of the last digit typed is worth, in SI."""
        return float(Decimal(1).scaleb(-self.decimals)) * float(UNITS[self.unit].factor)

    @property
    def shown(self) -> str:
        """With the digits typed and the unit, such as 12.38 V."""
        return with_unit(shown(self.decimal, self.decimals), self.unit)

    def as_json(self) -> dict[str, float | str]:
        """As it is stored."""
        return {"si": self.si, "typed": self.typed, "unit": self.unit}


Readings = Mapping[str, Reading | str]


def number(readings: Readings, name: str) -> Reading | None:
    """The number read under that name that can be used, or None."""
    found = readings.get(name)
    return found if isinstance(found, Reading) and found.used else None


def kept_aside(readings: Readings) -> dict[str, str]:
    """The numbers that were kept as typed and are not used, as shown, by field."""
    numbers = {name: told for name, told in readings.items() if isinstance(told, Reading)}
    return {name: told.shown for name, told in numbers.items() if not told.used}


def taps(readings: Readings) -> dict[str, str]:
    """The answers tapped, by field."""
    return {name: told for name, told in readings.items() if isinstance(told, str)}


def from_json(stored: Mapping[str, Any]) -> dict[str, Reading | str]:
    """Stored readings back to what the kinds compute with."""
    return {
        name: value
        if isinstance(value, str)
        else Reading(float(value["si"]), str(value["typed"]), str(value["unit"]))
        for name, value in stored.items()
    }


def parse(typed: str, units: tuple[str, ...], unit: str) -> Reading:
    """`typed` as a reading.

    `unit` is the one chosen beside the field; a unit typed into the number wins.

    Raises:
        Malformed: no number, or in a unit that is not among `units`; with a sentence for the field.

    """
    number, suffix = split(typed)
    meant = unit_named(suffix, units) if suffix else unit
    if meant not in units:
        raise Malformed(
            f"«{typed.strip()}» is in a unit this reading does not take. "
            f"Type it in {' or '.join(units)}."
        )
    return Reading(scaled(number, meant), typed.strip(), meant)
