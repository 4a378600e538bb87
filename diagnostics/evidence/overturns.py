"""What would overturn a standing: a test that may be made, and the outcome that would take it away.

Nobody is shown how likely that is. An outcome that would, and is likelier, is named first.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from diagnostics.evidence.inference.factors import Array
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.verdict import FALLS, NOT_OK, Stands, Weighed
from diagnostics.evidence.inference.worth import Worth

NAMED = 2  # more of them say no more


@dataclass(frozen=True)
class Overturns:
    """A kind of test, and the code of the outcome after which an answer would stand no more."""

    variable: str
    code: str
    kind: str
    outcome: str


def overturns(
    weighed: Weighed,
    stands: Iterable[Stands],
    worths: Iterable[Worth],
    free: Collection[str],
    tables: Mapping[str, Looks],
) -> tuple[Overturns, ...]:
    """For each answer that stands the outcomes of free tests that would take it away.

    `worths` as the plan worked them out; of one kind the likeliest such outcome is named.
    """
    may = [one for one in worths if one.kind in free]
    return tuple(
        found
        for one in stands
        if one.standing != "open" and one.code
        for found in of_answer(weighed, one, may, tables)[:NAMED]
    )


def of_answer(
    weighed: Weighed, one: Stands, may: Sequence[Worth], tables: Mapping[str, Looks]
) -> list[Overturns]:
    """The outcomes that would overturn one answer, the likeliest first."""
    found: list[tuple[float, Overturns]] = []
    for worth in may:
        share = share_after(weighed, one, worth.shares[one.variable])
        least = FALLS[one.standing]
        falls = share > least if one.standing == "ruled_out" else share < least
        outcomes = tables[worth.kind].outcomes  # that nothing is read is one more, and no outcome
        chances = [
            (float(worth.chances[at]), code) for at, code in enumerate(outcomes) if falls[at]
        ]
        if chances:
            chance, code = max(chances)
            found.append((-chance, Overturns(one.variable, one.code, worth.kind, code)))
    return [overturn for _, overturn in sorted(found, key=lambda each: (each[0], each[1].kind))]


def share_after(weighed: Weighed, one: Stands, shares: Array) -> Array:
    """How likely the answer would be after each outcome."""
    there = weighed.plain.answers[one.variable]
    codes = weighed.faults(one.variable) if one.code == NOT_OK else (one.code,)
    out: Array = shares[:, [there.index(code) for code in codes]].sum(axis=1)
    return out
