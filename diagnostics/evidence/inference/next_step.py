"""Which test is worth its minutes next: what it is expected to save in wrong decisions, by minute.

Value of information as in troubleshooting theory (Heckerman, Breese and Rommelse 1995): what
deciding costs now, less what it is expected to cost after the test. Costs add up by variable, so
the shares of each variable after each outcome are enough.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.factors import Array, Factor
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.model import Model
from diagnostics.evidence.inference.stakes import losses


@dataclass(frozen=True)
class Worth:
    """A test that may be made: what it saves in all and by minute, and by variable."""

    kind: str
    saves: float
    minutes: float
    by_variable: Mapping[str, float]

    @property
    def per_minute(self) -> float:
        """What it saves by the minute of a bay."""
        return self.saves / self.minutes


def worth(
    model: Model,
    now: Belief,
    candidates: Sequence[tuple[Looks, float]],
    latest: Mapping[str, str] | None = None,
) -> list[Worth]:
    """Each candidate (its table, its minutes) with what it saves, the best first.

    `latest` are the names of the variables in the car's last state.
    """
    names = latest or {name: name for name in model.answers}
    tables = {
        one.name: losses(
            one.name, model.answers[one.name], [a.code for a in one.answers if a.rightly]
        )
        for one in model.variables
    }
    before = {name: cost(table, now.of([names[name]]))[0] for name, table in tables.items()}
    found = [
        worth_of(model, now, looks, minutes, tables, before, names) for looks, minutes in candidates
    ]
    return sorted(found, key=lambda one: -one.per_minute)


def worth_of(
    model: Model,
    now: Belief,
    looks: Looks,
    minutes: float,
    tables: Mapping[str, Array],
    before: Mapping[str, float],
    names: Mapping[str, str],
) -> Worth:
    """What one test saves."""
    chance, shares = now.after(outcomes(model, looks, names))
    saved = {
        name: float(
            before[name] - chance @ np.broadcast_to(cost(table, shares[names[name]]), chance.shape)
        )
        for name, table in tables.items()
    }
    return Worth(looks.kind, sum(saved.values()), minutes, saved)


def outcomes(model: Model, looks: Looks, names: Mapping[str, str]) -> Factor:
    """A table with one case for each outcome that can be read."""
    given = [names[name] for name in looks.rows.given if name in model.answers]
    return Factor(tuple(given), np.moveaxis(looks.true(model) @ looks.slips(), -1, 0))


def cost(table: Array, shares: Array) -> Array:
    """What the best decision costs in each case."""
    best: Array = (shares @ table.T).min(axis=1)
    return best
