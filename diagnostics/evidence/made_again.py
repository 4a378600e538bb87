"""Tests that do not go together with the others: what is planned may make them again.

A test that was made once on the car as it is and is named as the one to repeat counts as not made.
One that was made twice there is not asked for a third time: what two readings say alike is no slip.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from diagnostics.evidence.inference.disagree import Disagree
from diagnostics.evidence.plan import Asked

TWICE = 2


def to_make_again(asked: Asked, disagree: Iterable[Disagree]) -> Asked:
    """The same, with what the tests at odds name free to be made again."""
    times = Counter(one.kind for one in asked.made if not one.touched)
    again = {one.again for one in disagree if one.again and times[one.again] < TWICE} & asked.done
    return replace(asked, done=asked.done - again, again=frozenset(again))
