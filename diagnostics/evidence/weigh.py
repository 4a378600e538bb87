"""A car's tests weighed: from what was made to what it says and what comes next.

Rows of a job and cases of `evaluate` meet here, and nothing after it knows which they were.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from diagnostics.evidence.inference.disagree import Disagree, disagreements
from diagnostics.evidence.inference.joint import NotAlone, not_alone
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.network import OTHER, VARIABLES
from diagnostics.evidence.inference.states import Changed, Sliced, sliced
from diagnostics.evidence.inference.told import Test, Told, seen, told_by
from diagnostics.evidence.inference.verdict import Stands, Weighed
from diagnostics.evidence.system import System

QUESTION: Mapping[str, str] = {one.name: one.question for one in VARIABLES}
# Numbers in all tables above which a job would take seconds and gigabytes: some tens of megabytes.
MOST_CELLS = 3_000_000
NOTHING_FITS = 0.3  # the share of "something else" from which it is said: our judgement


@dataclass(frozen=True)
class Verdict:
    """Everything that was concluded of one car. Worked out as it is asked for."""

    weighed: Weighed
    each: tuple[Told, ...]  # every test by itself
    too_old: frozenset[int] = frozenset()  # steps left out, made before several changes

    @cached_property
    def stands(self) -> tuple[Stands, ...]:
        """Each answer of each variable, and that it is not in order."""
        return tuple(self.weighed.everything())

    @cached_property
    def joint(self) -> tuple[NotAlone, ...]:
        """What may be at fault as well, but is not the cause on its own."""
        return tuple(not_alone(self.weighed))

    @cached_property
    def disagree(self) -> tuple[Disagree, ...]:
        """What does not go together, patterns first."""
        return tuple(disagreements(self.weighed, self.each))

    @cached_property
    def something_else(self) -> tuple[str, ...]:
        """The variables of which nothing in the list fits well."""
        return tuple(
            one.variable for one in self.stands if one.code == OTHER and one.share >= NOTHING_FITS
        )

    def of(self, variable: str, code: str) -> Stands:
        """How one answer stands."""
        return next(one for one in self.stands if (one.variable, one.code) == (variable, code))


def weigh(
    system: System,
    tests: Iterable[Test],
    changes: Sequence[Changed],
    tables: Mapping[str, Looks],
) -> Verdict:
    """The verdict on a car of that system, after these tests; `changes[n]` opened state n + 1.

    Each change gives what it touched a further answer, and tests on both sides of several changes
    tie all of them together. Where that would not fit a shop's computer, the tests of the oldest
    car states are left out, but for those that look at nothing changed since; the verdict says
    which.
    """
    network = sliced(model_of(system), changes)
    made = sorted(tests, key=lambda test: (test.kind, test.state, test.outcome, test.number))
    kept, weighed = made, Weighed(network, tuple(told_by(network, made, tables)))
    for first in range(1, len(changes) + 1):
        if weighed.now.tree.cells(weighed.now.sizes) <= MOST_CELLS:
            break
        kept = [t for t in made if t.state >= first or is_of_now(network, t, tables)]
        weighed = Weighed(network, tuple(told_by(network, kept, tables)))
    return Verdict(
        weighed,
        tuple(told_by(network, kept, tables, each=True)),
        frozenset(test.number for test in made) - frozenset(test.number for test in kept),
    )


def is_of_now(network: Sliced, test: Test, tables: Mapping[str, Looks]) -> bool:
    """Whether nothing that a test looked at was changed since."""
    looks, latest = tables.get(test.kind), {*network.latest.values()}
    return looks is None or {*seen(network, looks, test)} <= latest


def questions_touched(change: Changed) -> set[str]:
    """The questions that a change bears on."""
    return {QUESTION[name] for name in change}
