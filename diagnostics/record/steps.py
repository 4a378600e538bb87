"""The parts of a record that come from test steps: made, not possible, not made."""

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.system import System
from jobs.models import Job
from jobs.paper import frozen

NOT_MADE = "not made in this job"


@dataclass(frozen=True)
class Made:
    """The steps of a job for its paper. `names` says what an entry is called, by its key."""

    steps: list[frozen.Step] = field(default_factory=list)
    not_done: list[frozen.NotDone] = field(default_factory=list)
    open_points: list[str] = field(default_factory=list)
    names: Mapping[uuid.UUID, str] = field(default_factory=dict)
    kinds: frozenset[str] = frozenset()


def made_in(job: Job) -> Made:  # noqa: ARG001  there is no table of steps yet
    """What was made in a job."""
    return Made()


def not_tested(job: Job, made: Made) -> list[frozen.NotTested]:
    """Every kind of test that was neither made nor begun, and why as far as anybody knows."""
    fitted = system_of(job)
    return [
        {"what": kind.title, "why": kind.forbids(fitted) or NOT_MADE}
        for name, kind in KINDS.items()
        if name not in made.kinds
    ]


def system_of(job: Job) -> System:
    """The A/C as far as kinds ask for it; what is not known is left out."""
    row = job.vehicle.system
    return {"drive": row.drive, "voltage": row.voltage, "switched_side": row.switched_side}
