"""Units in which a reading may be typed, and the one rule by which numbers are shown.

The same rules stand in static/js/typed.js; both are held to tests/physics/typed_vectors.json.
The units themselves, with their exact factors, stand in unit_table.py.
"""

import math
import unicodedata
from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction
from typing import Literal

from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.unit_table import SI, UNITS, Unit

__all__ = [
    "EN_DASH",
    "MINUS",
    "NO_BREAK",
    "SI",
    "UNITS",
    "Reference",
    "Unit",
    "convert",
    "from_si",
    "reference_typed",
    "scaled",
    "shown",
    "shown_range",
    "table",
    "to_si",
    "unit_named",
    "units_meant",
    "with_unit",
]

NO_BREAK = "\u00a0"
MINUS = "\u2212"
EN_DASH = "\u2013"
Reference = Literal["gauge", "absolute", ""]


def scaled(value: float | Decimal, symbol: str) -> float:
    """`value` in the unit `symbol`, as SI, even where no such thing can be.

    Raises:
        Malformed: not a finite number.

    """
    unit = UNITS[symbol]
    if not math.isfinite(value):
        raise Malformed("That is no number.")
    exact = Fraction(repr(value)) if isinstance(value, float) else Fraction(value)
    return float((exact + unit.zero) * unit.factor)


def to_si(value: float | Decimal, symbol: str) -> float:
    """`value` in the unit `symbol`, as SI.

    Raises:
        Malformed: not a finite number.
        Impossible: a temperature below absolute zero.

    """
    si = scaled(value, symbol)
    if UNITS[symbol].quantity == "temperature" and si < 0:
        raise Impossible(
            f"{shown(value, 1)}{NO_BREAK}{symbol} is below absolute zero "
            f"({MINUS}273.15{NO_BREAK}°C): nothing is that cold."
        )
    return si


def from_si(si: float, symbol: str) -> float:
    """An SI value in the unit `symbol`.

    Raises:
        Malformed: not a finite number.

    """
    unit = UNITS[symbol]
    if not math.isfinite(si):
        raise Malformed("That is no number.")
    return float(Fraction(si) / unit.factor - unit.zero)


def convert(value: float | Decimal, start: str, end: str) -> float:
    """`value` in the unit `start`, in the unit `end`; exact but for the last rounding.

    Raises:
        Malformed: not a finite number, or two units of different things.
        Impossible: a temperature below absolute zero.

    """
    one, other = UNITS[start], UNITS[end]
    if one.quantity != other.quantity:
        raise Malformed(f"{start} is a {one.quantity}, {end} a {other.quantity}.")
    to_si(value, start)
    exact = Fraction(repr(value)) if isinstance(value, float) else Fraction(value)
    return float((exact + one.zero) * one.factor / other.factor - other.zero)


# What may be left out of a unit as typed: "in. Hg", "J/(kg K)", "kg/m^3", "psi (g)".
_LEFT_OUT = str.maketrans("", "", " .·*^()[]")
_MARKS: dict[str, Reference] = {
    "absolute": "absolute",
    "abs": "absolute",
    "gauge": "gauge",
    "gage": "gauge",
    "a": "absolute",
    "g": "gauge",
}


def _plain(typed: str) -> str:
    """A unit as typed in one form: signs of one kind, no spaces, no points, no brackets."""
    return unicodedata.normalize("NFKC", typed).translate(_LEFT_OUT)


def _spellings(unit: Unit) -> set[str]:
    return {_plain(one) for one in (unit.symbol, *unit.spellings)}


def _lower(words: Iterable[str]) -> set[str]:
    return {word.lower() for word in words}


_PRESSURES = {
    word
    for unit in UNITS.values()
    if unit.quantity == "pressure"
    for word in _lower(_spellings(unit))
}


def _apart(typed: str) -> tuple[str, Reference]:
    """A unit as typed, in one form, without what it says of gauge and absolute; and that."""
    plain = _plain(typed)
    if plain.lower() in _PRESSURES:
        return plain, ""
    for mark, reference in _MARKS.items():
        rest = plain[: -len(mark)]
        if plain.lower().endswith(mark) and (rest.lower() in _PRESSURES or (mark[1:] and not rest)):
            return rest, reference
    return plain, ""


def reference_typed(typed: str) -> Reference:
    """What a unit as typed says of its pressure: "psia" absolute, "bar g" gauge, "kPa" nothing."""
    return _apart(typed)[1]


def unit_named(typed: str, allowed: tuple[str, ...], reference: Reference = "gauge") -> str | None:
    """The symbol of the unit meant by `typed` among `allowed`; None: not known, or two are meant.

    Capitals count where they tell two units apart (mΩ, MΩ), and not otherwise. `reference` is what
    a pressure is asked as: typed as the other ("psia" where a gauge is read) it is not known.
    """
    meant = units_meant(typed, allowed, reference)
    return meant[0] if len(meant) == 1 else None


def units_meant(
    typed: str, allowed: tuple[str, ...], reference: Reference = "gauge"
) -> tuple[str, ...]:
    """The symbols of all units among `allowed` that may be meant by `typed`; see `unit_named`."""
    if typed in allowed:
        return (typed,)
    plain, told = _apart(typed)
    if told not in ("", reference):
        return ()
    spelled = {symbol: _spellings(UNITS[symbol]) for symbol in allowed}
    exact = tuple(symbol for symbol in allowed if plain in spelled[symbol])
    if exact or _is_another(plain, allowed):
        return exact
    return tuple(symbol for symbol in allowed if plain.lower() in _lower(spelled[symbol]))


def _is_another(plain: str, allowed: tuple[str, ...]) -> bool:
    """Whether it is, to the letter, a unit of the same thing that is not allowed: MΩ beside mΩ."""
    quantities = {UNITS[symbol].quantity for symbol in allowed}
    return any(
        plain in _spellings(unit)
        for symbol, unit in UNITS.items()
        if unit.quantity in quantities and symbol not in allowed
    )


def table(symbols: Iterable[str]) -> dict[str, dict[str, object]]:
    """The units of these symbols, and all others of their quantities, as JSON for a page's script.

    `factor` and `zero` are exact, as "numerator/denominator"; `spellings` are in one form already.
    """
    quantities = {UNITS[symbol].quantity for symbol in symbols}
    return {
        symbol: {
            "quantity": unit.quantity,
            "factor": f"{unit.factor.numerator}/{unit.factor.denominator}",
            "zero": f"{unit.zero.numerator}/{unit.zero.denominator}",
            "spellings": sorted(_spellings(unit)),
        }
        for symbol, unit in UNITS.items()
        if unit.quantity in quantities
    }


def shown(value: float | Decimal | str, decimals: int) -> str:
    """The number as text, rounded half away from zero on its decimal text.

    Not on its binary value, so that 12.25 gives 12.3 here and in a browser alike. Thousands stand
    apart by a no-break space; a true minus sign, none before zero.

    Raises:
        Malformed: not a finite number.

    """
    try:
        number = Decimal(repr(value) if isinstance(value, float) else value)
        wide = Context(prec=400, rounding=ROUND_HALF_UP)
        rounded = number.quantize(Decimal(1).scaleb(-decimals), context=wide)
    except ArithmeticError:
        raise Malformed("That is no number.") from None
    if not rounded.is_finite():
        raise Malformed("That is no number.")
    text = f"{rounded.copy_abs():,f}".replace(",", NO_BREAK)
    return MINUS + text if rounded < 0 else text


def shown_range(low: float, high: float, decimals: int) -> str:
    """Both ends as text, such as 0.35–0.65; one number where both are shown alike.

    Raises:
        Malformed: not a finite number.

    """
    ends = (shown(low, decimals), shown(high, decimals))
    return ends[0] if ends[0] == ends[1] else EN_DASH.join(ends)


def with_unit(text: str, symbol: str) -> str:
    """Number and unit, never parted at the end of a line. The Δ of a difference is not shown."""
    return f"{text}{NO_BREAK}{symbol.removeprefix('Δ')}"
