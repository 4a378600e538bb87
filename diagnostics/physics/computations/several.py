"""Several readings told in one text: "0.35 0.40 mm 0.45", "0:500; 5:620"."""

import re
from collections.abc import Sequence

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.units import Reference, to_si, unit_named

LONGEST = 20_000  # signs of one text


def several(told: float | str, name: str, units: Sequence[str]) -> list[float]:
    """The readings in SI; a bare number is in the first of `units`.

    Apart by semicolons, by commas with a space behind (or beside decimal points), or by spaces.

    Raises:
        Malformed: no number, or no unit of these.

    """
    if not isinstance(told, str):
        return [to_si(told, units[0])]
    return [_si(one, name, units) for one in _pieces(told, name)]


def pairs(
    told: float | str, name: str, first: Sequence[str], second: Sequence[str]
) -> list[tuple[float, float]]:
    """Pairs of readings, "0:500 5:620", in SI; bare numbers are in the first of their units.

    Raises:
        Malformed: no such pair, no number, or no unit of these.

    """
    if not isinstance(told, str):
        raise Malformed(f"{name}: pairs such as 0:500 5:620 are needed.")
    found = []
    for one in _pieces(told, name):
        left, colon, right = one.partition(":")
        if not colon:
            raise Malformed(f"{name}: “{one}” is no pair such as 5:620.")
        found.append((_si(left, name, first), _si(right, name, second)))
    return found


def _pieces(told: str, name: str) -> list[str]:
    if len(told) > LONGEST:
        raise Malformed(f"{name}: too long.")
    if ";" in told:
        return [one.strip() for one in told.split(";") if one.strip()]
    if re.search(r",\s", told) or ("," in told and "." in told):
        return [one.strip() for one in told.split(",") if one.strip()]
    pieces: list[str] = []
    for word in told.split():
        bare = not any(sign.isdigit() for sign in word)  # a unit, or a colon that stands alone
        if pieces and (bare or pieces[-1].endswith(":")):
            pieces[-1] += f" {word}"
        else:
            pieces.append(word)
    return pieces


def _si(told: str, name: str, units: Sequence[str]) -> float:
    number, unit = split(told.strip())
    reference: Reference = "absolute"
    symbol = unit_named(unit, tuple(units), reference) if unit else units[0]
    if symbol is None:
        raise Malformed(f"{name}: “{unit}” is none of {', '.join(units)}.")
    return to_si(number, symbol)
