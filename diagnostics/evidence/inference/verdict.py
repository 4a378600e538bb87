"""How each answer stands after all tests, what carries it, and what would overturn it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.factors import Array, Factor
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.model import Model

Standing = Literal["proved", "likely", "open", "ruled_out"]
PROVED = 0.99
LIKELY = 0.8
RULED_OUT = 0.01
WEAKER = 3.0
BEARS = 1.5  # a step that changes the odds by less is not named: our judgement


@dataclass(frozen=True)
class Told:
    """What all tests of one kind told together: their numbers, the table, what it names."""

    looks: Looks
    steps: tuple[int, ...]
    factor: Factor

    def weaker(self) -> Factor:
        """The same with its strength three times smaller: nothing is told apart by as much."""
        values = np.minimum(self.factor.values * WEAKER, 1.0)
        return Factor(self.factor.names, values)

    def speaks_of(self, variable: str, code: str) -> bool:
        """Whether the kind names this answer itself."""
        return code in self.looks.direct.get(variable, ())


@dataclass(frozen=True)
class Carries:
    """One kind's weight on an answer: by how much it changes the odds, above 1 for it."""

    kind: str
    steps: tuple[int, ...]
    odds: float


@dataclass(frozen=True)
class Stands:
    """How one answer of a variable stands. `share` is never shown to a customer.

    `weaker` is its standing if every test counted for a third; `alone` names the one kind it rests
    on, if without that one it would stand lower.
    """

    variable: str
    code: str
    standing: Standing
    share: float
    weaker: Standing
    carried: tuple[Carries, ...]
    alone: str = ""


def verdict(model: Model, told: Sequence[Told]) -> list[Stands]:
    """Every answer of every variable that people ask for."""
    now = Belief(model.sizes, [*model.factors, *(one.factor for one in told)])
    weak = Belief(model.sizes, [*model.factors, *(one.weaker() for one in told)])
    without = left_out(model, told)
    return [
        stands
        for variable in model.variables
        for stands in of_variable(model, variable.name, told, now, weak, without)
    ]


def left_out(model: Model, told: Sequence[Told]) -> Belief | None:
    """As many cases as kinds told, each without one of them; None: nothing was told."""
    if not told:
        return None
    cases = []
    for at, one in enumerate(told):
        values = np.repeat(one.factor.values, len(told), axis=0)
        values[at] = 1.0
        cases.append(Factor(one.factor.names, values))
    return Belief(model.sizes, [*model.factors, *cases])


def of_variable(
    model: Model,
    name: str,
    told: Sequence[Told],
    now: Belief,
    weak: Belief,
    without: Belief | None,
) -> Iterable[Stands]:
    """Each answer of one variable."""
    shares, weaker = now.of([name])[0], weak.of([name])[0]
    cases = np.zeros([0, len(shares)])
    if without:
        cases = np.broadcast_to(without.of([name]), [len(told), len(shares)])
    codes = model.answers[name]
    for at, code in enumerate(codes):
        speaks = [one.speaks_of(name, code) for one in told]
        carried = carrying(told, shares[at], cases[:, at])
        standing = stand(shares, at, any(speaks), rival_spoken(name, codes, shares, told))
        weak_standing = stand(weaker, at, any(speaks), rival_spoken(name, codes, weaker, told))
        yield Stands(
            name,
            code,
            standing,
            float(shares[at]),
            weak_standing,
            carried,
            rests_on_one(standing, cases, at, told),
        )


def stand(shares: Array, at: int, speaks: bool, rival: int | None) -> Standing:
    """The standing of one answer. `speaks`: a test named it; `rival`: an answer that is proved."""
    if shares[at] >= PROVED and speaks:
        return "proved"
    if shares[at] <= RULED_OUT and (speaks or (rival is not None and rival != at)):
        return "ruled_out"
    return "likely" if shares[at] >= LIKELY else "open"


def rival_spoken(
    name: str, codes: Sequence[str], shares: Array, told: Sequence[Told]
) -> int | None:
    """The answer of the variable that is proved, or None."""
    best = int(shares.argmax())
    named = any(one.speaks_of(name, codes[best]) for one in told)
    return best if shares[best] >= PROVED and named else None


def carrying(told: Sequence[Told], share: float, cases: Array) -> tuple[Carries, ...]:
    """The kinds that bear on an answer, the strongest first."""
    found = [
        Carries(one.looks.kind, one.steps, odds(share) / odds(float(case)))
        for one, case in zip(told, cases, strict=True)
    ]
    bearing = [one for one in found if max(one.odds, 1 / one.odds) >= BEARS]
    return tuple(sorted(bearing, key=lambda one: -max(one.odds, 1 / one.odds)))


def odds(share: float) -> float:
    """For against against, bounded so that certainty has a number."""
    kept = min(max(share, 1e-12), 1 - 1e-12)
    return kept / (1 - kept)


def rests_on_one(standing: Standing, cases: Array, at: int, told: Sequence[Told]) -> str:
    """The one kind without which an answer would not stand so; empty: several carry it, or none."""
    if standing in ("open",) or not told:
        return ""
    least = {"proved": LIKELY, "likely": 0.5, "ruled_out": 0.1}[standing]
    falls = [
        one.looks.kind
        for one, case in zip(told, cases[:, at], strict=True)
        if (case > least if standing == "ruled_out" else case < least)
    ]
    return falls[0] if len(falls) == 1 else ""


def joint_share(now: Belief, model: Model, true: Mapping[str, Sequence[str]]) -> float:
    """How likely it is that each of these variables has one of these answers, all together."""
    return float(now.share(*(model.mask(name, tuple(codes)) for name, codes in true.items()))[0])
