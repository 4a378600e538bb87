"""What an owner's overrides are worth now, in words: none stands against what a test told."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from diagnostics.assess import Assessed, override_touched
from diagnostics.evidence.orders import ORDERS
from diagnostics.models import Override
from diagnostics.points import FOUND, Gate, by_time, found_by, shut_by
from jobs.models import CarState
from jobs.models.wordings import in_shop_time

NEVER = "An override may stand for what nobody looked at yet, never for what a test told."


@dataclass(frozen=True)
class Let:
    """An override with its order's sentence; `no_more` says why it bears no more, or is empty."""

    override: Override
    first: str
    no_more: str


def shut_by_a_test(code: str, steps: Sequence[Assessed], states: Sequence[CarState]) -> str:
    """Which test shut an order, so that no override opens it; empty: nobody looked yet."""
    told, order = by_time(steps, states), ORDERS[code]
    found = (found_by(order, told) if code in FOUND else None) or shut_by(order, told)
    if found is None:
        return ""
    step = found[0]
    return f"Step {step.step.number}, {step.title}, shut it: {step.finding} {NEVER}"


def let_told(
    overrides: Iterable[Override], states: Sequence[CarState], shut: Iterable[Gate]
) -> list[Let]:
    """The overrides of a job, oldest first, with the gates that are shut."""
    gates = list(shut)
    return [
        Let(one, ORDERS[one.order].first, no_more(one, states, gates))
        for one in overrides
        if one.order in ORDERS
    ]


def no_more(one: Override, states: Sequence[CarState], shut: Sequence[Gate]) -> str:
    """Why an override opens nothing any more; empty where it does."""
    if one.ended_at:
        return f"Ended with the closing of the job, {in_shop_time(one.ended_at)}."
    found = FOUND[one.order][0] if one.order in FOUND else ""
    for gate in shut:
        if gate.code == found or (gate.code == one.order and gate.number):
            return f"It does not hold against what was found: {gate.why}"
    if override_touched(one, states):
        return "Ended: the car was changed in this since."
    return ""
