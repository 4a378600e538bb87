"""Writing a change on the car: its row, and the car state it opens."""

from typing import Any

from jobs.actions.job import address, job_of
from jobs.models import CarState, Change, Entry, Job
from jobs.models.changes import touches
from jobs.told import Changed

STATE_LENGTH = 200


def record_change(entry: Entry, told: Changed) -> dict[str, Any]:
    """Write the change. One that corrects another takes its place in the same car state."""
    job = job_of(entry)
    corrected = newest(job, entry)
    row = Change(
        key=entry.key,
        job=job,
        entry=entry,
        what=told.what,
        part=told.part,
        source=told.source,
        part_number=told.part_number,
        serial=told.serial,
        where=told.where,
    )
    row.state = put_right(corrected.state, row) if corrected else open_state(job, entry, row)
    row.save()
    if corrected:
        corrected.superseded_by = row
        corrected.save(update_fields=["superseded_by"])
    entry.marks = [*entry.marks, *told.marks]
    if job.stage in ("intake", "testing", "deciding"):
        job.stage = "repairing"
        job.save(update_fields=["stage"])
    return {"url": address(job), "state": row.state.number}


def newest(job: Job, entry: Entry) -> Change | None:
    """The change that the entry corrects, or what took that one's place since; None: a new one."""
    found = job.changes.filter(key=entry.corrects).first() if entry.corrects else None
    while found and found.superseded_by:
        found = found.superseded_by
    return found


def open_state(job: Job, entry: Entry, change: Change) -> CarState:
    """The next state of the car."""
    last = job.car_states.order_by("-number").first()
    return CarState.objects.create(
        job=job,
        number=last.number + 1 if last else 0,
        opened_by=entry,
        opened_at=entry.happened_at,
        what=change.words[:STATE_LENGTH],
        touches=touches(change.what, change.part),
    )


def put_right(state: CarState, change: Change) -> CarState:
    """A state with what it is now known to be; when it began stays as it was."""
    state.what = change.words[:STATE_LENGTH]
    state.touches = touches(change.what, change.part)
    state.save(update_fields=["what", "touches"])
    return state
