"""Tests that do not go together with the others: what is planned may make them again.

A test named as the one to repeat counts as not made, until two readings of it on the car as it is
say alike: then it was no slip. Two that differ ask for a third, and there it ends.
"""

from collections.abc import Iterable
from dataclasses import replace

from diagnostics.evidence.inference.disagree import Disagree
from diagnostics.evidence.plan import Asked

ALIKE, MOST = 2, 3  # readings


def to_make_again(asked: Asked, disagree: Iterable[Disagree]) -> Asked:
    """The same, with what the tests at odds name free to be made again."""
    named = {one.again for one in disagree if one.again} & asked.done
    again = frozenset(kind for kind in named if in_doubt(kind, asked))
    return replace(asked, done=asked.done - again, again=again)


def in_doubt(kind: str, asked: Asked) -> bool:
    """Whether one more reading may settle it."""
    read = [one.outcome for one in asked.made if one.kind == kind and not one.touched]
    return len(read) < (MOST if len({*read}) > 1 else ALIKE)
