"""The verdict on a repair in a line a question: what was wrong as the car came in, and now.

The same engine weighs both: once the tests made before anything was changed, once all of them with
what was changed. A new part is taken for a good one, so "cured" is shown by a test made since only.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import takewhile
from typing import Literal

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.findings import Standing
from diagnostics.evidence.verdict_shown import IN_ORDER, Part, Question, questions_shown
from diagnostics.evidence.verdict_words import TO_CUSTOMER
from diagnostics.since_changed import not_tested_since
from diagnostics.weighing import Around, weighed

Verdict = Literal["shown", "likely", "not_shown", "still", "untouched", "nothing"]
SAID: dict[Verdict, str] = {
    "shown": "Cured: shown",
    "likely": "Cured: most likely, not shown",
    "not_shown": "Cured: not shown",
    "still": "Not cured, as the tests stand",
    "untouched": "Nothing was changed in this",
    "nothing": "Nothing was found wrong in it before",
}
WORST_FIRST: tuple[Verdict, ...] = ("still", "not_shown", "likely", "shown")
NO_TEST = "no test of it since the change"


@dataclass(frozen=True)
class Cured:
    """One question: `was` what was wrong before, with how it stood; `now` how it stands now."""

    code: str
    name: str
    verdict: Verdict
    was: str
    now: str
    standing: Standing

    @property
    def words(self) -> str:
        """The verdict in a few words."""
        return SAID[self.verdict]


def cured(around: Around) -> list[Cured]:
    """A line for each question the car has, in their order, without a query."""
    before = {one.code: one for one in questions_shown(weighed(as_it_came(around)), KINDS)}
    now = questions_shown(weighed(around), KINDS)
    touched = {question for state in around.states for question in state.touches}
    untested = {
        question
        for _, questions in not_tested_since(around.states, around.steps)
        for question in questions
    }
    return [
        line(
            one, before.get(one.code), touched=one.code in touched, tested=one.code not in untested
        )
        for one in now
    ]


def as_it_came(around: Around) -> Around:
    """The job as it was weighed before anything was changed on the car.

    What only told of it, such as how much was recovered, came before the change: it is in it.
    """
    states = list(takewhile(lambda one: not one.touches, around.states)) or around.states[:1]
    first = [one for one in around.steps if one.step.state_then <= states[-1].number]
    return replace(
        around,
        failing_now="",
        steps=first,
        states=states,
        changes=(),
        loop=None,
        shut=(),
        overrides=(),
    )


def line(now: Question, before: Question | None, *, touched: bool, tested: bool) -> Cured:
    """One question."""
    wrong = list(wrong_parts(before)) if before else []
    was = "; ".join(f"{TO_CUSTOMER[one.standing]}: {one.said}" for one in wrong)
    said = now.line
    if not touched:
        verdict: Verdict = "untouched"
    elif not wrong:
        verdict = "nothing"
    else:
        parts = {one.name: one for one in now.parts}
        each = [verdict_of(parts.get(one.name), tested=tested) for one in wrong]
        verdict = next(one for one in WORST_FIRST if one in each)
        told = [parts[one.name] for one in wrong if one.name in parts]
        said = "; ".join(now_words(one, tested=tested) for one in told) or said
    return Cured(now.code, now.name, verdict, was, said, now.standing)


def wrong_parts(question: Question) -> Iterator[Part]:
    """The parts of a question that tests found wrong, or likely wrong."""
    for one in question.parts:
        if one.standing in ("proved", "likely") and one.said != IN_ORDER:
            yield one


def verdict_of(now: Part | None, *, tested: bool) -> Verdict:
    """How a part stands now that had been wrong."""
    if now is None or not tested:
        return "not_shown"
    if now.said == IN_ORDER:
        return "shown" if now.standing == "proved" else "likely"
    return "still" if now.standing in ("proved", "likely") else "not_shown"


def now_words(part: Part, *, tested: bool) -> str:
    """How a part stands now, as the customer is told."""
    if not tested:
        return f"{part.words.lower()}: {NO_TEST}"
    begins = "" if part.standing == "open" else f"{TO_CUSTOMER[part.standing]}, "
    return f"{part.words.lower()}: {begins}{part.said}"
