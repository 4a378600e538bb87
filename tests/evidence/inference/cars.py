"""Cars that the network tells apart, and what may be told of them."""

import random
from collections.abc import Mapping, Sequence
from itertools import product

from diagnostics.evidence.changed import DONE, FITTED, together
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.states import Changed
from diagnostics.evidence.inference.told import FAILING, Test
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import Verdict, weigh

DRIVES = ("belt_clutch", "belt_clutchless", "electric_hv", "electric_48", "belt_electric", "")
DISPLACEMENTS = ("fixed", "variable_inner", "variable_outer", "speed", "")
BRANCHES: tuple[list[str], ...] = (
    [],
    ["front"],
    ["front", "rear"],
    ["front", "battery"],
    ["front", "rear", "battery"],
)
CLUTCHED: System = {"drive": "belt_clutch", "displacement": "fixed", "branches": ["front"]}
BIGGEST: System = {
    "drive": "belt_electric",
    "clutch": "magnetic",
    "displacement": "variable_outer",
    "branches": ["front", "rear", "battery"],
}


def systems(drive: str) -> list[System]:
    """Every displacement and every set of branches with that drive; empty: not known."""
    return [
        {"drive": drive, "displacement": displacement, "branches": branches}
        for displacement, branches in product(DISPLACEMENTS, BRANCHES)
    ]


def cars() -> list[System]:
    """One car of every sort the network can tell apart, and one of which nothing is known."""
    return [
        {"drive": drive, "displacement": displacement, "branches": ["front", "rear"]}
        for drive, displacement in product(DRIVES, ("fixed", "variable_outer"))
    ]


def one_made(
    kind: str, outcome: str, number: int = 1, failing: str = "yes", state: int = 0
) -> Test:
    """A test with that outcome."""
    assert outcome in TABLES[kind].outcomes, (kind, outcome)
    return Test(number, kind, outcome, failing, state)


def made(*told: tuple[str, str]) -> list[Test]:
    """Tests of (kind, outcome), in that order, made while it failed."""
    return [one_made(kind, outcome, number) for number, (kind, outcome) in enumerate(told, 1)]


def verdict_on(
    tests: Sequence[Test], system: System = CLUTCHED, changes: Sequence[Changed] = ()
) -> Verdict:
    """The verdict with all tables."""
    return weigh(system, tests, changes, TABLES)


def verdict_after(*told: tuple[str, str], system: System = CLUTCHED) -> Verdict:
    """The verdict on a car after tests of (kind, outcome)."""
    return verdict_on(made(*told), system)


def made_at_random(
    dice: random.Random,
    states: int = 0,
    at_most: int = 8,
    tables: Mapping[str, Looks] = TABLES,
) -> list[Test]:
    """Tests with any outcome, some kinds repeated, the switch and the car's state mixed."""
    found: list[Test] = []
    for number in range(1, dice.randint(2, at_most) + 1):
        again = found and dice.random() < 0.35
        kind = dice.choice(found).kind if again else dice.choice(sorted(tables))
        outcome = dice.choice(tables[kind].outcomes)
        failing = dice.choice((*FAILING, "yes", "yes"))
        found.append(Test(number, kind, outcome, failing, dice.randint(0, states)))
    return found


def changes_at_random(dice: random.Random, count: int) -> list[Changed]:
    """So many car states, each opened by one change or two."""
    each = [*FITTED.values(), *DONE.values()]
    return [together(dice.choices(each, k=dice.randint(1, 2))) for _ in range(count)]
