"""Writing that an owner waived an open point, or lets a job go against an order."""

from typing import Any

from django.urls import reverse

from diagnostics.assess import made, overrides_of, steps_of, system_of
from diagnostics.closing import to_waive
from diagnostics.evidence.orders import ORDERS
from diagnostics.job_now import job_now
from diagnostics.models import Override, Waiver
from diagnostics.overrides_told import shut_by_a_test
from diagnostics.waived import identity
from jobs.actions.job import job_of
from jobs.logbook import Refused
from jobs.models import Entry, Job

GONE = "This point is not open any more, or it is another one by now. Look at the points again."
NOT_SHUT = "Nothing waits for this order any more. Look at the points again."
# What such a point says names values that were typed, perhaps a person's.
UNNAMED = {"conflict": "Two values told for one field"}


def waive(entry: Entry, code: str, about: str, reason: str) -> dict[str, Any]:
    """Waive a point.

    Raises:
        Refused: the job has no such point any more.

    """
    job = job_of(entry)
    found = next((one for one in to_waive(job_now(job)) if identity(one) == (code, about)), None)
    if found is None:
        raise Refused(GONE)
    Waiver.objects.create(
        job=job,
        entry=entry,
        code=code,
        about=about,
        point=UNNAMED.get(code, found.sentence),
        reason=reason,
        given_at=entry.happened_at,
    )
    return {"url": address(job)}


def override(entry: Entry, order: str, reason: str) -> dict[str, Any]:
    """Let the job go against an order.

    Raises:
        Refused: what the job has keeps it already, or a test shut it.

    """
    job = job_of(entry)
    states = list(job.car_states.all())
    overrides = overrides_of(job)
    steps = steps_of(job, states, overrides)
    if ORDERS[order].is_kept(made(steps, states, overrides), system_of(job.vehicle.system)):
        raise Refused(NOT_SHUT)
    found = shut_by_a_test(order, steps, states)
    if found:
        raise Refused(f"Not overridden. {found}")
    Override.objects.create(
        job=job, entry=entry, order=order, reason=reason, given_at=entry.happened_at
    )
    return {"url": address(job)}


def address(job: Job) -> str:
    """The page of the job's points."""
    return f"{reverse('points')}?job={job.key}"
