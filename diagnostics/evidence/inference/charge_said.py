"""A charge that somebody says is known to be right: what that tells of the amount.

It is asked beside tests that read pressures and lines, because a pressure tells nothing of it.
It is the word of a person who weighed: it makes other amounts unlikely and proves none.
"""

from collections.abc import Mapping, Sequence

from diagnostics.evidence.inference.factors import Factor

# How often it is said where the amount is something else, against where it is right. What was
# weighed in is right unless scale or label were misread or the loop lost some since (common
# practice: a charge counts as known by weight only). Where recovered and label agree, a little
# too little or too much can hide in what a machine leaves behind. Shares: our judgement.
SAID: Mapping[str, Mapping[str, float]] = {
    "agrees": {"ok": 1.0, "low": 0.06, "empty": 0.01, "too_much": 0.15},
    "weighed_in": {"ok": 1.0, "low": 0.05, "empty": 0.01, "too_much": 0.06},
}


def charge_said(amount: str, how: str, codes: Sequence[str]) -> Factor:
    """The table over the amount, by its name in that car state."""
    return Factor.of([amount], [SAID[how][code] for code in codes])
