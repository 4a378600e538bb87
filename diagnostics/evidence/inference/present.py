"""The car as it is now, by its variables' own names: what the next test is chosen from."""

from dataclasses import dataclass

import numpy as np

from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.factors import Factor
from diagnostics.evidence.inference.verdict import Weighed


@dataclass(frozen=True)
class Present:
    """A belief on the variables of one car state, and the tables it had before any test."""

    belief: Belief
    factors: tuple[Factor, ...]


def present(weighed: Weighed) -> Present:
    """What is believed of the car as it is.

    Of a car that was not changed that is all there is. Of one that was, each variable keeps its
    exact share and how it hangs on those it hangs on; what else joins them through the car as it
    was is left out. A verdict never leaves it out: only what a next test is worth is worked out so.
    """
    if len(weighed.sliced.names) == 1:
        return Present(weighed.now, weighed.model.factors)
    now = tuple(as_now(weighed, factor) for factor in weighed.plain.factors)
    return Present(Belief(weighed.plain.sizes, now), now)


def as_now(weighed: Weighed, factor: Factor) -> Factor:
    """One of the network's tables, its last variable by those before, after all tests."""
    latest, *_, last = weighed.sliced.latest, factor.names[-1]
    names = [latest[name] for name in factor.names]
    if latest[last] not in weighed.now.sizes:
        return factor  # nothing was told of it, nor hangs on it
    if not weighed.now.tree.has(names):
        return Factor((last,), weighed.now.alone(latest[last]))
    joint = weighed.now.of(names)
    whole = joint.sum(axis=-1, keepdims=True)
    shares = np.where(whole > 0, joint / np.where(whole > 0, whole, 1.0), factor.values)
    return Factor(factor.names, shares)
