"""Comparing two readings at a vent, as a computation."""

import math
from itertools import chain

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.humid_air import ERRORS
from diagnostics.physics.computations.units import LEFT_OUT, optional
from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.uncertainty import Measured
from diagnostics.physics.units import shown, to_si, unit_named, with_unit
from diagnostics.physics.vent_readings import (
    AMBIENT_APART,
    HUMIDITY_APART,
    HUMIDITY_WORDS,
    RUN_APART,
    SETTLED,
    SPEED_APART,
    VentConditions,
    Verdict,
    Way,
    compare_conditions,
    vent_change,
)

SIDES = ("first", "second")
DOORS = ("open", "closed", LEFT_OUT)
RECIRCULATION = ("recirculated", "fresh", LEFT_OUT)
SOURCE = "conditions: trade articles; how far apart is still the same: our judgement, no source"
LIMITS = (
    f"the same is up to {AMBIENT_APART:g} K, {HUMIDITY_APART * 100:g} points of humidity, "
    f"{SPEED_APART * 60:g} rpm, {RUN_APART / 60:g} minutes or both from {SETTLED / 60:g} minutes on"
)
VERDICTS: dict[Verdict, str] = {
    "comparable": "Comparable: nothing that was noted differs, and nothing is missing.",
    "not_comparable": "Not comparable.",
    "cannot_tell": "Cannot tell whether they are comparable.",
}
WAYS: dict[Way, str] = {
    "no_change": "The vent changed by less than these thermometers can tell.",
    "colder": "The vent got colder by {}.",
    "warmer": "The vent got warmer by {}.",
}


def _inputs(side: str) -> tuple[Input, ...]:
    def words(what: str) -> str:
        return f"{what}, {side} reading"

    left_out = LEFT_OUT
    return (
        Input(f"{side}_ambient", words("Ambient temperature"), "°C", -50, 70, default=left_out),
        Input(
            f"{side}_humidity",
            words("Humidity as a number (40%), or dry, normal, muggy"),
            default=left_out,
        ),
        Input(f"{side}_speed", words("Engine speed"), "rpm", 0, 10_000, default=left_out),
        Input(f"{side}_fan", words("Fan step, as the shop calls it"), default=left_out),
        Input(f"{side}_doors", words("Doors and windows"), answers=DOORS, default=left_out),
        Input(
            f"{side}_recirculation",
            words("Recirculated or fresh air"),
            answers=RECIRCULATION,
            default=left_out,
        ),
        Input(
            f"{side}_run",
            words("Time since the A/C was switched on"),
            "min",
            0,
            1_440,
            default=left_out,
        ),
        Input(f"{side}_vent", words("Temperature at the vent"), "°C", -50, 100, default=left_out),
    )


def _humidity(told: float | str) -> float | str | None:
    """A share, a word, or None; a number as text has its unit behind it."""
    if not isinstance(told, str):
        return told
    if not told or told in HUMIDITY_WORDS:
        return told or None
    number, unit = split(told)
    symbol = unit_named(unit, ("%", "1")) if unit else "1"
    if symbol is None:
        raise Malformed(f"“{told}”: humidity is a number such as 40%, or dry, normal or muggy.")
    return to_si(number, symbol)


def _conditions(inputs: Inputs, side: str) -> VentConditions:
    def text(name: str) -> str:
        return str(inputs.get(f"{side}_{name}", LEFT_OUT))

    return VentConditions(
        optional(inputs, f"{side}_ambient"),
        _humidity(inputs.get(f"{side}_humidity", LEFT_OUT)),
        optional(inputs, f"{side}_speed"),
        text("fan"),
        text("doors"),
        text("recirculation"),
        optional(inputs, f"{side}_run"),
    )


def _change(inputs: Inputs) -> tuple[Measured, str] | None:
    read = [optional(inputs, f"{side}_vent") for side in SIDES]
    u = float(inputs["thermometer"]) / math.sqrt(3)
    measured = [Measured(one, u) for one in read if one is not None]
    if len(measured) < 2:
        return None
    change, way = vent_change(measured[0], measured[1])
    words = WAYS[way].format(with_unit(shown(abs(change.value), 1), "K"))
    return change, words


def _comparable(inputs: Inputs) -> Result:
    first, second = (_conditions(inputs, side) for side in SIDES)
    found = compare_conditions(first, second)
    change = _change(inputs) if found.verdict == "comparable" else None
    more = {
        "differing": Result(len(found.differs), ""),
        "not_noted": Result(len(found.missing), ""),
    }
    if change:
        more["vent_change"] = Result(change[0].value, "ΔK", change[0].u)
    words = (VERDICTS[found.verdict], *found.why, *(change[1:] if change else ()))
    return Result(
        float(found.verdict == "comparable"), "", meaning=" ".join(words), basis=LIMITS, more=more
    )


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "vent_comparable",
        "Whether two vent temperatures were read under the same conditions: 1 comparable, else 0",
        (*chain.from_iterable(map(_inputs, SIDES)), ERRORS[0]),
        "",
        SOURCE,
        _comparable,
    ),
)
