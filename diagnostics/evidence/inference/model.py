"""The network of one car: the variables it has, with their answers, and the tables between them."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.factors import Array, Factor
from diagnostics.evidence.inference.network import (
    BEFORE,
    BETWEEN,
    COUPLINGS,
    VARIABLES,
    Variable,
)
from diagnostics.evidence.system import System, can_be_such


@dataclass(frozen=True)
class Model:
    """`answers` has the codes of each variable this car has; `factors` make their joint shares.

    `usual` are the shares of a variable's answers where nothing sets them apart.
    """

    system: System
    answers: Mapping[str, tuple[str, ...]]
    usual: Mapping[str, Mapping[str, float]]
    factors: tuple[Factor, ...]
    # Tables worked out for these answers, by who asked for them; the asker is kept with its table.
    memo: dict[int, tuple[object, Array]] = field(default_factory=dict, compare=False, repr=False)

    @property
    def sizes(self) -> dict[str, int]:
        """How many answers each variable has."""
        return {name: len(codes) for name, codes in self.answers.items()}

    @property
    def variables(self) -> tuple[Variable, ...]:
        """Those that people ask for."""
        return tuple(one for one in VARIABLES if one.name in self.answers)

    @cached_property
    def out_of_order(self) -> dict[str, float]:
        """How likely each variable that people ask for is out of order before any test."""
        before = Belief(self.sizes, self.factors)
        return {
            one.name: 1 - float(before.alone(one.name)[0][self.at(one.name, "ok")])
            for one in self.variables
        }

    def mask(self, name: str, codes: tuple[str, ...]) -> Factor:
        """A table of 1 and 0: the variable has one of these answers."""
        return Factor.of([name], [1.0 if code in codes else 0.0 for code in self.answers[name]])

    def at(self, name: str, code: str) -> int:
        """Where an answer stands on its variable's axis."""
        return self.answers[name].index(code)


def model_of(system: System) -> Model:
    """The network of a car with that system; what is not known of it takes nothing out."""
    return _model_of(json.dumps(system, sort_keys=True))


@lru_cache(maxsize=64)
def _model_of(told: str) -> Model:
    system: System = json.loads(told)
    there = [one for one in VARIABLES if can_be_such(one.on, system)]
    answers = {**BETWEEN, **{one.name: one.codes(system) for one in there}}
    usual = {one.name: usual_shares(one, answers[one.name]) for one in there}
    usual["worked_before"] = BEFORE
    factors = [
        coupled(name, answers, usual.get(name)) if name in COUPLINGS else alone(name, usual[name])
        for name in answers
    ]
    factors.append(
        Factor.of(["cools"], [0.0 if code == "yes" else 1.0 for code in answers["cools"]])
    )
    return Model(system, answers, usual, tuple(factors))


def usual_shares(variable: Variable, codes: tuple[str, ...]) -> dict[str, float]:
    """The shares of the answers that this car can have, "ok" taking what the others leave."""
    shares = {code: variable.answer(code).share for code in codes}
    others = sum(share for code, share in shares.items() if code != "ok")
    return shares | {"ok": 1 - others}


def alone(name: str, shares: Mapping[str, float]) -> Factor:
    """The table of a variable that hangs on no other."""
    return Factor.of([name], list(shares.values()))


def coupled(
    name: str, answers: Mapping[str, tuple[str, ...]], usual: Mapping[str, float] | None
) -> Factor:
    """The table of a variable that hangs on others."""
    rows = COUPLINGS[name]
    given = rows.there(answers)
    return Factor.of([*given, name], rows.shares(answers, answers[name], usual))
