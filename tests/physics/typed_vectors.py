"""Makes typed_vectors.json: what typed numbers, units and shown numbers have to give.

    python -m tests.physics.typed_vectors

writes it again, always the same; a test notices when that was forgotten. The answers come from the
server's side, which tests of its own hold to what is right; the file holds the page to the same.
"""

import json
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

from diagnostics.physics.typed import Unreadable, split
from diagnostics.physics.units import (
    UNITS,
    from_si,
    reference_typed,
    scaled,
    shown,
    unit_named,
)

PLACE = Path(__file__).parent / "typed_vectors.json"
SHOWN, TYPED, CONVERTED = 3_000, 1_500, 600
HALVES = (
    12.25, 12.35, -12.25, 1.005, 2.5, -0.04, -0.05, 0.05, 0.5, 1.5, 0.1 + 0.2, 1234567.5, 999.995,
    9.995, 99.95, -999.5, 1e-7, 5e-7, 1e21, 1.5e21, 5e-324, 1.7976931348623157e308, 0.0, -0.0,
    1e16, 123456789012345680.0, 1000.0, 999999.5, 0.45, 8.345, 1.45, 2.675, 1e22, 1e-6, 0.000123,
)  # fmt: skip
DECIMAL_TEXTS = (
    "12.380", "-0.0", "0", "00012", "+3.05", ".5", "5.", "1E-7", "1e3", "-1.5E+3", "0e500",
    "1e-500", "0.0500000000000000000000000001", "0.04999999999999999999999999999",
    "123456789012345678901234.5", "1234567890123456789012345678901.25",
)  # fmt: skip
NUMBERS = (
    "12.38", "12,38", " 12.38 ", "12,4 V", "12.38V", "12.38\u00a0V", "48 °C", ".5", ",5", "5.",
    "5,", "0,125", "00,125", "1.234", "1.234,5", "1,234.5", "1.234.567", "1,234,567", "1 234,5",
    "1\u00a0234", "1\u202f234.5", "1'234.5", "1’234", "1234,567", "-3.05", "−3.05", "–3,05 A",
    "- 3.05", "+12.4", "+ 12.4", "007", "-0", "-0.0", "000", "12.40", "\t12.4\n", "12.4\r",
    "1,234", "12,345", "123,456", "-1,234", "1,234 V", "0,123", "1,2345", "1 234 567,89",
    "", " ", "abc", "-", "+", ".", ",", "V", "12.3.8", "1,23,4", "12 38", "1 2", "1''2", "--5",
    "12.4.", "12..4", "<script>", "½", "NaN", "inf", "1,2345,678", "1.23,456.7", "🔧", "\u202e12",
    "1e3", "12²", "12 V 3", "12-", "12.4 kV", "9" * 40, "9" * 41, "🔧" * 40, "🔧" * 41,
    " " * 45 + "5", " " * 45, "35 psia", "35 psi (g)", "2,5 bar abs", "-20 in. Hg", "12 'V", "5 .",
    "12 ,5", "1'234'567", "1'23", "'123", "١٢٫٤", "１２．４", "१२.४", "๑๒,๕", "𝟏𝟐.𝟒", "𝟘𝟙𝟚",
    "１，５", "߁߂.߃", "᱁᱂", "꘡꘢,꘣", "𑁧.𑁨", "۱۲٬۳۴۵٫۶", "𞥑𞥒", "𝟿𝟶", "🯰🯱",
)  # fmt: skip
LETTERS = "0123456789" * 3 + "..,,,'  -+−–\u00a0\u202f’ VaA٣٫"
OHMS = ("Ω", "mΩ", "kΩ", "MΩ")
PRESSURES = ("kPa", "psi", "bar", "inHg", "mmHg", "micron")
UNIT_TEXTS = (
    "mΩ", "mω", "Mω", "MΩ", "MOHM", "Mohm", "mohm", "megohm", "MEGOHM", "M", "m", "K", "k", "kohm",
    "\u2126", "psia", "PSIA", "psi abs", "bar (a)", "bara", "kPa a", "kPaa", "Paa", "pa", "psig",
    "psi gauge", "bar g", "kPa gage", "inHg (g)", "INHGA", "in. Hg", "hg", "abs", "absolute", "a",
    "g", "gauge", "㎪", "℃", "℉", "㎏", "kg/m^3", "kg/m3", "J/kg K", "j/(kg k)", "fl.oz.", "FL OZ",
    "f", "F", "°f", "deg. C", '"', "”", "µ", "μ", "", " ", "ſ", "İ", "ß", "furlong", "V DC", "vdc",
)  # fmt: skip


def number(random: Random) -> float:
    """Any size that a reading has, often with few digits, so that halves are met."""
    digits = int(random.random() * 10 ** (1 + int(random.random() * 9)))
    sign = -1 if random.random() < 0.3 else 1
    if random.random() < 0.2:
        return sign * random.random() * 10 ** int(random.random() * 12 - 5)
    return float(f"{sign * digits}e{int(random.random() * 11) - 8}")


def shown_rows(random: Random) -> Iterator[list[Any]]:
    """Value, decimals, text."""
    for value in (*HALVES, *DECIMAL_TEXTS):
        for decimals in range(-2, 7):
            yield [value, decimals, shown(value, decimals)]
    for _ in range(SHOWN):
        value, decimals = number(random), int(random.random() * 7) - (random.random() < 0.05)
        told = value if random.random() < 0.7 else f"{value:.{int(random.random() * 8)}f}"
        yield [told, decimals, shown(told, decimals)]


def read(typed: str) -> list[str]:
    """Number and unit, or the problem and its sentence."""
    try:
        found, unit = split(typed)
    except Unreadable as problem:
        return ["", "", problem.code, problem.sentence]
    return [f"{found:f}", unit, "", ""]


def typed_rows(random: Random) -> Iterator[list[str]]:
    """Typed, number, unit, problem, sentence."""
    for typed in NUMBERS:
        yield [typed, *read(typed)]
    for _ in range(TYPED):
        size = 1 + int(random.random() * 9)
        typed = "".join(LETTERS[int(random.random() * len(LETTERS))] for _ in range(size))
        yield [typed, *read(typed)]


def unit_rows() -> Iterator[list[Any]]:
    """Typed, units allowed, reference asked, symbol, reference typed."""
    whole = tuple(UNITS)
    for unit in UNITS.values():
        for spelled in (unit.symbol, *unit.spellings):
            for typed in dict.fromkeys((spelled, spelled.upper(), f" {spelled}.")):
                yield named(typed, (unit.symbol,), "gauge")
    for typed in UNIT_TEXTS:
        for allowed in (OHMS, ("Ω", "mΩ"), PRESSURES, ("ΔK", "Δ°F"), whole):
            for reference in ("gauge", "absolute"):
                yield named(typed, allowed, reference)


def named(typed: str, allowed: tuple[str, ...], reference: Any) -> list[Any]:
    every = "*" if len(allowed) == len(UNITS) else list(allowed)
    return [typed, every, reference, unit_named(typed, allowed, reference), reference_typed(typed)]


def si_rows(random: Random) -> Iterator[list[Any]]:
    """Value, symbol, SI of it, and the value taken as SI in that unit."""
    symbols = list(UNITS)
    for turn in range(CONVERTED):
        value, symbol = number(random), symbols[turn % len(symbols)]
        yield [value, symbol, scaled(value, symbol), from_si(value, symbol)]
    for value in (0.0, -0.0, 1e-280, 1e300, 0.1):
        yield [value, "psi", scaled(value, "psi"), from_si(value, "psi")]


def vectors() -> str:
    """The file's text: a row a line."""
    random = Random(20260101)  # the same every time
    parts = {
        "shown": shown_rows(random),
        "typed": typed_rows(random),
        "units": unit_rows(),
        "si": si_rows(random),
    }
    lines = [
        f'"{name}": [\n' + ",\n".join(json.dumps(row, ensure_ascii=False) for row in rows) + "\n]"
        for name, rows in parts.items()
    ]
    return "{\n" + ",\n".join(lines) + "\n}\n"


if __name__ == "__main__":
    PLACE.write_text(vectors(), "utf-8")
