"""The network of a car once more, by a library that others wrote: pyAgrum 2 and later.

Its tables are written out here anew from the rows that people wrote, not taken from ours; only what
a change of the car did (states.py) is taken over, one table for each new answer. What was read
hangs on one true outcome a kind, which nobody sees: a variable of its own with a child a reading.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, product
from math import prod

import numpy as np
import pyagrum as gum

from diagnostics.evidence.inference.factors import Array
from diagnostics.evidence.inference.look import TOUCHED, Looks
from diagnostics.evidence.inference.network import BEFORE, BETWEEN, COUPLINGS, VARIABLES
from diagnostics.evidence.inference.rows import Rows
from diagnostics.evidence.inference.states import Sliced
from diagnostics.evidence.inference.told import Test
from diagnostics.evidence.lasting import LASTING
from diagnostics.evidence.tables import TABLES

Answers = Mapping[str, Sequence[str]]
Shares = Mapping[str, float]
Evidence = Mapping[str, int | Sequence[float]]
FAILING = {"yes": 1.0, "": 1.0, "cannot_tell": 0.5, "no": 0.0}
LEAST = 1e-4


def bayes_net(sliced: Sliced, tests: Iterable[Test] = ()) -> gum.BayesNet:
    """The whole network with a child for each test; `observed` says what was read of them."""
    net = gum.BayesNet("car")
    answers = sliced.plain.answers
    for name, codes in sliced.model.answers.items():
        net.add(gum.LabelizedVariable(name, name, len(codes)))
    for name in answers:
        rows = COUPLINGS.get(name, Rows((), ()))
        given = [one for one in rows.given if one in answers]
        fill(net, name, given, table(rows, given, answers, name))
    for factor in sliced.model.factors[len(sliced.plain.factors) :]:
        *given, name = factor.names
        fill(net, name, given, factor.values[0])
    found_so = groups(sliced, tests)
    comes, failed = comes_and_goes(sliced, found_so)
    for at, found in enumerate(found_so):
        bad = any(test.outcome not in TABLES[test.kind].normal for test in found)
        calm = any(test.outcome in TABLES[test.kind].normal for test in found)
        what = looked_at(sliced, found[0])
        pattern = what in comes or (bad and bool(failed & {*what[1:]}))
        told = [test for test in found if not tells_less(test, found)]
        ways = {way_of(test) for test in told}
        for number, way in enumerate(sorted(ways)):
            some = [test for test in told if way_of(test) == way]
            how = How(
                alone=len(ways) == 1, pattern=pattern, calm=calm, there=there(sliced, found[0]) == 1
            )
            hang_on(net, sliced, some, f"true {at} {number}", how)
        for test in found:
            if test not in told:
                net.add(gum.LabelizedVariable(child(test), child(test), outcomes_and_none(test)))
                net.cpt(child(test)).fillWith(1).normalize()
    return net


def outcomes_and_none(test: Test) -> int:
    """How many outcomes its kind has, and that nothing is read."""
    return len(TABLES[test.kind].outcomes) + 1


def way_of(test: Test) -> tuple[str, ...]:
    """The outcomes that the same way of trying may have; empty: the usual way."""
    found = [way for way in TABLES[test.kind].tries if test.outcome in way]
    return found[0] if found else ()


def tells_less(test: Test, found: Sequence[Test]) -> bool:
    """Whether another test of the group tells more of what this one tells."""
    looks = TABLES[test.kind]
    clear = {one.outcome for one in found} - {*looks.vague}
    if test.outcome in looks.vague:
        return bool(clear)
    return any(one in clear for one in looks.less.get(test.outcome, ()))


def fill(net: gum.BayesNet, name: str, given: Sequence[str], values: Array) -> None:
    """Hang a variable on others; the last axis of `values` is its own."""
    assert np.allclose(values.sum(axis=-1), 1, atol=1e-12), name
    for one in given:
        net.addArc(one, name)
    cpt, axes = net.cpt(name), [*given, name]
    order = [axes.index(one) for one in list(cpt.names)[::-1]]
    cpt[:] = np.ascontiguousarray(np.asarray(values).transpose(order))


def table(rows: Rows, given: Sequence[str], answers: Answers, name: str) -> Array:
    """The shares of a variable's answers, those it hangs on first."""
    usual = usual_shares(name, answers[name])
    lines = [shares(rows.row(one).shares, answers[name], usual) for one in each(given, answers)]
    return np.array(lines).reshape([*(len(answers[one]) for one in given), -1])


def each(given: Sequence[str], answers: Answers) -> Iterator[dict[str, str]]:
    """Every combination of answers."""
    for codes in product(*(answers[one] for one in given)):
        yield dict(zip(given, codes, strict=True))


def usual_shares(name: str, codes: Sequence[str]) -> Shares | None:
    """How often each answer comes anyway; None: nobody asks for that variable."""
    if name == "worked_before":
        return BEFORE
    found = [one for one in VARIABLES if one.name == name]
    if not found:
        return None
    faults = {one.code: one.share for one in found[0].answers if one.code in codes[1:]}
    return {"ok": 1 - sum(faults.values()), **faults}


def shares(named: Shares, codes: Sequence[str], usual: Shares | None = None) -> list[float]:
    """As named; what is left goes to the others, in proportion to how often they come anyway.

    What is named for a code that is not there goes to those named that are.
    """
    here = sum(share for code, share in named.items() if code in codes)
    whole = sum(named.values()) if here else 0.0
    others = [code for code in codes if code not in named]
    weights = {code: usual[code] if usual else 1 for code in others}
    found = {
        code: named[code] * whole / here
        if code in named
        else (1 - whole) * weights[code] / sum(weights.values())
        for code in codes
    }
    floored = [max(found[code], LEAST) for code in codes]
    return [one / sum(floored) for one in floored]


def groups(sliced: Sliced, tests: Iterable[Test]) -> list[list[Test]]:
    """Tests that hang on one true outcome: of one kind, the switch alike, nothing seen changed."""

    def key(test: Test) -> tuple[str, list[str], float]:
        names, looks = sliced.names[test.state], TABLES[test.kind]
        return test.kind, [names.get(one, "") for one in looks.rows.given], there(sliced, test)

    return [list(found) for _, found in groupby(sorted(tests, key=key), key=key)]


def there(sliced: Sliced, test: Test) -> float:
    """How far the trouble was there: what is wrong was seen, whatever the switch said.

    What does not come and go was there too, and so was what was changed before the test.
    """
    looks, first = TABLES[test.kind], sliced.names[0]
    names = sliced.names[test.state]
    changed = any(names.get(one, "") != first.get(one, "") for one in looks.direct)
    if changed or test.kind in LASTING or test.outcome not in looks.normal:
        return 1.0
    return FAILING[test.failing]


def looked_at(sliced: Sliced, test: Test) -> tuple[str, ...]:
    """The kind and the names of what it looked at in its car state."""
    names = sliced.names[test.state]
    given = [one for one in TABLES[test.kind].rows.given if one in sliced.plain.answers]
    return test.kind, *(names[one] for one in given)


def comes_and_goes(
    sliced: Sliced, found: Sequence[Sequence[Test]]
) -> tuple[set[tuple[str, ...]], set[str]]:
    """What was right while it did not fail and wrong while it did; the variables it looked at."""
    calm = {looked_at(sliced, one[0]) for one in found if not there(sliced, one[0])}
    bad = {
        looked_at(sliced, test)
        for one in found
        for test in one
        if test.outcome not in TABLES[test.kind].normal and test.failing != "no"
    }
    both = calm & bad
    return both, {name for _, *names in both for name in names}


@dataclass(frozen=True)
class How:
    """How tests hang on their true outcome.

    Not `alone`: the kind was tried in another way as well, so the true outcome is one of this
    way's. `pattern`: it comes and goes; `calm`: one of the group came out right;
    `there`: all of them were made while it failed.
    """

    alone: bool
    pattern: bool
    calm: bool
    there: bool


def with_pattern(
    looks: Looks, given: Sequence[str], answers: Answers, mixed: Array, true: Array, how: How
) -> Array:
    """The rows of a pattern: broken for good is so at both times, at times it is seen wrong."""
    flags = {one.name: {answer.code: answer for answer in one.answers} for one in VARIABLES}
    rows = []
    failing_there = how.there
    for combination, now, always in zip(each(given, answers), mixed, true, strict=True):
        named = [
            flags[name][code] for name, code in combination.items() if code in flags.get(name, {})
        ]
        row = now
        if not failing_there and any(one.for_good for one in named):
            row = (1 - TOUCHED) * always + TOUCHED * now
        if failing_there and not how.calm and any(one.at_times for one in named):
            wrong = np.array([code not in looks.normal for code in looks.outcomes] + [False])
            row = always * wrong / (always * wrong).sum()
        rows.append(row)
    return np.array(rows)


def hang_on(net: gum.BayesNet, sliced: Sliced, tests: Sequence[Test], name: str, how: How) -> None:
    """The true outcome of these tests, with "nothing to be read" as its last answer.

    Each test is a child of it: what was read that time.
    """
    looks, answers = TABLES[tests[0].kind], sliced.plain.answers
    given = [one for one in looks.rows.given if one in answers]
    here = [sliced.names[tests[0].state][one] for one in given]
    true = np.array([readable(looks, one) for one in each(given, answers)])
    calm = readable(looks, {one: answers[one][0] for one in given})
    failing = there(sliced, tests[0])
    mixed = failing * true + (1 - failing) * np.array(calm)
    if how.pattern:
        mixed = with_pattern(looks, given, answers, mixed, true, how)
    if not how.alone:
        usual = {code for way in looks.tries for code in way}
        way = way_of(tests[0]) or {*looks.outcomes} - usual
        own = [code in way for code in looks.outcomes]
        mixed = mixed * [*own, False]
        mixed = mixed / mixed.sum(axis=-1, keepdims=True)
    for seen in (name, *map(child, tests)):
        net.add(gum.LabelizedVariable(seen, seen, len(looks.outcomes) + 1))
    fill(net, name, here, mixed.reshape([*(len(answers[one]) for one in given), -1]))
    for test in tests:
        fill(net, child(test), [name], slips(looks))


def readable(looks: Looks, given: Mapping[str, str]) -> list[float]:
    """How often each outcome is true, and how often nothing can be read."""
    often = prod(looks.can_be_read.get(name, {}).get(code, 1.0) for name, code in given.items())
    found = shares(looks.rows.row(given).shares, looks.outcomes)
    return [*(often * one for one in found), 1 - often]


def child(test: Test) -> str:
    """The name of what was read in a test."""
    return f"read {test.number}"


def slips(looks: Looks) -> Array:
    """How often each outcome is read where another is true; of nothing, nothing."""
    outcomes, lines = looks.outcomes, []
    for true in outcomes:
        slipped = {read: looks.alarms / (len(outcomes) - 1) for read in outcomes if read != true}
        if true not in looks.normal:
            for calm in looks.normal:
                slipped[calm] += looks.misses / len(looks.normal)
        lines.append([slipped.get(read, 1 - sum(slipped.values())) for read in outcomes] + [0.0])
    return np.array([*lines, [0.0] * len(outcomes) + [1.0]])


def observed(tests: Iterable[Test]) -> dict[str, int]:
    """What was read, by child; and that the car came because it does not cool."""
    read = {child(test): TABLES[test.kind].outcomes.index(test.outcome) for test in tests}
    return {"cools": BETWEEN["cools"].index("no"), **read}


class Reference:
    """Posterior shares of a network after some evidence: an answer's number, or strengths."""

    def __init__(
        self,
        net: gum.BayesNet,
        evidence: Evidence,
        pairs: Iterable[tuple[str, str]] = (),
    ) -> None:
        self.engine = gum.LazyPropagation(net)
        self.engine.setEvidence(dict(evidence))
        for pair in pairs:
            self.engine.addJointTarget(set(pair))
        for name in net.names():
            self.engine.addTarget(name)
        self.engine.makeInference()

    def of(self, name: str) -> Array:
        """The shares of one variable."""
        return np.asarray(self.engine.posterior(name).toarray())

    def together(self, one: str, two: str) -> Array:
        """The shares of two variables together, the first one's axis first."""
        found = self.engine.jointPosterior({one, two})
        values = np.asarray(found.toarray())
        return values if list(found.names)[::-1] == [one, two] else values.T
