"""What a kind of test looks at: how often each of its outcomes comes, whatever the car has.

`rows` are about the car: what would be read without a slip. A slip mostly looks like the normal
outcome (`misses`), seldom like another one (`alarms`); both are shares of all readings.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from diagnostics.evidence.inference.factors import Array, Factor
from diagnostics.evidence.inference.model import Model
from diagnostics.evidence.inference.network import VARIABLES
from diagnostics.evidence.inference.rows import Rows

FOR_GOOD: Mapping[str, tuple[str, ...]] = {
    one.name: tuple(answer.code for answer in one.answers if answer.for_good) for one in VARIABLES
}
TOUCHED = 0.01  # what is broken for good made contact just then: our judgement
AT_TIMES: Mapping[str, tuple[str, ...]] = {
    one.name: tuple(answer.code for answer in one.answers if answer.at_times) for one in VARIABLES
}
# What is looked at or measured by hand: a wrong tap or a slipped point. Our judgement.
MISSES = 0.02
ALARMS = 0.004


@dataclass(frozen=True)
class Looks:
    """The table of one kind. `normal` are the outcomes of a car in order, the likeliest first.

    `direct`: the answers that it names, by variable: it speaks of them, not of a consequence.
    `can_be_read`: how often anything can be read at all, by variable and answer, where that is not
    always: a drop under current hardly where no current flows. The variables are among those that
    its rows name. `tries`: outcomes of further ways of trying the same part. What one of them shows
    is true beside what another shows, so neither makes the other a slip. `vague`: outcomes that
    tell of the day or the instrument. `less`: outcomes that tell less, each with those that tell
    more of the same. Beside a reading that tells more they say nothing.
    """

    kind: str
    rows: Rows
    outcomes: tuple[str, ...]
    normal: tuple[str, ...]
    direct: Mapping[str, tuple[str, ...]]
    misses: float = MISSES
    alarms: float = ALARMS
    can_be_read: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    tries: tuple[tuple[str, ...], ...] = ()
    vague: tuple[str, ...] = ()
    less: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def slips(self) -> Array:
        """How often an outcome is read (second axis) where another one is true (first)."""
        count = len(self.outcomes)
        table = np.full([count, count], self.alarms / max(count - 1, 1))
        for at, code in enumerate(self.outcomes):
            if code not in self.normal:
                for calm in self.normal:
                    table[at, self.outcomes.index(calm)] += self.misses / len(self.normal)
            table[at, at] += 1 - table[at].sum()
        return table

    def true(self, model: Model) -> Array:
        """How often each outcome is true, the last axis; before it the variables looked at."""
        if id(self) not in model.memo:
            model.memo[id(self)] = (self, self.rows.shares(model.answers, self.outcomes))
        return model.memo[id(self)][1]

    def read(self, model: Model) -> Array:
        """How often each outcome is read, slips among them, the last axis; before it as in true."""
        found: Array = self.true(model) @ self.slips()
        return found

    def given(self, model: Model) -> tuple[str, ...]:
        """The variables it sees on that car, the axes of its table."""
        return self.rows.there(model.answers)

    def readable(self, model: Model) -> Array:
        """How often anything can be read: an axis for each variable looked at, the last of 1."""
        names = self.given(model)
        found = np.ones([1] * (len(names) + 1))
        for at, name in enumerate(names):
            shares = self.can_be_read.get(name, {})
            axis = np.array([shares.get(code, 1.0) for code in model.answers[name]])
            found = found * axis.reshape([-1 if one == at else 1 for one in range(len(names) + 1)])
        return found

    def told(
        self, model: Model, read: Sequence[str], failing: float = 1.0, *, comes: bool = False
    ) -> Factor:
        """How well each combination of answers fits what was read of this kind, several times.

        Readings of one way of trying hang on one true outcome, so they never count for more than
        the table says. Where it was tried in several ways, each counts by what else that way shows:
        which way was gone tells nothing.
        `failing` is the share to which the trouble was there at that moment: for the rest the car
        looks as one in order. `comes`: a test came out right while it did not fail and wrong while
        it did. What is broken for good looked so at both times; and what fails at times only
        was seen at its time, so its share of right readings has no part in the wrong one.
        """
        true = self.true(model) * self.readable(model)
        names = self.given(model)
        if failing < 1:
            calm = true[tuple(model.at(name, model.answers[name][0]) for name in names)]
            away = failing * true + (1 - failing) * calm
            stayed = (1 - TOUCHED) * true + TOUCHED * away
            true = np.where(self.where(model, FOR_GOOD), stayed, away) if comes else away
        elif comes and not {*read} & {*self.normal}:
            wrong = [code not in self.normal for code in self.outcomes]
            there = true * wrong
            there = there / there.sum(axis=-1, keepdims=True)
            true = np.where(self.where(model, AT_TIMES), there, true)
        strength = self.strength(true, read)
        return Factor.of(names, strength / strength.max())

    def where(self, model: Model, codes: Mapping[str, Sequence[str]]) -> npt.NDArray[np.bool_]:
        """Where one of these answers is true: axes as the table's, the last of 1."""
        names = self.given(model)
        found = np.zeros([1] * (len(names) + 1), dtype=bool)
        for at, name in enumerate(names):
            axis = np.array([code in codes.get(name, ()) for code in model.answers[name]])
            found = found | axis.reshape([-1 if one == at else 1 for one in range(len(names) + 1)])
        return found

    def strength(self, true: Array, read: Sequence[str]) -> Array:
        """How well what was read fits, by how often each outcome is true (the last axis)."""
        slips = self.slips()
        ways: dict[tuple[str, ...], list[int]] = {}
        for code in self.telling(read):
            ways.setdefault(self.way(code), []).append(self.outcomes.index(code))
        fits = {way: np.prod([slips[:, at] for at in told], axis=0) for way, told in ways.items()}
        if len(fits) == 1:
            whole: Array = true @ next(iter(fits.values()))
            return whole
        found: Array = np.ones(true.shape[:-1])
        for way, fit in fits.items():
            own = np.array([self.way(code) == way for code in self.outcomes])
            found = found * (true[..., own] @ fit[own]) / true[..., own].sum(axis=-1)
        return found

    def telling(self, read: Sequence[str]) -> list[str]:
        """What was read, without what another reading tells more of."""
        clear = [code for code in read if code not in self.vague]
        return [code for code in clear if not {*self.less.get(code, ())} & {*clear}] or [*read]

    def go_together(self, one: str, other: str) -> bool:
        """Whether two outcomes can both be right: read in two ways, or one tells less."""
        return self.way(one) != self.way(other) or len(self.telling((one, other))) < 2

    def way(self, code: str) -> tuple[str, ...]:
        """The way of trying that an outcome belongs to; empty: the usual one."""
        return next((way for way in self.tries if code in way), ())
