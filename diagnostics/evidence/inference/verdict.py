"""How each answer stands after all tests, and what carries it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from diagnostics.evidence.findings import Standing
from diagnostics.evidence.inference.ahead import Ahead
from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.factors import Array, Factor
from diagnostics.evidence.inference.model import Model
from diagnostics.evidence.inference.network import OTHER, Variable
from diagnostics.evidence.inference.states import Sliced, without_barren
from diagnostics.evidence.inference.told import Told

PROVED = 0.99
LIKELY = 0.8
RULED_OUT = 0.01
FELL = 5.0  # by how much tests must have cut the odds of what they rule out: our judgement
ROSE = 2.0  # the odds of what is proved have risen by as much: our judgement
BEARS = 1.5  # a step that changes the odds by less is not named: our judgement
NOT_OK = "not_ok"
# What a standing is lost by: below it, or above it where it was ruled out. Our judgement.
FALLS: Mapping[str, float] = {"proved": LIKELY, "likely": 0.5, "ruled_out": 0.1}

Cures = Mapping[str, Sequence[str]]  # {variable: its answers}


@dataclass(frozen=True)
class Carries:
    """One kind's weight on an answer: by how much it changes the odds, above 1 for it."""

    kind: str
    steps: tuple[int, ...]
    odds: float


@dataclass(frozen=True)
class Stands:
    """How an answer, or any of a set of answers, stands. `share` is never shown to a customer.

    `weaker` is its standing if every test counted for a third; `alone` names the one kind it rests
    on, if without that one it would stand lower. `code` is NOT_OK for any answer but "ok", empty
    for a set over several variables.
    """

    variable: str
    code: str
    standing: Standing
    share: float
    weaker: Standing
    carried: tuple[Carries, ...]
    alone: str = ""


@dataclass(frozen=True)
class Weighed:
    """A job's tests put into the network of its car."""

    sliced: Sliced
    told: tuple[Told, ...]

    @cached_property
    def model(self) -> Model:
        """The network without what nothing hangs on."""
        return without_barren(self.sliced, [one.factor for one in self.told])

    @property
    def plain(self) -> Model:
        """The network of one car state: the variables people ask for, by their own names."""
        return self.sliced.plain

    @cached_property
    def now(self) -> Belief:
        """After everything that was told."""
        factors = [one.factor for one in self.told]
        return Belief(self.model.sizes, [*self.model.factors, *factors])

    @cached_property
    def before(self) -> Belief:
        """Before anything was told, of the car with all its states."""
        together = [one.factor.names for one in self.told]
        return Belief(self.model.sizes, self.model.factors, together)

    @cached_property
    def weak(self) -> Belief:
        """The same if every test counted for a third."""
        factors = [one.weaker() for one in self.told]
        return Belief(self.model.sizes, [*self.model.factors, *factors])

    @cached_property
    def without(self) -> Mapping[str, Array]:
        """For each variable its shares as they would be without each kind told, a row a kind.

        Nothing is impossible, so a table is taken back by dividing by it.
        """
        latest = {one.name: self.sliced.latest[one.name] for one in self.plain.variables}
        tables = [Factor(one.factor.names, 1 / one.factor.values) for one in self.told]
        ahead = Ahead(self.now, latest.values())
        back = [ahead.after(table)[1] for table in tables]
        rows = {name: [shares[since] for shares in back] for name, since in latest.items()}
        answers = self.plain.answers
        return {
            name: np.concatenate([np.zeros([0, len(answers[name])]), *found])
            for name, found in rows.items()
        }

    def shares(self, variable: str) -> Array:
        """The shares of a variable's answers now."""
        shares: Array = self.now.of([self.sliced.latest[variable]])[0]
        return shares

    def share(self, variable: str, codes: Sequence[str]) -> float:
        """How likely it is that the variable has one of these answers now."""
        return float(self.shares(variable)[self._at(variable, codes)].sum())

    def joint(self, true: Cures) -> float:
        """How likely it is that each of these variables has one of its answers, all together."""
        return float(self.now.share(*self._masks(true))[0])

    def _masks(self, true: Cures) -> list[Factor]:
        latest = self.sliced.latest
        return [
            Factor((latest[name],), self.plain.mask(name, tuple(codes)).values)
            for name, codes in true.items()
        ]

    def _at(self, variable: str, codes: Sequence[str]) -> list[int]:
        there = self.plain.answers[variable]
        return [there.index(code) for code in codes if code in there]

    def everything(self) -> list[Stands]:
        """Each answer of each variable that people ask for, and that it is not in order."""
        return [
            stands
            for variable in self.plain.variables
            for stands in self._of_variable(variable.name)
        ]

    def _of_variable(self, name: str) -> Iterable[Stands]:
        codes = self.plain.answers[name]
        proved = self._proved(name, self.now), self._proved(name, self.weak)
        for code in codes:
            yield self._stands({name: (code,)}, name, code, proved)
        yield self._stands({name: self.faults(name)}, name, NOT_OK, proved)

    def faults(self, name: str) -> tuple[str, ...]:
        """What can be wrong in a variable: neither "ok" nor what is rightly so."""
        rightly = {one.code for one in self._variable(name).answers if one.rightly}
        codes = self.plain.answers[name]
        return tuple(code for code in codes if code != "ok" and code not in rightly)

    def of_set(self, cures: Cures) -> Stands:
        """How it stands that any of these answers is true."""
        there = {
            name: tuple(code for code in codes if code in self.plain.answers[name])
            for name, codes in cures.items()
            if name in self.plain.answers
        }
        name = next(iter(there)) if len(there) == 1 else ""
        proved = (self._proved(name, self.now), self._proved(name, self.weak)) if name else ("", "")
        found = self._stands(there, name, "", proved)
        single = name and len(there[name]) == 1 and there[name] != ("ok",)
        return replace(found, standing=as_single(found)) if single else found

    def _stands(self, cures: Cures, variable: str, code: str, proved: tuple[str, str]) -> Stands:
        share, weaker = self._any(self.now, cures)[0], self._any(self.weak, cures)[0]
        cases = self._each_without(cures)
        carried = self._carrying(float(share), cases)
        speaks = self._speaks(cures, code)
        # What several tests tell alike no single one of them carries, and yet all of them do.
        alike = speaks and self._rose(float(share), cures)
        tested = alike or any(one.odds > 1 for one in carried)
        standing, weaker_standing = (
            without_test(self._stand(float(chance), cures, speaks, rival), tested)
            for chance, rival in zip((share, weaker), proved, strict=True)
        )
        alone = self._rests_on_one(standing, cases)
        one = Stands(variable, code, standing, float(share), weaker_standing, carried, alone)
        return one if code in (NOT_OK, "ok", "") else replace(one, standing=as_single(one))

    def _any(self, belief: Belief, cures: Cures) -> Array:
        """How likely any of the answers is, one number a case."""
        if not cures:
            return np.zeros(1)
        if len(cures) == 1:
            (name, codes), latest = next(iter(cures.items())), self.sliced.latest
            single: Array = belief.of([latest[name]])[:, self._at(name, codes)].sum(axis=1)
            return single
        none = {
            name: [code for code in self.plain.answers[name] if code not in codes]
            for name, codes in cures.items()
        }
        some: Array = 1 - belief.share(*self._masks(none))
        return some

    def _each_without(self, cures: Cures) -> Array:
        """How likely any of the answers is without each kind told, one number a kind."""
        if len(cures) == 1:
            name, codes = next(iter(cures.items()))
            single: Array = self.without[name][:, self._at(name, codes)].sum(axis=1)
            return single
        back = [Factor(one.factor.names, 1 / one.factor.values) for one in self.told]
        return np.array([self._any(self.now.also([one]), cures)[0] for one in back])

    def _speaks(self, cures: Cures, code: str) -> bool:
        """Whether a test named one of the answers; that it is not in order is named by any.

        In order is more than that: what only a look can rule out was looked at, too.
        """
        named = any(
            one.speaks_of(name, single)
            for one in self.told
            for name, codes in cures.items()
            for single in codes
        )
        if code != "ok" or not named:
            return named
        name = next(iter(cures))
        looked = [one for one in self.plain.answers[name] if self._only({name: [one]})]
        return all(any(one.speaks_of(name, single) for one in self.told) for single in looked)

    def _stand(self, share: float, cures: Cures, speaks: bool, proved: str) -> Standing:
        """`speaks`: a test named it; `proved`: the answer of its variable that is proved."""
        if share >= PROVED and speaks and self._rose(share, cures):
            return "proved"
        if cures == dict.fromkeys(cures, (OTHER,)):
            return "likely" if share >= LIKELY else "open"  # no list is ever complete
        rival = bool(proved) and not self._only_looked_at(cures)
        rival = rival and (proved == "ok" or not self._beside(cures))
        spoken = self._each_spoken(cures) and self._fell(share, cures)
        if share <= RULED_OUT and (spoken or rival):
            return "ruled_out"
        return "likely" if share >= LIKELY else "open"

    def _rose(self, share: float, cures: Cures) -> bool:
        """Whether the tests made it likelier: what nearly every car has is not shown by that."""
        return odds(share) >= ROSE * odds(float(self._any(self.before, cures)[0]))

    def _fell(self, share: float, cures: Cures) -> bool:
        """Whether the tests made it less likely by a good part: what is rare is not ruled out."""
        at_first = [odds(float(self._any(self.before, cures)[0]))]
        without = [odds(float(case)) for case in self._each_without(cures)]
        spoke = [
            odd
            for one, odd in zip(self.told, without, strict=True)
            if any(one.speaks_of(name, code) for name, codes in cures.items() for code in codes)
            or any(one.speaks_of(name, "ok") for name in cures)
        ]
        return max(at_first + spoke) >= FELL * odds(share)

    def _each_spoken(self, cures: Cures) -> bool:
        """Whether tests named every answer of the set, or that its variable is in order.

        That it is in order is denied by a test that names any fault of it.
        """
        return all(
            any(one.speaks_of(name, code) for one in self.told)
            or (code == "ok" and self._speaks({name: self.faults(name)}, ""))
            or (not self._only({name: [code]}) and self._shows_order(name))
            for name, codes in cures.items()
            for code in codes
        )

    def _shows_order(self, name: str) -> bool:
        """Whether tests that name it made it likelier that a variable is in order.

        One that found a fault looked at that fault, not at what else is fitted there.
        """
        ok = {name: ("ok",)}
        now, before = (float(self._any(one, ok)[0]) for one in (self.now, self.before))
        return self._speaks(ok, "") and odds(now) > odds(before)

    def _only_looked_at(self, cures: Cures) -> bool:
        """Whether one of the answers can be ruled out by nothing but a look at it."""
        return any(self._only({name: [code]}) for name, codes in cures.items() for code in codes)

    def _beside(self, cures: Cures) -> bool:
        """Whether one of the answers may be there beside another one of its variable."""
        return any(
            self._variable(name).answer(code).beside
            for name, codes in cures.items()
            for code in codes
        )

    def _only(self, one: Cures) -> bool:
        return any(
            self._variable(name).answer(code).looked_at
            for name, codes in one.items()
            for code in codes
        )

    def _variable(self, name: str) -> Variable:
        return next(one for one in self.plain.variables if one.name == name)

    def _proved(self, name: str, belief: Belief) -> str:
        """The answer of the variable that is proved, or empty."""
        shares = belief.of([self.sliced.latest[name]])[0]
        best = self.plain.answers[name][int(shares.argmax())]
        named = any(one.speaks_of(name, best) for one in self.told)
        return best if shares.max() >= PROVED and named else ""

    def _carrying(self, share: float, cases: Array) -> tuple[Carries, ...]:
        """The kinds that bear on an answer, the strongest first."""
        found = [
            Carries(one.kind, one.steps, odds(share) / odds(float(case)))
            for one, case in zip(self.told, cases, strict=True)
        ]
        bearing = [one for one in found if max(one.odds, 1 / one.odds) >= BEARS]
        return tuple(sorted(bearing, key=lambda one: -max(one.odds, 1 / one.odds)))

    def _rests_on_one(self, standing: Standing, cases: Array) -> str:
        """The one kind without which it would stand lower; empty: several carry it, or none."""
        if standing == "open":
            return ""
        least = FALLS[standing]
        falls = [
            one.kind
            for one, case in zip(self.told, cases, strict=True)
            if (case > least if standing == "ruled_out" else case < least)
        ]
        return falls[0] if len(falls) == 1 else ""


def without_test(standing: Standing, tested: bool) -> Standing:
    """What no test speaks for is not likely, however usual: a missing reading is no pass."""
    return standing if tested or standing != "likely" else "open"


def as_single(one: Stands) -> Standing:
    """One answer that rests on one test of usual strength is likely, not proved.

    It names a part to buy, and one such test is too little for that.
    """
    weak = one.standing == "proved" != one.weaker
    return "likely" if weak and one.alone else one.standing


def odds(share: float) -> float:
    """For against against, bounded so that certainty has a number."""
    kept = min(max(share, 1e-12), 1 - 1e-12)
    return kept / (1 - kept)
