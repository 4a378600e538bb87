"""Units in which a reading may be typed, and the one rule by which numbers are shown.

Factors are exact: NIST SP 811 (2008), Appendix B.8 (prefixes; degree Fahrenheit to kelvin:
T/K = (t/°F + 459.67)/1.8, degree Celsius to kelvin: T/K = t/°C + 273.15).
"""

import math
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

from diagnostics.physics.errors import Impossible, Malformed

NO_BREAK = "\u00a0"
MINUS = "\u2212"
EN_DASH = "\u2013"


@dataclass(frozen=True)
class Unit:
    """SI value = (value + zero) x factor. `spellings` are accepted when typed, case aside."""

    symbol: str
    quantity: str
    factor: Fraction
    zero: Fraction = Fraction(0)
    spellings: tuple[str, ...] = ()


UNITS: dict[str, Unit] = {
    unit.symbol: unit
    for unit in (
        Unit("V", "voltage", Fraction(1), spellings=("volt", "volts", "v dc", "vdc")),
        Unit("mV", "voltage", Fraction(1, 1000), spellings=("millivolt", "millivolts")),
        Unit("A", "current", Fraction(1), spellings=("amp", "amps", "ampere", "amperes", "a dc")),
        Unit("mA", "current", Fraction(1, 1000), spellings=("milliamp", "milliamps")),
        Unit("Ω", "resistance", Fraction(1), spellings=("\u2126", "ohm", "ohms", "r")),
        Unit("K", "temperature", Fraction(1), spellings=("kelvin",)),
        Unit("°C", "temperature", Fraction(1), Fraction("273.15"), ("c", "deg c", "celsius")),
        Unit("°F", "temperature", Fraction(5, 9), Fraction("459.67"), ("f", "deg f", "fahrenheit")),
    )
}
SI = {"voltage": "V", "current": "A", "resistance": "Ω", "temperature": "K"}


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


def unit_named(typed: str, allowed: tuple[str, ...]) -> str | None:
    """The symbol of the unit meant by `typed` among `allowed`, or None."""
    for symbol in allowed:
        if typed == symbol:
            return symbol
    folded = " ".join(typed.casefold().split())
    for symbol in allowed:
        if folded == symbol.casefold() or folded in UNITS[symbol].spellings:
            return symbol
    return None


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
    text = f"{abs(rounded):,f}".replace(",", NO_BREAK)
    return MINUS + text if rounded < 0 else text


def with_unit(text: str, symbol: str) -> str:
    """Number and unit, never parted at the end of a line."""
    return f"{text}{NO_BREAK}{symbol}"
