"""Writing the switch on the job."""

from typing import Any

from jobs.actions.job import address, job_of
from jobs.models import Entry, Job
from jobs.models.entries import switched


def set_failing_now(entry: Entry) -> dict[str, Any]:
    """Turn the switch, unless somebody turned it at a later time and that arrived first."""
    job = job_of(entry)
    settle_failing(job)
    return {"url": address(job)}


def settle_failing(job: Job) -> None:
    """Set the job's switch to what was last told of the car as it is now.

    Nobody has told it of a car that was changed since: what a repair changed is looked at anew.
    """
    turned = switched().filter(job_key=job.key).first()
    changed = job.car_states.filter(number__gt=0).exclude(touches=[]).reverse().first()
    stands = turned and not (changed and changed.opened_at > turned.done_at)
    job.failing_now = turned.fields["failing"][0] if turned and stands else ""
    job.save(update_fields=["failing_now"])
