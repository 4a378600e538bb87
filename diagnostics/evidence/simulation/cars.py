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

# What comes into a bay: how many of a hundred. Our judgement.
FITTED: tuple[tuple[float, System], ...] = (
    (34, System(drive="belt_clutch", clutch="magnetic", displacement="fixed", branches=["front"])),
    (5, System(drive="belt_clutch", clutch="magnetic", displacement="fixed", branches=["front", "rear"])),
    (18, System(drive="belt_clutch", clutch="magnetic", displacement="variable_inner", branches=["front"])),
    (8, System(drive="belt_clutch", clutch="magnetic", displacement="variable_outer", branches=["front"])),
    (3, System(drive="belt_clutch", clutch="magnetic", displacement="variable_outer", branches=["front", "rear"])),
    (18, System(drive="belt_clutchless", clutch="none", displacement="variable_outer", branches=["front"])),
    (7, System(drive="electric_hv", clutch="none", displacement="speed", branches=["front", "battery"])),
    (3, System(drive="electric_hv", clutch="none", displacement="speed", branches=["front"])),
    (2, System(drive="electric_48", clutch="none", displacement="speed", branches=["front"])),
    (2, System(drive="belt_electric", clutch="magnetic", displacement="fixed", branches=["front"])),
)  # fmt: skip


@dataclass(frozen=True)
class Car:
    """A car with its hidden answers, those in between included; a variable it has not is not there.

    `beyond` is the variable whose true cause is in no list, or empty. `dice` has two numbers from
    0 to 1 for each kind of test, so that a test reads the same whoever makes it when.
    """

    system: System
    answers: Mapping[str, str]
    beyond: str
    dice: Mapping[str, tuple[float, float]]
    key: tuple[int, int]


def model_for(fitted: int) -> Model:
    """The network of one of the cars of FITTED."""
    return _models()[fitted]


@lru_cache(maxsize=1)
def _models() -> tuple[Model, ...]:
    return tuple(model_of(system) for _, system in FITTED)


def draw(key: tuple[int, int], world: World, kinds: Iterable[str]) -> Car:
    """The campaign's car of that number: one in which something is not in order."""
    rng = np.random.default_rng(key)
    shares = np.array([share for share, _ in FITTED])
    while True:
        fitted = chosen(shares / shares.sum(), rng.random())
        model = model_for(fitted)
        beyond = cause_beyond(model, rng) if rng.random() < world.beyond else ""
        answers = hidden(model, world, rng, beyond)
        if any(answers[one.name] != "ok" for one in model.variables):
            dice = {kind: (float(rng.random()), float(rng.random())) for kind in kinds}
            return Car(FITTED[fitted][1], answers, beyond, dice, key)


def cause_beyond(model: Model, rng: np.random.Generator) -> str:
    """The variable whose cause no list has: each as often as something is wrong in it at all."""
    names = [one.name for one in model.variables if OTHER in model.answers[one.name]]
    wrong = np.array([1 - model.usual[name]["ok"] for name in names])
    return names[chosen(wrong / wrong.sum(), rng.random())]


def hidden(
    model: Model, world: World, rng: np.random.Generator, beyond: str = ""
) -> dict[str, str]:
    """Every variable's answer, those on which others hang first."""
    found: dict[str, str] = {}
    waiting = {factor.names[-1]: factor.names[:-1] for factor in model.factors}
    while waiting:
        for name, given in list(waiting.items()):
            if set(given) <= set(found):
                del waiting[name]
                codes = model.answers[name]
                at = chosen(answer_shares(model, world, name, found), rng.random())
                found[name] = OTHER if name == beyond else codes[at]
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
