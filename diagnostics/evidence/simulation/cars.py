"""Cars that do not cool, drawn from the network: what is fitted, and what is hidden in them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from diagnostics.evidence.inference.factors import Array
from diagnostics.evidence.inference.model import Model, model_of
from diagnostics.evidence.inference.network import COUPLINGS, OTHER, VARIABLES
from diagnostics.evidence.inference.rows import filled
from diagnostics.evidence.simulation.worlds import World, row_of
from diagnostics.evidence.system import System

CLUTCHED = System(drive="belt_clutch", clutch="magnetic")
CLUTCHLESS = System(drive="belt_clutchless", clutch="none")
HIGH_VOLTAGE = System(drive="electric_hv", clutch="none", displacement="speed")
LOW_VOLTAGE = System(drive="electric_48", clutch="none", displacement="speed")
BOTH = System(drive="belt_electric", clutch="magnetic", displacement="fixed")
# What comes into a bay: how many of a hundred. Our judgement.
FITTED: tuple[tuple[float, System], ...] = (
    (34, System(**CLUTCHED, displacement="fixed", branches=["front"])),
    (5, System(**CLUTCHED, displacement="fixed", branches=["front", "rear"])),
    (18, System(**CLUTCHED, displacement="variable_inner", branches=["front"])),
    (8, System(**CLUTCHED, displacement="variable_outer", branches=["front"])),
    (3, System(**CLUTCHED, displacement="variable_outer", branches=["front", "rear"])),
    (18, System(**CLUTCHLESS, displacement="variable_outer", branches=["front"])),
    (7, System(**HIGH_VOLTAGE, branches=["front", "battery"])),
    (3, System(**HIGH_VOLTAGE, branches=["front"])),
    (2, System(**LOW_VOLTAGE, branches=["front"])),
    (2, System(**BOTH, branches=["front"])),
)


@dataclass(frozen=True)
class Car:
    """A car with its hidden answers, those in between included; a variable it has not is not there.

    `beyond` is the variable whose true cause is in no list, or empty. `dice` has two numbers from
    0 to 1 for each kind of test, so that a test reads the same whoever makes it when.
    """

    system: System
    answers: Mapping[str, str]
    beyond: str
    dice: Mapping[str, tuple[float, ...]]
    key: tuple[int, int]


def model_for(fitted: int) -> Model:
    """The network of one of the cars of FITTED."""
    return _models()[fitted]


@lru_cache(maxsize=1)
def _models() -> tuple[Model, ...]:
    return tuple(model_of(system) for _, system in FITTED)


def draw(key: tuple[int, int], world: World, kinds: Iterable[str]) -> Car:
    """The campaign's car of that number: one that does not cool."""
    rng = np.random.default_rng(key)
    shares = np.array([share for share, _ in FITTED])
    while True:
        fitted = chosen(shares / shares.sum(), rng.random())
        model = model_for(fitted)
        beyond = cause_beyond(model, rng) if rng.random() < world.beyond else ""
        answers = hidden(model, world, rng, beyond)
        if answers["cools"] == "no":
            dice = {kind: tuple(map(float, rng.random(3))) for kind in kinds}
            return Car(FITTED[fitted][1], answers, beyond, dice, key)


def cause_beyond(model: Model, rng: np.random.Generator) -> str:
    """The variable whose cause no list has: each as often as something is wrong in it at all."""
    names = [one.name for one in model.variables if OTHER in model.answers[one.name]]
    wrong = np.array([1 - model.usual[name]["ok"] for name in names])
    return names[chosen(wrong / wrong.sum(), rng.random())]


def hidden(
    model: Model, world: World, rng: np.random.Generator, beyond: str = ""
) -> dict[str, str]:
    """Every variable's answer, those on which others hang first, whether the car cools or not."""
    found: dict[str, str] = {}
    waiting = {
        name: COUPLINGS[name].there(model.answers) if name in COUPLINGS else ()
        for name in model.answers
    }
    while waiting:
        for name, given in list(waiting.items()):
            if set(given) <= set(found):
                del waiting[name]
                at = chosen(answer_shares(model, world, name, found), rng.random())
                found[name] = OTHER if name == beyond else model.answers[name][at]
    return found


def answer_shares(model: Model, world: World, name: str, given: Mapping[str, str]) -> Array:
    """How often each answer of a variable comes in that world, given those it hangs on."""
    codes, usual = model.answers[name], model.usual.get(name)
    if name not in COUPLINGS:
        shares = [model.usual[name][code] for code in codes]
        return world.shaken(name, codes, shares)
    rows = COUPLINGS[name]
    row, number = row_of(rows, {one: given[one] for one in rows.given if one in given})
    return world.shaken(f"{name} {number}", codes, filled(row.shares, codes, usual))


def chosen(shares: Array, die: float) -> int:
    """Where a number from 0 to 1 falls among shares."""
    return min(int(np.searchsorted(np.cumsum(shares), die, side="right")), len(shares) - 1)


RIGHTLY = {one.name: {a.code for a in one.answers if a.rightly} for one in VARIABLES}


def faults(car: Car) -> dict[str, str]:
    """What is broken or wrong in the car, by variable; what is rightly so is no fault."""
    return {
        one.name: car.answers[one.name]
        for one in VARIABLES
        if car.answers.get(one.name, "ok") not in ("ok", *RIGHTLY[one.name])
    }
