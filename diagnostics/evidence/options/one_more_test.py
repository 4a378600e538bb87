"""Whether one more test would pay for itself before a repair is chosen, by the shop's own prices.

As the next step is weighed, with money in place of minutes: what the best plan is expected to cost
now, less what the best plan is expected to cost once the test is read, against its minutes at the
shop's rate. Costs add up by variable, so the shares of each variable after each outcome are enough.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from diagnostics.evidence.inference.ahead import afters
from diagnostics.evidence.inference.factors import Array
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.model import Model
from diagnostics.evidence.inference.present import present
from diagnostics.evidence.inference.verdict import Weighed
from diagnostics.evidence.inference.worth import outcomes
from diagnostics.evidence.options.costing import Scales
from diagnostics.evidence.options.prices import MINUTES


@dataclass(frozen=True)
class Pays:
    """What a test is expected to save the customer, and what its minutes cost, smallest units."""

    kind: str
    saves: float
    costs: float

    @property
    def net(self) -> float:
        """What is left of it; above zero it pays for itself."""
        return self.saves - self.costs


def one_more_test(
    weighed: Weighed,
    candidates: Sequence[tuple[Looks, float]],
    plans: Sequence[Scales],
    rate: int | None,
) -> list[Pays]:
    """Each candidate (its table, its minutes) with what it saves, the best first.

    Nothing can be said without a rate, or with fewer than two plans that are priced.
    """
    priced = [one for one in plans if not one.missing]
    if rate is None or len(priced) < 2:
        return []
    tables, now = losses(weighed.plain, priced), present(weighed)
    start = np.array([one.now for one in priced])
    before = best(start, tables, {name: now.belief.alone(name) for name in tables})[0]
    told = [outcomes(weighed, looks) for looks, _ in candidates]
    found = []
    tried = afters(now.belief, now.factors, told, list(tables))
    for (looks, minutes), (chance, shares) in zip(candidates, tried, strict=True):
        after = best(start, tables, shares)
        saves = float(before - chance @ np.broadcast_to(after, chance.shape))
        found.append(Pays(looks.kind, saves, minutes * rate / MINUTES))
    return sorted(found, key=lambda one: -one.net)


def losses(model: Model, plans: Sequence[Scales]) -> dict[str, Array]:
    """For each variable in question what each plan (first axis) loses at each answer (second)."""
    variables = dict.fromkeys(name for one in plans for name, _ in one.losses)
    return {
        name: np.array(
            [
                [float(one.losses.get((name, code), 0)) for code in model.answers[name]]
                for one in plans
            ]
        )
        for name in variables
    }


def best(start: Array, tables: Mapping[str, Array], shares: Mapping[str, Array]) -> Array:
    """What the best plan is expected to cost, in each case."""
    costs = start[None, :]
    for name, table in tables.items():
        costs = costs + shares[name] @ table.T
    least: Array = costs.min(axis=1)
    return least
