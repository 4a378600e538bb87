"""Tests that do not go together: which, and which of them to make again.

Most slips contradict nothing, so nobody promises that one is found. All limits come from trials
with planted slips: our judgement.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

import numpy as np

from diagnostics.evidence.inference.factors import Factor, product
from diagnostics.evidence.inference.told import Told
from diagnostics.evidence.inference.verdict import Weighed

PAIR = 0.08  # the best that both fit together, against each by itself
LESS = 5.0  # how much less likely the others must have made it
INSIDE = ("amount", "gas", "tightness", "dirt", "oil", "seal")
TAIL = 0.015  # how seldom anything as odd is read, after all the other tests


@dataclass(frozen=True)
class Disagree:
    """`what`: "odd" (two tests, or one against the rest), or "pattern" (it comes and goes).

    `again` is the kind to make again; of a pattern none, as both may be true.
    """

    what: Literal["odd", "pattern"]
    kinds: tuple[str, ...]
    steps: tuple[int, ...]
    again: str = ""


def disagreements(weighed: Weighed, each: Sequence[Told]) -> list[Disagree]:
    """Patterns first, then pairs that do not fit, then single tests against all others.

    `each` has every test by itself.
    """
    patterns = comes_and_goes(each)
    rare = oddness(weighed)
    pairs = [
        Disagree("odd", (one.kind, two.kind), (*one.steps, *two.steps), odder(one, two))
        for one, two in combinations([one for one in each if one.bears], 2)
        if alike(one, two) and fit(weighed, one, two) < PAIR
    ]
    # Of a pattern both are true, so neither is to be made again for being rare.
    told = {step for found in (*patterns, *pairs) for step in found.steps}
    single = [
        Disagree("odd", (one.kind,), one.steps, one.kind)
        for one, tail in zip(weighed.told, rare, strict=True)
        if tail < TAIL and not told & {*one.steps}
    ]
    return [*patterns, *pairs, *single]


def comes_and_goes(each: Sequence[Told]) -> list[Disagree]:
    """One kind that came out normal while it was not failing, and otherwise while it was.

    Both of the same car: what was put right in between does not come and go. Of what is in the
    loop one of the two is wrong.
    """
    found = []
    for kind, names in dict.fromkeys((one.kind, one.factor.names) for one in each):
        tests = [
            (one, test)
            for one in each
            if (one.kind, one.factor.names) == (kind, names)
            for test in one.tests
        ]
        good = [t.number for one, t in tests if t.outcome in one.looks.normal and t.failing == "no"]
        bad = [
            t.number for one, t in tests if t.outcome not in one.looks.normal and t.failing != "no"
        ]
        if good and bad and stays(tests[0][0]):
            found.append(Disagree("odd", (kind, kind), (good[0], bad[0]), kind))
        elif good and bad:
            found.append(Disagree("pattern", (kind,), (*good, *bad)))
    return found


def stays(one: Told) -> bool:
    """Whether a kind names only what is in the loop: that does not come and go with the trouble."""
    return bool(one.looks.direct) and {*one.looks.direct} <= {*INSIDE}


def alike(one: Told, two: Told) -> bool:
    """Whether both speak of one car state with the switch alike: else they need not agree.

    Nor need two of one kind agree, where it was tried in two ways or looked at less closely once.
    """
    first, second = one.tests[0], two.tests[0]
    if one.kind == two.kind and one.looks.go_together(first.outcome, second.outcome):
        return False
    return (first.state, first.failing) == (second.state, second.failing)


def fit(weighed: Weighed, one: Told, two: Told) -> float:
    """The largest product of both over all answers; both have a largest value of 1."""
    if not {*one.factor.names} & {*two.factor.names}:
        return 1.0
    names = tuple(dict.fromkeys((*one.factor.names, *two.factor.names)))
    return float(product((one.factor, two.factor), names, weighed.sliced.model.sizes).values.max())


def oddness(weighed: Weighed) -> list[float]:
    """For each kind told: how often something as unlikely is read, going by all the others."""
    if len(weighed.told) < 2:
        return [1.0] * len(weighed.told)
    return [tail(weighed, one) for one in weighed.told]


def tail(weighed: Weighed, one: Told) -> float:
    """The share of all outcomes that are no likelier than the one read, after the other tests."""
    plain = weighed.plain
    state = min(one.tests[0].state, len(weighed.sliced.names) - 1)
    names = [weighed.sliced.names[state][name] for name in one.looks.given(plain)]
    read = Factor(tuple(names), np.moveaxis(one.looks.read(plain), -1, 0))
    chances = weighed.now.chances(Factor(read.names, read.values / one.factor.values))
    chances = chances / chances.sum()
    read_as = [one.looks.outcomes.index(test.outcome) for test in one.tests]
    at = min(read_as, key=lambda number: chances[number])  # of several the least to be expected
    anyway = weighed.before.chances(read)
    if chances[at] * LESS > anyway[at] / anyway.sum():
        return 1.0  # it is seldom read at all: the others have no part in it
    return float(chances[chances <= chances[at] + 1e-12].sum())


def odder(one: Told, two: Told) -> str:
    """Which of two to make again: the one that shows less of what it looks at, else the later."""
    first, second = one.factor.values.min(), two.factor.values.min()
    return one.kind if first > second * 1.01 else two.kind
