"""Readings as typed: text to number, and never more digits than the instrument had.

A reading is stored as {"si": number in SI, "typed": text as typed, "unit": symbol of the unit},
the answer to a choice as its code.
"""

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from diagnostics.physics.errors import Malformed
from diagnostics.physics.units import UNITS, scaled, shown, unit_named, with_unit

MAX_LENGTH = 40
_SPACES = "\u00a0\u2007\u2009\u202f\u2002\u2003\t"
_MINUS = "\u2212\u2010\u2011\u2012\u2013\u2014\ufe63\uff0d"
_APOSTROPHES = "'\u2019\u02bc\u066c"
_POINTS = "\u066b\uff0e"
_COMMAS = "\uff0c\u060c"


@dataclass(frozen=True)
class Reading:
    """si in SI units; typed as the person typed it; unit as chosen or as typed."""

    si: float
    typed: str
    unit: str

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

    @property
    def significant(self) -> int:
        """How many digits carry meaning, zeros in front aside."""
        return len(self.decimal.as_tuple().digits)

    def as_json(self) -> dict[str, float | str]:
        """As it is stored."""
        return {"si": self.si, "typed": self.typed, "unit": self.unit}


Readings = Mapping[str, Reading | str]


def from_json(stored: Mapping[str, Any]) -> dict[str, Reading | str]:
    """Stored readings back to what the kinds compute with."""
    return {
        name: value
        if isinstance(value, str)
        else Reading(float(value["si"]), str(value["typed"]), str(value["unit"]))
        for name, value in stored.items()
    }


def _plain(typed: str) -> str:
    """Digits of every script, minus signs, spaces and marks brought to one form."""
    out = []
    for letter in typed:
        digit = unicodedata.decimal(letter, None)
        if digit is not None:
            out.append(str(digit))
        elif letter in _SPACES:
            out.append(" ")
        elif letter in _MINUS:
            out.append("-")
        elif letter in _APOSTROPHES:
            out.append("'")
        elif letter in _POINTS:
            out.append(".")
        elif letter in _COMMAS:
            out.append(",")
        else:
            out.append(letter)
    return "".join(out).strip()


def _no_number(typed: str) -> Malformed:
    if len(typed) > MAX_LENGTH:
        return Malformed(f"That is {len(typed)} characters long. Type the number alone.")
    return Malformed(f"«{typed.strip()}» is no number. Type digits with one point or one comma.")


def _grouped(whole: str, mark: str) -> bool:
    """Whether thousands marks stand where they belong."""
    first, *rest = whole.split(mark)
    return 1 <= len(first) <= 3 and all(len(group) == 3 for group in rest)


def _whole(text: str, typed: str) -> str:
    """The part before the decimal mark, its thousands marks taken out."""
    marks = {letter for letter in text if not letter.isdigit()}
    if not marks:
        return text
    if len(marks) > 1 or not _grouped(text, (mark := marks.pop())):
        raise _no_number(typed)
    return text.replace(mark, "")


def _digits(text: str, typed: str) -> str:
    """Digits with marks to digits with one point."""
    if not text or any(letter not in "0123456789.,' " for letter in text):
        raise _no_number(typed)
    if text.startswith(("'", " ")) or not any(letter.isdigit() for letter in text):
        raise _no_number(typed)
    last = max(text.rfind("."), text.rfind(","))
    if last < 0:
        return _whole(text, typed)
    mark, before, after = text[last], text[:last], text[last + 1 :]
    if mark in before:  # the same mark twice can only part thousands
        return _whole(text, typed)
    if after and not after.isdigit():
        raise _no_number(typed)
    short = before.isdigit() and len(before) <= 3 and before.strip("0")
    if mark == "," and short and len(after) == 3:
        raise Malformed(
            f"«{typed.strip()}» can be {before}.{after} or {before}{after}. "
            "Type it with a point, or without the mark."
        )
    return f"{_whole(before, typed) or '0'}.{after}" if after else _whole(before, typed)


def split(typed: str) -> tuple[Decimal, str]:
    """The number and the text of the unit typed behind it, which may be empty.

    Raises:
        Malformed: no number, or a comma followed by three digits, which can be read in two ways.

    """
    plain = _plain(typed)
    if not plain or len(plain) > MAX_LENGTH:
        raise _no_number(typed)
    sign = ""
    if plain[0] in "+-":
        sign, plain = plain[0], plain[1:].lstrip()
    end = 0
    while end < len(plain) and (plain[end] in "0123456789.,'" or plain[end] == " "):
        end += 1
    number, unit = plain[:end].rstrip(), plain[end:].strip()
    return Decimal(sign + _digits(number, typed)), unit


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
