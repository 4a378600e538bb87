"""How near the choice of tests comes to the best there is, on a network small enough to know that.

The best is found by working back from every set of outcomes there can be (dynamic programming):
decide, or make the test after which all that follows costs least.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.factors import Array
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.model import Model, alone, coupled, model_of
from diagnostics.evidence.inference.network import COUPLINGS, IN_BETWEEN
from diagnostics.evidence.inference.states import sliced
from diagnostics.evidence.inference.told import Test, told_by
from diagnostics.evidence.inference.verdict import Weighed
from diagnostics.evidence.inference.worth import tables_of
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.plan import Asked, minutes, plan
from diagnostics.evidence.system import System

SYSTEM = System(drive="belt_clutch", clutch="magnetic", displacement="fixed", branches=["front"])
NAMES = ("command", "clutch", "mechanics")
TESTS = ("known_good", "ground_drop", "coil_power", "hub_turn", "air_gap")
AT_MOST = 0.05

Made = tuple[tuple[str, int], ...]  # (kind, its outcome), in the order of TESTS
Choose = Callable[[Made], str]  # the next kind, empty: decide


@dataclass(frozen=True)
class Reduced:
    """A few variables and a few tests. All costs are expected ones, in minutes of a bay.

    `names` are the variables that tests and decisions are about; the model has those between, too.
    """

    names: tuple[str, ...]
    model: Model
    kinds: Mapping[str, Kind]
    tables: Mapping[str, Looks]

    @cached_property
    def prior(self) -> Array:
        """How likely each combination of answers is."""
        return Belief(self.model.sizes, self.model.factors, [self.names]).of(self.names).reshape(-1)

    @property
    def sizes(self) -> list[int]:
        """How many answers each of the variables has."""
        return [self.model.sizes[name] for name in self.names]

    @cached_property
    def strengths(self) -> Mapping[str, Array]:
        """For each test how often each outcome (second axis) is read at each combination."""
        return {name: self.over_all(looks) for name, looks in self.tables.items()}

    def over_all(self, looks: Looks) -> Array:
        """A test's table over all combinations of answers."""
        told = looks.read(self.model)
        given = looks.given(self.model)
        order = [given.index(name) for name in self.names if name in given]
        shape = [self.model.sizes[name] if name in given else 1 for name in self.names]
        turned = told.transpose([*order, told.ndim - 1]).reshape([*shape, told.shape[-1]])
        whole = np.broadcast_to(turned, [*self.sizes, told.shape[-1]])
        return whole.reshape(-1, told.shape[-1])

    @cached_property
    def losses(self) -> list[Array]:
        """For each variable what each decision (first axis) costs at each combination."""
        found = []
        for name, table in tables_of(self.weighed(())).items():
            shape = [table.shape[1] if one == name else 1 for one in self.names]
            spread = np.broadcast_to(table.reshape([-1, *shape]), [len(table), *self.sizes])
            found.append(spread.reshape(len(table), -1))
        return found

    def weighed(self, made: Made) -> Weighed:
        """The network after these outcomes."""
        network = sliced(self.model, ())
        tests = [
            Test(number, kind, self.tables[kind].outcomes[outcome], "yes")
            for number, (kind, outcome) in enumerate(made, start=1)
        ]
        return Weighed(network, tuple(told_by(network, tests, self.tables)))

    def setups(self, made: Made) -> frozenset[str]:
        """What stands after these tests."""
        return frozenset(one for kind, _ in made for one in self.kinds[kind].setup)

    def minutes(self, kind: str, made: Made) -> float:
        """What a test takes after these."""
        return minutes(self.kinds[kind], self.setups(made))

    def deciding(self, weights: Array) -> float:
        """What deciding costs where combinations weigh so much: the best for each variable."""
        return sum(float((table @ weights).min()) for table in self.losses)

    def program(self, made: Made) -> str:
        """The program's own choice."""
        done = frozenset(kind for kind, _ in made)
        asked = Asked(self.model.system, done=done, setups=self.setups(made))
        best = plan(self.weighed(made), asked, self.kinds, self.tables).best
        return best.kind if best else ""


def optimum(reduced: Reduced) -> float:
    """The least that tests and decision can cost."""
    known: dict[Made, float] = {}

    def least(made: Made, weights: Array) -> float:
        if made not in known:
            costs = [reduced.deciding(weights)]
            for kind in left(reduced, made):
                time = reduced.minutes(kind, made) * float(weights.sum())
                costs.append(time + sum(least(*one) for one in after(reduced, made, weights, kind)))
            known[made] = min(costs)
        return known[made]

    return least((), reduced.prior)


def expected(reduced: Reduced, choose: Choose) -> float:
    """What tests and decision cost where tests are chosen so."""

    def cost(made: Made, weights: Array) -> float:
        kind = choose(made)
        if not kind:
            return reduced.deciding(weights)
        time = reduced.minutes(kind, made) * float(weights.sum())
        return time + sum(cost(*one) for one in after(reduced, made, weights, kind))

    return cost((), reduced.prior)


def left(reduced: Reduced, made: Made) -> list[str]:
    """The tests not made yet."""
    done = {kind for kind, _ in made}
    return [kind for kind in reduced.tables if kind not in done]


def after(reduced: Reduced, made: Made, weights: Array, kind: str) -> list[tuple[Made, Array]]:
    """Every outcome of a test: what was made then, and what each combination weighs."""
    strengths = reduced.strengths[kind]
    order = list(reduced.tables)
    return [
        (
            tuple(sorted((*made, (kind, at)), key=lambda one: order.index(one[0]))),
            weights * strengths[:, at],
        )
        for at in range(strengths.shape[1])
    ]


def reduced_to(
    names: Sequence[str], tests: Sequence[str], kinds: Mapping[str, Kind],
    tables: Mapping[str, Looks],
) -> Reduced:  # fmt: skip
    """The network of SYSTEM with these variables alone; every other one is in order.

    So it is one of them for which the car came.
    """
    whole = model_of(SYSTEM)
    there = (*names, *IN_BETWEEN)
    answers = {name: codes for name, codes in whole.answers.items() if name in there}
    usual = {name: whole.usual[name] for name in names}
    factors = [
        coupled(name, answers, usual.get(name)) if name in COUPLINGS else alone(name, usual[name])
        for name in answers
    ]
    came = [factor for factor in whole.factors if factor.names == ("cools",)]
    return Reduced(
        tuple(names),
        Model(SYSTEM, answers, usual, (*factors, *came)),
        {name: kinds[name] for name in tests},
        {name: tables[name] for name in tests},
    )


def compared(kinds: Mapping[str, Kind], tables: Mapping[str, Looks]) -> dict[str, Any]:
    """The program's choice held to the best one, on the network of NAMES and TESTS."""
    reduced = reduced_to(NAMES, TESTS, kinds, tables)
    best, at_once = optimum(reduced), reduced.deciding(reduced.prior)
    cost = expected(reduced, reduced.program)
    above = (cost - best) / (at_once - best)
    return {
        "variables": list(NAMES), "tests": list(TESTS), "cost": round(cost, 4),
        "optimum": round(best, 4), "at_once": round(at_once, 4), "above": round(above, 6),
        "at_most": AT_MOST, "kept": above < AT_MOST,
    }  # fmt: skip
