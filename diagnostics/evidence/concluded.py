"""What is concluded of a job, light enough to be kept: verdict and plan without their tables.

Pages show it, a tablet is told it, and it is worked out once for what it rests on.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import cast

from diagnostics.evidence.inference.disagree import Disagree
from diagnostics.evidence.inference.joint import NotAlone
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.states import Became
from diagnostics.evidence.inference.told import Test
from diagnostics.evidence.inference.verdict import Stands
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.made_again import to_make_again
from diagnostics.evidence.orders import Made
from diagnostics.evidence.overturns import Overturns, overturns
from diagnostics.evidence.plan import (
    SHOWN,
    WORTH_IT,
    Asked,
    Plan,
    has_a_way,
    may_be_made,
    offered,
    plan,
)
from diagnostics.evidence.system import System
from diagnostics.evidence.weigh import Verdict, weigh


@dataclass(frozen=True)
class ToWeigh:
    """Everything that a conclusion rests on, as plain tuples: the same told, the same concluded.

    `system` is a system's items; `changes[n]` the items of what opened car state n + 1. What
    follows them is as in Asked.
    """

    system: tuple[tuple[str, object], ...]
    tests: tuple[Test, ...] = ()
    changes: tuple[tuple[tuple[str, Became], ...], ...] = ()
    made: tuple[Made, ...] = ()
    done: frozenset[str] = frozenset()
    setups: frozenset[str] = frozenset()
    unable: frozenset[str] = frozenset()
    shut: frozenset[str] = frozenset()
    must_not_run: bool = False

    @property
    def fitted(self) -> System:
        """The A/C."""
        told = {name: [*one] if isinstance(one, tuple) else one for name, one in self.system}
        return cast("System", told)

    @property
    def asked(self) -> Asked:
        """What the next test is chosen from."""
        return Asked(
            self.fitted,
            self.made,
            self.done,
            self.setups,
            self.unable,
            self.shut,
            self.must_not_run,
        )


@dataclass(frozen=True)
class Read:
    """Tests of one kind that were weighed together."""

    kind: str
    tests: tuple[Test, ...]

    @property
    def steps(self) -> tuple[int, ...]:
        """The steps' numbers."""
        return tuple(test.number for test in self.tests)


@dataclass(frozen=True)
class Concluded:
    """`read` are the tests as they were weighed, `plan` comes without what each test is worth.

    `waits` are tests worth their minutes that may not be made yet; `setups` and `unable` are those
    of what it was concluded from. `spoken` are the answers that a test named, by variable, of the
    car as it is now. `too_old` are the numbers of the steps left out for having been made before
    several changes.
    """

    stands: tuple[Stands, ...]
    read: tuple[Read, ...]
    joint: tuple[NotAlone, ...]
    disagree: tuple[Disagree, ...]
    something_else: tuple[str, ...]
    overturns: tuple[Overturns, ...]
    plan: Plan
    waits: tuple[str, ...]
    setups: frozenset[str]
    unable: frozenset[str]
    spoken: frozenset[tuple[str, str]]
    too_old: frozenset[int] = frozenset()

    @property
    def steps(self) -> frozenset[int]:
        """The numbers of the steps that were weighed."""
        return frozenset(number for one in self.read for number in one.steps)

    def of(self, variable: str, code: str) -> Stands | None:
        """How an answer stands; None: this car cannot have it."""
        return next(
            (one for one in self.stands if (one.variable, one.code) == (variable, code)), None
        )


def plain_system(system: System) -> tuple[tuple[str, object], ...]:
    """A system as it can be looked up by; what is not known is left out."""
    return tuple((name, plain_value(value)) for name, value in sorted(system.items()) if value)


def plain_value(value: object) -> object:
    """A list as a tuple, sorted: in which order branches were told changes nothing."""
    return tuple(sorted(value)) if isinstance(value, list) else value


def conclude(told: ToWeigh, kinds: Mapping[str, Kind], tables: Mapping[str, Looks]) -> Concluded:
    """The verdict on what was told, and what comes next."""
    asked = told.asked
    changes = [dict(one) for one in told.changes]
    verdict = weigh(asked.system, told.tests, changes, tables)
    asked = to_make_again(asked, verdict.disagree)
    chosen = plan(verdict.weighed, asked, kinds, tables)
    return light(verdict, chosen, asked, kinds, tables)


def light(
    verdict: Verdict,
    chosen: Plan,
    asked: Asked,
    kinds: Mapping[str, Kind],
    tables: Mapping[str, Looks],
) -> Concluded:
    """A verdict and a plan without tables."""
    free = {kind.name for kind in kinds.values() if may_be_made(kind, asked)}
    waits = [
        offered(kinds[one.kind], one, asked, chosen.unproved, 0.0, tables[one.kind].direct)
        for one in chosen.worths
        if one.kind not in free | asked.unable and has_a_way(kinds[one.kind], asked, kinds)
    ]
    worth_it = [one for one in waits if one.saves >= SHOWN and one.per_minute >= WORTH_IT]
    stands = verdict.stands
    return Concluded(
        stands,
        tuple(Read(one.kind, one.tests) for one in verdict.weighed.told),
        verdict.joint,
        verdict.disagree,
        verdict.something_else,
        overturns(verdict.weighed, stands, chosen.worths, free, tables),
        replace(chosen, worths=()),
        tuple(one.kind for one in sorted(worth_it, key=lambda one: -one.per_minute)),
        asked.setups,
        asked.unable,
        frozenset(
            (one.variable, one.code)
            for one in verdict.stands
            if any(told.speaks_of(one.variable, one.code) for told in verdict.weighed.told)
        ),
        verdict.too_old,
    )
