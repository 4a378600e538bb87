"""The oil of a job as it was told so far, and its balance in rows. Amounts are whole microliters."""

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from jobs.models.amounts import CAR, OIL, LoopWork, Move
from jobs.models.jobs import Job
from jobs.models.loop_works import standing_works


@dataclass(frozen=True)
class OilThen:
    """What was told before: codes of types, the oil out with the refrigerant as recoveries have it.

    `last` is the last telling of oil that stands.
    """

    types: frozenset[str]
    by_machine: int
    last: LoopWork | None


def standing_moves(job: Job) -> list[Move]:
    """The moves of a job that were not taken back, with cylinder and entry, the oldest first."""
    moves = job.moves.filter(undoes=None, undone_by=None)
    return list(moves.select_related("from_cylinder", "entry"))


def oil_then(job: Job, but: UUID | None = None) -> OilThen:
    """What was told of oil so far; `but` is the key of what is being corrected."""
    works = standing_works(job.loop_works.select_related("entry"))
    oils = [one for one in works if one.what == "oil" and one.key != but]
    types = {one.told["oil"] for one in oils if one.told.get("oil") not in (None, "not_known")}
    machine = {one.entry_id for one in works if one.what != "oil"}
    moves = [one for one in standing_moves(job) if one.entry_id in machine]
    return OilThen(frozenset(types), out_of_car(moves), oils[-1] if oils else None)


def out_of_car(moves: Iterable[Move]) -> int:
    """The oil that came out of the car by these moves."""
    return sum(one.amount for one in moves if one.substance == OIL and one.from_place == CAR)
