"""A case as data: a car, what was read on it, what was changed; as `evaluate` takes it.

`case.schema.json` beside this file describes it to other programs.
"""

import json
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

from diagnostics.evidence.bad_case import BadCase, chosen, listed, mapping, text, unknown
from diagnostics.evidence.case_prices import prices_of
from diagnostics.evidence.changed import DONE, FITTED, became, together
from diagnostics.evidence.charge_told import charge_known
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice, Number
from diagnostics.evidence.findings import Meaning
from diagnostics.evidence.inference.states import Changed
from diagnostics.evidence.inference.told import FAILING, Test
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.options.costing import Prices
from diagnostics.evidence.readings import Reading, Readings, parse
from diagnostics.evidence.system import System
from diagnostics.physics.errors import Malformed
from diagnostics.physics.units import UNITS, from_si, shown

TOP = (
    "name",
    "source",
    "car",
    "complaint",
    "failing_now",
    "car_states",
    "steps",
    "prices",
    "expect",
)
SYSTEM: Mapping[str, tuple[str, ...] | type] = {
    "drive": ("belt_clutch", "belt_clutchless", "electric_hv", "electric_48", "belt_electric"),
    "clutch": ("magnetic", "none"),
    "displacement": ("fixed", "variable_inner", "variable_outer", "speed"),
    "voltage": ("12", "24"),
    "switched_side": ("feed", "ground"),
    "refrigerant": ("R-134a", "R-1234yf", "R-12", "R-152a", "R-744", "other"),
    "branches": list,
    "label_charge_kg": float,
    "coil_ohm": float,
    "coil_ohm_source": str,
    "gap_low_m": float,
    "gap_high_m": float,
    "gap_source": str,
}
BRANCHES = ("front", "rear", "battery")
MOST = 400  # steps, or car states: more than any car sees, and each is held to each
CLOSES = ("closed", "evacuated", "charged", "topped_up")


@dataclass(frozen=True)
class Step:
    """One step of a case: its kind, its readings, or its outcome where only that was told.

    `meaning` is None where it could not be made, or where only its outcome was told.
    """

    number: int
    kind: Kind
    state: int
    failing: str
    readings: Readings
    outcome: str
    meaning: Meaning | None
    not_done: str = ""

    @property
    def weighs(self) -> bool:
        """Whether it says something: a normal result of a car that did not fail may, a little."""
        if not self.outcome:
            return False
        normal = self.kind.is_normal(self.outcome)
        return normal or self.meaning is None or self.meaning.outcome.carries

    @property
    def test(self) -> Test:
        """As the network takes it."""
        charge = charge_known(self.readings)
        return Test(self.number, self.kind.name, self.outcome, self.failing, self.state, charge)


@dataclass(frozen=True)
class Case:
    """`changes[n]` opened car state n + 1; `is_open`: the loop was left open, by what was told."""

    name: str
    system: System
    complaint: str
    failing: str
    changes: tuple[Changed, ...]
    steps: tuple[Step, ...]
    prices: Prices
    expect: Mapping[str, Any]
    is_open: bool = False


def case_of(plain: object, kinds: Mapping[str, Kind]) -> Case:
    """A case from its JSON, parsed.

    Raises:
        BadCase: something in it cannot be read.

    """
    told = mapping(plain, "The case")
    unknown(told, TOP, "The case")
    text(told, "source")
    system = system_of(mapping(told.get("car", {}), "car"))
    failing = chosen(told.get("failing_now", ""), FAILING, "failing_now")
    for name in ("steps", "car_states"):
        if len(listed(told, name)) > MOST:
            raise BadCase(f"{name} has more than {MOST}.")
    changes = [changed(one, at) for at, one in enumerate(listed(told, "car_states"), start=1)]
    steps = [
        step_of(one, number, kinds, system, failing, len(changes))
        for number, one in enumerate(listed(told, "steps"), start=1)
    ]
    return Case(
        text(told, "name"),
        system,
        text(told, "complaint"),
        failing,
        tuple(changes),
        tuple(steps),
        prices_of(mapping(told.get("prices", {}), "prices")),
        mapping(told.get("expect", {}), "expect"),
        left_open(listed(told, "car_states")),
    )


def system_of(told: Mapping[str, Any]) -> System:
    """The A/C of a case; what is left out is not known."""
    unknown(told, SYSTEM, "car")
    for name, value in told.items():
        allowed = SYSTEM[name]
        if isinstance(allowed, tuple):
            chosen(value, allowed, f"car.{name}")
        elif allowed is list:
            for one in listed(told, name):
                chosen(one, BRANCHES, "car.branches")
        elif allowed is float and (isinstance(value, bool) or not isinstance(value, int | float)):
            raise BadCase(f"car.{name} is {value!r}, and it is a number in SI units.")
        elif allowed is float and not 0 < value < math.inf:
            raise BadCase(f"car.{name} is not a number above zero.")
        elif allowed is str and not isinstance(value, str):
            raise BadCase(f"car.{name} is {value!r}, and it is a text.")
    return cast("System", dict(told))


def changed(told: object, at: int) -> Changed:
    """What opened a car state."""
    where = f"car_states[{at - 1}]"
    unknown(mapping(told, where), ("changes",), where)
    parts = listed(mapping(told, where), "changes")
    found = []
    for one in parts:
        change = mapping(one, f"{where}.changes")
        unknown(change, ("what", "part"), f"{where}.changes")
        what, part = text(change, "what"), text(change, "part")
        chosen(what, ("fitted", "adjusted", "other", *DONE), f"{where}: what")
        chosen(part, ("", "other", *FITTED), f"{where}: part")
        found.append(became(what, part))
    return together(found)


def left_open(states: Sequence[Mapping[str, Any]]) -> bool:
    """Whether the last that was done to the loop was to open it; of states that were read."""
    done = [one["what"] for state in states for one in listed(state, "changes")]
    of_loop = [what for what in done if what == "opened" or what in CLOSES]
    return of_loop[-1:] == ["opened"]


def step_of(
    told: object,
    number: int,
    kinds: Mapping[str, Kind],
    system: System,
    failing: str,
    states: int,
) -> Step:
    """One step."""
    where = f"steps[{number - 1}]"
    step = mapping(told, where)
    unknown(step, ("kind", "readings", "outcome", "failing_now", "state", "not_done"), where)
    kind = kinds[chosen(text(step, "kind"), kinds, f"{where}.kind")]
    then = chosen(step.get("failing_now", failing), FAILING, f"{where}.failing_now")
    state = step.get("state", 0)
    if not isinstance(state, int) or not 0 <= state <= states:
        raise BadCase(f"{where}.state is {state!r}; the car has the states 0 to {states}.")
    told = [name for name in ("readings", "outcome", "not_done") if name in step]
    if len(told) > 1:
        raise BadCase(f"{where} has {' and '.join(told)}; it can have one of them.")
    reasons = [reason.code for reason in kind.not_done]
    if "not_done" in step:
        reason = chosen(text(step, "not_done"), reasons, f"{where}.not_done")
        return Step(number, kind, state, then, {}, "", None, reason)
    if "outcome" in step:
        codes = [one.code for one in kind.outcomes]
        code = chosen(text(step, "outcome"), codes, f"{where}.outcome")
        if kind.forbids(system):  # it says nothing there, however it was told
            barred = kind.meaning({}, Circumstances(system, then))
            return Step(number, kind, state, then, {}, barred.outcome.code, barred)
        return Step(number, kind, state, then, {}, code, None)
    read = readings_of(mapping(step.get("readings", {}), f"{where}.readings"), kind, where)
    meaning = kind.meaning(read, Circumstances(system, then))
    return Step(number, kind, state, then, read, meaning.outcome.code, meaning)


def readings_of(told: Mapping[str, Any], kind: Kind, where: str) -> Readings:
    """The readings of a step: a code, a number in SI units, or {"value", "unit"}."""
    return {name: reading(kind, name, value, f"{where}.{name}") for name, value in told.items()}


def reading(kind: Kind, name: str, value: Any, where: str) -> Reading | str:
    """One reading of a field of the kind."""
    asked = kind.asked(name)
    if isinstance(asked, Number):
        if isinstance(value, Mapping):
            unknown(value, ("value", "unit"), where)
            return in_unit(str(value.get("value", "")), asked, str(value.get("unit", "")), where)
        if isinstance(value, int | float) and not isinstance(value, bool):
            try:
                typed = shown(from_si(value, asked.unit), 6).rstrip("0").rstrip(".")
            except (Malformed, OverflowError) as odd:
                raise BadCase(f"{where} is no number that can be read.") from odd
            return in_unit(typed or "0", asked, asked.unit, where)
        raise BadCase(f"{where} is {value!r}: give a number in SI units, or value and unit.")
    if isinstance(asked, Choice):
        return chosen(value, [answer.code for answer in asked.answers], where)
    if asked is None:
        names = ", ".join(one.name for one in kind.fields)
        raise BadCase(f"{where}: {kind.title} asks for no such thing; it asks for {names}.")
    if not isinstance(value, str):
        raise BadCase(f"{where} is {value!r}, and it is a text.")
    return value


def in_unit(typed: str, asked: Number, unit: str, where: str) -> Reading:
    """A number as typed in one of the field's units."""
    if unit not in UNITS:
        raise BadCase(f"{where}: no such unit {unit!r}; it is read in {' or '.join(asked.units)}.")
    try:
        return parse(typed, asked.units, unit)
    except Malformed as odd:
        raise BadCase(f"{where}: {odd}") from odd


def read_case(written: str, kinds: Mapping[str, Kind]) -> Case:
    """A case from its text.

    Raises:
        BadCase: it is no JSON, or something in it cannot be read.

    """
    try:
        plain = json.loads(written, parse_constant=no_number)
    except json.JSONDecodeError as odd:
        raise BadCase(f"It is no JSON: {odd}.") from odd
    except RecursionError as odd:
        raise BadCase("It is nested deeper than any case is.") from odd
    except BadCase:
        raise
    except ValueError as odd:
        raise BadCase("It has a number with more digits than any reading has.") from odd
    return case_of(plain, kinds)


def no_number(name: str) -> float:
    """What Python reads as a number and JSON has not: NaN and the infinities."""
    raise BadCase(f"It has {name}, and that is no number.")
