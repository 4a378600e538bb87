"""Writing a change on the car: its row, and the car state it opens."""

from typing import Any

from django.db.models import Q

from jobs.actions.job import address, job_of
from jobs.models import CarState, Change, Entry, Job
from jobs.models.changes import NOTHING, touches
from jobs.told import Changed

STATE_LENGTH = 200
CORRECTION = "Nothing of its own: corrects another change"


def record_change(entry: Entry, told: Changed) -> dict[str, Any]:
    """Write the change. One that corrects another takes its place in the same car state.

    A correction may arrive before what it corrects; that one then finds its place taken.
    """
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
    row.state = state_of(row, corrected)
    row.save()
    if corrected:
        supersede(corrected, row)
    for waiting in job.changes.filter(entry__corrects=entry.key, supersedes=None):
        if last_of(waiting) != last_of(row):
            supersede(last_of(row), waiting)
    entry.marks = [*entry.marks, *told.marks]
    if last_of(row).what != NOTHING and job.stage in ("intake", "testing", "deciding"):
        job.stage = "repairing"
        job.save(update_fields=["stage"])
    return {"url": address(job), "state": row.state.number}


def newest(job: Job, entry: Entry) -> Change | None:
    """The change that the entry corrects, or what took that one's place since.

    None for a new one, and where the job has no such change: then it stands alone and is an open
    point.
    """
    found = job.changes.filter(key=entry.corrects).first() if entry.corrects else None
    return last_of(found) if found else None


def last_of(change: Change) -> Change:
    """What stands in a change's place now: itself, unless it was superseded."""
    while change.superseded_by:
        change = change.superseded_by
    return change


def state_of(row: Change, corrected: Change | None) -> CarState:
    """The car state a change belongs to; what says that nothing was changed opens none."""
    if corrected:
        return corrected.state
    return row.job.car_states.reverse()[0] if row.what == NOTHING else open_state(row)


def open_state(row: Change) -> CarState:
    """The state of the car that a change opened; those that began later move up by one.

    Of the same moment those are later that CarState lists later.
    """
    moment, sequence = row.entry.happened_at, row.entry.sequence
    same_moment = Q(opened_at=moment, opened_by__sequence__isnull=False)
    if sequence is not None:
        same_moment &= Q(opened_by__sequence__gt=sequence)
    later = row.job.car_states.filter(Q(opened_at__gt=moment) | same_moment, number__gt=0)
    number = row.job.car_states.count() - later.count()
    for state in later.order_by("-number"):  # from above: a number stands once at any moment
        state.number += 1
        state.save(update_fields=["number"])
    return CarState.objects.create(
        job=row.job,
        number=number,
        opened_by=row.entry,
        opened_at=moment,
        what=row.words[:STATE_LENGTH],
        touches=touches(row.what, row.part),
    )


def supersede(old: Change, row: Change) -> None:
    """Put a change, and what stands in its place already, into another's place and car state."""
    old.superseded_by = row
    old.save(update_fields=["superseded_by"])
    following: Change | None = row
    while following:
        if following.state_id != old.state_id:
            if following.state.opened_by_id == following.entry_id:
                put_right(following.state, CORRECTION, [])
            following.state = old.state
            following.save(update_fields=["state"])
        following = following.superseded_by
    stands = last_of(row)
    put_right(old.state, stands.words, touches(stands.what, stands.part))


def put_right(state: CarState, what: str, touched: list[str]) -> None:
    """A state with what it is now known to be; when it began stays as it was."""
    state.what, state.touches = what[:STATE_LENGTH], touched
    state.save(update_fields=["what", "touches"])
