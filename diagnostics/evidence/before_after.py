"""Before and after in two numbers, read under like conditions: what page 1 of a record says."""

from collections.abc import Iterable
from dataclasses import dataclass

from diagnostics.evidence.twins import Condition, Twin


@dataclass(frozen=True)
class BeforeAfter:
    """Two numbers under like conditions, for page 1 of a record; values in SI of `unit`.

    `beyond`: they differ by more than the instruments may be off, so that the page may say that
    something became of it; else `apart` says that they do not.
    """

    words: str
    then: str
    now: str
    apart: str
    beyond: bool
    then_si: float
    now_si: float
    unit: str
    steps: tuple[int, int]
    states: tuple[int, int]
    conditions: tuple[Condition, ...]


# What tells most to who drives the car comes first; our judgement.
FIRST_TOLD = (("vent_temperature", "vent"), ("running_pressures", "high"))


def before_and_after(twins: Iterable[Twin]) -> BeforeAfter | None:
    """The two numbers of page 1 of a record: before and after, read under like conditions.

    The front vent before another one, a vent before a pressure; None where no pair compares, and
    then nothing is to be said of before and after (`not_compared` says why).
    """
    listed = list(twins)
    for kind, name in FIRST_TOLD:
        of_kind = [one for one in listed if one.kind == kind and one.now]
        front_first = sorted(of_kind, key=lambda one: one.then.readings.get("branch") != "front")
        for one in front_first:
            found = two_numbers(one, name)
            if found:
                return found
    return None


def two_numbers(one: Twin, name: str) -> BeforeAfter | None:
    """One reading of a twin that compares, as two numbers; None: it does not."""
    row = next((each for each in one.rows if each.field == name and each.apart), None)
    if not (row and one.now and one.compared):
        return None
    if row.then_si is None or row.now_si is None:
        return None
    at = f"{row.words}, {one.part[:1].lower()}{one.part[1:]}" if one.part else row.words
    return BeforeAfter(
        at,
        *(row.then, row.now, row.apart, row.beyond, row.then_si, row.now_si, row.unit),
        (one.then.step, one.now.step),
        (one.then.state, one.now.state),
        one.conditions,
    )


def not_compared(twins: Iterable[Twin]) -> str:
    """Why page 1 has no two numbers, in one sentence; empty: it has."""
    listed = list(twins)
    if before_and_after(listed):
        return ""
    named = {kind for kind, _ in FIRST_TOLD}
    made = [one for one in listed if one.kind in named and one.now and one.unlike]
    if made:
        apart = "; ".join(
            f"{each.words.lower()}: {each.then} then, {each.now} now" for each in made[0].unlike
        )
        return f"Before and after do not compare, the conditions were not alike ({apart})."
    return (
        "No vent temperature and no high side pressure while it ran was read both before the repair"
        " and after it."
    )
