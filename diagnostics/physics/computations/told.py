"""Inputs of a computation as people tell them, brought to what it takes.

A number without a unit is in SI; with a unit behind it, it is converted. Texts stay as they are.
"""

import difflib
import math
import re
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal, InvalidOperation

from diagnostics.physics.computations.computation import Computation, Input, Inputs
from diagnostics.physics.errors import Malformed, OutOfRange, PhysicsError
from diagnostics.physics.typed import split
from diagnostics.physics.units import (
    SI,
    UNITS,
    Reference,
    from_si,
    reference_typed,
    scaled,
    shown,
    to_si,
    units_meant,
    with_unit,
)

# As programs write numbers: 1e5, 4.7E-6. People's own ways are read by `split`.
_BY_PROGRAM = re.compile(r"([+-]?(?:\d+\.?\d*|\.\d+)[eE][+-]?\d+)(.*)", re.ASCII | re.DOTALL)
FROM_PERFECT_VACUUM = {"micron", "mTorr"}  # in the trade: what a micron gauge shows
EDGE = 1e-9  # of a bound: what rounding between units may take


class Unasked(PhysicsError):
    """A name that nothing has, an input that is missing, or one that nobody asked for."""


def taken(computation: Computation, told: Mapping[str, object]) -> dict[str, float | str]:
    """Every input, numbers in SI, defaults filled in; bounds are looked at by `within`.

    Raises:
        Unasked: an input is missing, or is none of the computation's.
        Malformed: what was told is no number, no unit that fits, or none of the answers.

    """
    asked = {one.name: one for one in computation.inputs}
    unknown = [name for name in told if name not in asked]
    if unknown:
        raise Unasked(f"{computation.name} takes no {_near(unknown[0], asked)}")
    missing = [
        one.name for one in asked.values() if one.default is None and told.get(one.name) is None
    ]
    if missing:
        raise Unasked(f"{computation.name} needs {', '.join(missing)} as well.")
    return {name: _one(one, told.get(name)) for name, one in asked.items()}


def within(computation: Computation, inputs: Inputs) -> None:
    """Let numbers pass that lie inside the bounds of their inputs.

    Raises:
        Impossible: a temperature below absolute zero.
        OutOfRange: outside the bounds.

    """
    for one in computation.inputs:
        number = inputs[one.name]
        if isinstance(number, str):
            continue
        if one.unit and UNITS[one.unit].quantity == "temperature" and number < 0:
            to_si(from_si(number, one.unit), one.unit)
        low, high = (_bound(one, edge) for edge in (one.low, one.high))
        slack = EDGE * max(abs(number), 1e-30)
        if (low is not None and number < low - slack) or (
            high is not None and number > high + slack
        ):
            raise OutOfRange(_outside(one, number))


def range_words(one: Input) -> str:
    """What an input may be, in words: a range in its unit, or the answers."""
    if one.answers:
        return " | ".join(answer or "(left out)" for answer in one.answers)
    unit = f" {one.unit.removeprefix('Δ')}" if one.unit else ""
    if one.low is None and one.high is None:
        return "any number" if one.unit else "a number or text"
    if one.high is None:
        return f"from {one.low:g}{unit}"
    if one.low is None:
        return f"up to {one.high:g}{unit}"
    return f"{one.low:g} to {one.high:g}{unit}"


def named(name: str, all_of: Mapping[str, Computation]) -> Computation:
    """The computation of that name.

    Raises:
        Unasked: there is none.

    """
    if name not in all_of:
        raise Unasked(f"No computation is called {_near(name, all_of)}")
    return all_of[name]


def number_and_unit(told: str) -> tuple[Decimal, str]:
    """The number and the unit behind it, as people or programs write it.

    Raises:
        Malformed: no number, or one far too large.

    """
    by_program = _BY_PROGRAM.fullmatch(told.strip())
    if not by_program:
        return split(told)
    try:
        number = Decimal(by_program[1])
    except InvalidOperation:
        raise Malformed("That is no number.") from None
    if abs(number.adjusted()) > 300:
        raise Malformed("That number is too large, or too near to nothing.")
    return number, by_program[2].strip()


def _near(name: str, names: Iterable[str]) -> str:
    close = difflib.get_close_matches(name, list(names), 3, 0.5)
    return f"“{name}”; near to it: {', '.join(close)}." if close else f"“{name}”."


def _one(one: Input, told: object) -> float | str:
    if told is None:
        told = one.default
        if isinstance(told, float | int) and one.unit:
            return scaled(float(told), one.unit)
    if one.default == "" and told == "":
        return ""
    return _plain(one, told)


def _plain(one: Input, told: object) -> float | str:
    free = not one.unit and not one.answers and one.low is None and one.high is None
    if free and isinstance(told, list):
        told = "; ".join(_piece(one, piece) for piece in told)
    if isinstance(told, bool) or not isinstance(told, float | int | str):
        raise Malformed(f"{one.name}: a number or a text, not {type(told).__name__}.")
    if one.answers:
        return _answer(one, str(told))
    if free:
        return told if isinstance(told, str) else _finite(one, told)
    if isinstance(told, str):
        return _typed(one, told)
    return _finite(one, told)


def _piece(one: Input, piece: object) -> str:
    """One of several readings, or of several pairs, as it is typed in one text."""
    if isinstance(piece, list) and len(piece) == 2:
        return ":".join(_piece(one, half) for half in piece)
    if isinstance(piece, str):
        return piece
    if isinstance(piece, bool) or not isinstance(piece, float | int):
        raise Malformed(f"{one.name}: readings, or pairs of two, stand in a list.")
    return f"{Decimal(repr(_finite(one, piece))):f}"


def _finite(one: Input, told: float) -> float:
    try:
        number = float(told)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise Malformed(f"{one.name}: that is no number.")
    return number


def _answer(one: Input, told: str) -> str:
    """The answer meant; capitals, hyphens and spaces do not count."""
    meant = [answer for answer in one.answers if _bare(answer) == _bare(told)]
    if told in one.answers:
        return told
    if len(meant) == 1:
        return meant[0]
    listed = ", ".join(answer for answer in one.answers if answer)
    raise Malformed(f"{one.name}: “{told}” is none of {listed}.")


def _bare(text: str) -> str:
    return "".join(letter for letter in text.casefold() if letter.isalnum())


def _typed(one: Input, told: str) -> float:
    try:
        number, unit = number_and_unit(told)
    except PhysicsError as fault:
        raise Malformed(f"{one.name}: {fault.sentence}") from None
    if not unit:
        return _finite(one, float(number))
    return _finite(one, scaled(number, _symbol(one, unit)))


def _symbol(one: Input, unit: str) -> str:
    """The unit meant among those of the input's quantity."""
    if not one.unit:
        raise Malformed(f"{one.name}: a bare number, without the unit “{unit}”.")
    quantity = UNITS[one.unit].quantity
    allowed = tuple(symbol for symbol, known in UNITS.items() if known.quantity == quantity)
    reference: Reference = "absolute" if one.reference == "absolute" else "gauge"
    meant = units_meant(unit, allowed, reference)
    _difference_or_point(one, unit, quantity, meant)
    if one.reference == "gauge" and meant and set(meant) <= FROM_PERFECT_VACUUM:
        raise Malformed(
            f"{one.name}: asked as a gauge reads it, from the air's pressure, and {unit} is "
            "counted from perfect vacuum."
        )
    if len(meant) == 1:
        return meant[0]
    if len(meant) > 1:
        raise Malformed(f"{one.name}: “{unit}” can be {' or '.join(meant)}; write it in full.")
    typed_as = reference_typed(unit)
    if quantity == "pressure" and typed_as and typed_as != reference:
        raise Malformed(
            f"{one.name}: asked as {reference} pressure, and “{unit}” is {typed_as}; "
            "the air's pressure lies between the two."
        )
    raise Malformed(f"{one.name}: “{unit}” is no unit of {quantity}.")


def _difference_or_point(one: Input, unit: str, quantity: str, meant: Sequence[str]) -> None:
    """Let pass what cannot be a temperature in place of a difference, or the other way round.

    ±2 °C of a thermometer can be nothing but a difference.
    """
    written = unit.casefold().startswith(("δ", "∆", "delta"))
    if quantity == "temperature" and written:
        raise Malformed(f"{one.name}: a temperature is asked, and “{unit}” is a difference.")
    kelvin = unit.casefold().rstrip("s") in ("k", "kelvin")
    sure = written or kelvin or one.limit_of_error
    if quantity == "temperature difference" and meant and not sure:
        raise Malformed(
            f"{one.name}: a difference is asked, such as 5 K or 9 Δ°F; “{unit}” can be a "
            "temperature."
        )


def _bound(one: Input, edge: float | None) -> float | None:
    return edge if edge is None or not one.unit else scaled(edge, one.unit)


def _outside(one: Input, number: float) -> str:
    at = f"{number:g}"
    if not one.unit:
        return f"{one.name}: {at} is outside {range_words(one)}."
    si = SI[UNITS[one.unit].quantity]
    symbol = "" if si == "1" else f" {si.removeprefix('Δ')}"
    told = _large(number, one.unit)
    taken_as = "" if one.unit == si else f" ({at}{symbol}; without a unit a number is in SI)"
    return f"{one.name}: {told}{taken_as} is outside {range_words(one)}."


def _large(number: float, unit: str) -> str:
    """A number in SI that is outside its range, in the unit people use, however large."""
    try:
        value = from_si(number, unit)
    except OverflowError:
        value = math.copysign(math.inf, number)
    if abs(value) >= 1e9:
        return with_unit(f"{value:.3g}", unit)
    return with_unit(shown(value, 0 if abs(value) >= 1000 else 2), unit)
