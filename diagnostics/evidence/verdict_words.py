"""The verdict in sentences: what carries an answer, how strongly, and what is only said jointly.

Strength on the verbal scale of the ENFSI guideline for evaluative reporting (2015; its steps from
memory): a number is never shown to a customer.
"""

from collections.abc import Mapping, Sequence
from typing import Protocol

from diagnostics.evidence.findings import Standing
from diagnostics.evidence.inference.disagree import Disagree
from diagnostics.evidence.inference.joint import NotAlone
from diagnostics.evidence.inference.network import VARIABLES, Variable
from diagnostics.evidence.inference.told import Test
from diagnostics.evidence.inference.verdict import NOT_OK, Carries, Stands
from diagnostics.evidence.kind import Kind

# Odds at which each step of the scale begins.
SCALE: Sequence[tuple[float, str]] = (
    (1_000_000, "extremely strongly"),
    (10_000, "very strongly"),
    (1_000, "strongly"),
    (100, "moderately strongly"),
    (10, "moderately"),
    (2, "weakly"),
    (0, "hardly"),
)
INSIDE: Mapping[Standing, str] = {
    "proved": "proved",
    "likely": "likely",
    "open": "open",
    "ruled_out": "ruled out",
}
TO_CUSTOMER: Mapping[Standing, str] = {
    "proved": "shown by test",
    "likely": "most likely",
    "open": "not settled",
    "ruled_out": "ruled out by test",
}
BY_NAME: Mapping[str, Variable] = {one.name: one for one in VARIABLES}


class Grouped(Protocol):
    """Tests of one kind that were weighed together."""

    @property
    def kind(self) -> str:
        """The kind's name."""

    @property
    def tests(self) -> tuple[Test, ...]:
        """The tests, by their numbers."""

    @property
    def steps(self) -> tuple[int, ...]:
        """Their steps' numbers."""


def strength(odds: float) -> str:
    """How strongly a weight of evidence speaks, whichever way it points."""
    size = max(odds, 1 / odds)
    return next(words for least, words in SCALE if size >= least)


def answer_words(variable: str, code: str) -> str:
    """Such as: Clutch and hub: air gap too wide."""
    one = BY_NAME[variable]
    said = "not in order" if code == NOT_OK else one.answer(code).words
    return f"{one.words}: {said}"


def carried_by(one: Carries, told: Sequence[Grouped], kinds: Mapping[str, Kind]) -> str:
    """One test's weight on an answer, in one sentence."""
    found = [each for each in told if each.kind == one.kind and each.steps == one.steps]
    words = "; ".join(dict.fromkeys(outcome_words(each, kinds) for each in found))
    side = "for" if one.odds > 1 else "against"
    return f"{kinds[one.kind].title}: {words}. Speaks {strength(one.odds)} {side} it."


def outcome_words(one: Grouped, kinds: Mapping[str, Kind]) -> str:
    """What tests of one kind came out as, each outcome once."""
    said = {row.code: row.words for row in kinds[one.kind].outcomes}
    return "; ".join(dict.fromkeys(said[test.outcome] for test in one.tests))


def weaker_words(stands: Stands) -> str:
    """What would be left of a standing if every test counted for a third; empty: it is open."""
    if stands.standing == "open":
        return ""
    if stands.weaker == "open":
        return "It would be open if every test counted for a third of what is assumed."
    kept = INSIDE[stands.weaker]
    if stands.weaker == stands.standing:
        return f"Still {kept} if every test counted for a third of what is assumed."
    return f"Only {kept} if every test counted for a third of what is assumed."


def alone_words(stands: Stands, kinds: Mapping[str, Kind]) -> str:
    """That it rests on one test; empty: on several, or on none."""
    return f"Rests on one test: {kinds[stands.alone].title}." if stands.alone else ""


def not_alone_words(one: NotAlone) -> str:
    """The joint statement."""
    beside = BY_NAME[one.beside].words.lower()
    return (
        f"{BY_NAME[one.variable].words}: may be at fault as well, but is not the cause of this on"
        f" its own: the tests found the trouble at the {beside}."
    )


def disagree_words(one: Disagree, kinds: Mapping[str, Kind]) -> str:
    """What does not go together, and what to do about it."""
    steps = " and ".join(f"step {number}" for number in one.steps)
    titles = " and ".join(dict.fromkeys(kinds[kind].title for kind in one.kinds))
    if one.what == "pattern":
        return (
            f"{titles} ({steps}): in order while it did not fail, not while it failed. Both can be"
            " true: it comes and goes."
        )
    again = f"Make again: {kinds[one.again].title}."
    if len(one.kinds) == 1:
        return f"{titles} ({steps}) does not go with all the other tests. {again}"
    return f"{titles} ({steps}) do not go together. {again}"
