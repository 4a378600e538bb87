"""How long a verdict and a next step take, in ms: `python -m tests.evidence.inference.timing`.

A look by hand; no test asserts a time. Budget: verdict 20 ms, next step 60 ms, on one core. The
first car of a sort also works out its trees and tables, which are kept.
"""

import random
from collections.abc import Callable
from statistics import median
from time import perf_counter

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.plan import Asked, plan
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import Verdict
from tests.evidence.inference.cars import (
    BIGGEST,
    CLUTCHED,
    changes_at_random,
    made_at_random,
    verdict_on,
)

ROUNDS = 12


def taken(work: Callable[[], object]) -> float:
    """Milliseconds."""
    start = perf_counter()
    work()
    return 1000 * (perf_counter() - start)


def read(verdict: Verdict) -> None:
    """Everything that a page shows of it."""
    _ = verdict.stands, verdict.joint, verdict.disagree, verdict.something_else


def row(words: str, system: System, tests: int, states: int) -> str:
    """Median and longest of several jobs."""
    weighing, planning = [], []
    for seed in range(ROUNDS):
        dice = random.Random(seed)
        changes = changes_at_random(dice, states)
        made = made_at_random(dice, states, tests)
        weighing.append(taken(lambda m=made, c=changes: read(verdict_on(m, system, c))))  # type: ignore[misc]
        weighed = verdict_on(made, system, changes).weighed
        _ = weighed.now.groups
        planning.append(taken(lambda w=weighed: plan(w, Asked(system), KINDS, TABLES)))  # type: ignore[misc]
    figures = (median(weighing), max(weighing), median(planning), max(planning))
    return f"{words:34}" + "".join(f"{one:10.1f}" for one in figures)


def main() -> None:
    """A table."""
    print(f"{'ms':34}" + "".join(f"{one:>10}" for one in ("verdict", "longest", "next", "longest")))
    for words, system in (("belt, clutch, fixed", CLUTCHED), ("biggest car", BIGGEST)):
        for tests, states in ((6, 0), (14, 0), (10, 2)):
            print(row(f"{words}, up to {tests} tests, {states} changes", system, tests, states))


if __name__ == "__main__":
    main()
