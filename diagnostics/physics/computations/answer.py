"""A computation run by its name, and what comes of it as plain data for JSON."""

import math
from collections.abc import Mapping
from typing import Any

from diagnostics.physics.computations.catalogue import COMPUTATIONS
from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.figures import Figures, figures_told, two_digits
from diagnostics.physics.computations.told import Unasked, named, range_words, taken, within
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange, PhysicsError
from diagnostics.physics.units import SI, UNITS, from_si

CODES: dict[type[PhysicsError], str] = {
    Unasked: "unasked",
    Malformed: "malformed",
    Impossible: "impossible",
    OutOfRange: "out_of_range",
}
# What a formula far outside its range ends in; inside it, a fault of ours that is told as one.
_BROKEN = (ArithmeticError, ValueError, LookupError, TypeError, RecursionError)
OURS = "That could not be computed; the fault is the program's, not the input's."


def answer(name: str, told: Mapping[str, object]) -> dict[str, Any]:
    """Value, unit, uncertainty, meaning and source, or the error and its sentence.

    `value` and `uncertainty` (one standard uncertainty, None: not known) are in SI, of which `unit`
    is the symbol; `shown` has the same in the unit people use, with the digits that `figures.py`
    allows.
    """
    try:
        computation = named(name, COMPUTATIONS)
        inputs = taken(computation, told)
        found = _run(computation, inputs)
        plain = _plain(found, figures_told(computation, told, inputs))
    except PhysicsError as fault:
        code = next(code for kind, code in CODES.items() if isinstance(fault, kind))
        return {"name": name, "error": code, "sentence": fault.sentence}
    except _BROKEN as fault:
        told_as = f"{OURS} ({type(fault).__name__})"
        return {"name": name, "error": "not_computed", "sentence": told_as}
    return {"name": name, **plain, "source": computation.source}


def described(computation: Computation) -> dict[str, Any]:
    """What a computation takes and gives, as plain data."""
    return {
        "name": computation.name,
        "words": computation.words,
        "inputs": [_described(one) for one in computation.inputs],
        "unit": computation.unit,
        "si_unit": _si_unit(computation.unit),
        "source": computation.source,
    }


def _run(computation: Computation, inputs: Inputs) -> Result:
    """The result; outside the range the physical fault is told before the range is."""
    try:
        within(computation, inputs)
    except OutOfRange as outside:
        try:
            computation.run(inputs)
        except Impossible as fault:
            raise Impossible(f"{fault.sentence} {outside.sentence}") from None
        except _BROKEN:  # PhysicsError among them
            pass
        raise
    return computation.run(inputs)


def _plain(result: Result, figures: Figures) -> dict[str, Any]:
    """A result as JSON takes it.

    Raises:
        Malformed: the value is not finite.

    """
    plain = _value(result, figures) | {"meaning": result.meaning, "basis": result.basis}
    if result.more:
        plain["more"] = {name: _value(one, figures) for name, one in result.more.items()}
    return plain


def _value(result: Result, figures: Figures) -> dict[str, Any]:
    if not math.isfinite(result.value):
        raise Malformed("What comes out is no number.")
    u = result.u if result.u is None or math.isfinite(result.u) else None
    unit = result.unit.removeprefix("Δ")
    shown = from_si(result.value, result.unit) if result.unit else result.value
    shown_u = u / float(UNITS[result.unit].factor) if u is not None and result.unit else u
    return {
        "value": result.value,
        "unit": _si_unit(result.unit),
        "uncertainty": u,
        "shown": {
            "value": figures.rounded(result, shown, shown_u),
            "unit": unit,
            "uncertainty": two_digits(shown_u),
        },
    }


def _si_unit(unit: str) -> str:
    return SI[UNITS[unit].quantity].removeprefix("Δ") if unit else ""


def _described(one: Input) -> dict[str, Any]:
    return {
        "name": one.name,
        "words": one.words,
        "unit": one.unit.removeprefix("Δ"),
        "si_unit": _si_unit(one.unit),
        "range": range_words(one),
        "low": one.low,
        "high": one.high,
        "answers": list(one.answers),
        "reference": one.reference,
        "required": one.default is None,
        "default": one.default,
    }
