"""Writing what a car waits for, and that it does so no longer."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Any

from jobs.actions.corrections import in_order, link
from jobs.actions.job import address, job_of
from jobs.models import Entry, Job, LoopWork, Person, Waiting
from jobs.models.corrected import moment
from jobs.models.loop_works import standing_works
from jobs.told import Waited

END = "waiting_end"
VACUUM = "vacuum"
PAST_VACUUM = ("evacuation", "machine_cycle", "charge")


def begin_waiting(entry: Entry, told: Waited) -> dict[str, Any]:
    """Keep it. Minutes count from when it happened, not from when it arrived."""
    job = job_of(entry)
    began = entry.happened_at
    until = began + timedelta(minutes=told.minutes) if told.minutes else told.until
    row = Waiting.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        what=told.what,
        words=told.words,
        person=Person.objects.filter(key=told.person).first() if told.person else None,
        until=until,
        due_on=told.due_on,
        began_at=began,
    )
    link(family := family_of(job, row))
    settle_end(job, family)
    return {"url": address(job)}


def end_waiting(entry: Entry, ended: str) -> dict[str, Any]:
    """End it. Of several who end the same one the first to happen stands.

    One that this job does not have yet is ended when it arrives.
    """
    job = job_of(entry)
    rows = {str(row.key): row for row in job.waitings.all()}
    row = rows.get(ended)
    if row:
        settle_end(job, family_of(job, row))
    return {"url": address(job)}


def family_of(job: Job, row: Waiting) -> list[Waiting]:
    """Those that correct one another with this one."""
    return in_order(list(job.waitings.select_related("entry", "superseded_by")), row)


def settle_end(job: Job, family: Sequence[Waiting]) -> None:
    """Let the first entry that ends any of a family end it.

    A correction told after an end of what it corrects was set again, and runs. A vacuum timer is
    ended, too, by work that cannot be while it is still to be waited for.
    """
    keys = {str(row.key) for row in family}
    ends = Entry.objects.filter(job_key=job.key, kind=END)
    told = [one for one in ends if keys.intersection(one.fields.get("waiting", ()))]
    for row in family:
        after = [one for one in told if names(one, row) or one.happened_at >= row.began_at]
        first = min([*after, *past_vacuum(job, row)], key=moment, default=None)
        if row.ended_by != first:
            row.ended_by = first
            row.save(update_fields=["ended_by"])


def names(end: Entry, row: Waiting) -> bool:
    """Whether an end is about this very row."""
    return str(row.key) in end.fields.get("waiting", ())


def past_vacuum(job: Job, row: Waiting) -> list[Entry]:
    """The evacuations and charges noted after a vacuum timer began: it is waited for no more."""
    if row.what != VACUUM:
        return []
    works = job.loop_works.filter(what__in=PAST_VACUUM).select_related("entry", "state")
    return [one.entry for one in standing_works(works) if done_at(one) >= row.began_at]


def done_at(work: LoopWork) -> datetime:
    """When it was done: what corrects it is told later and belongs to the same car state."""
    return work.state.opened_at if work.state else work.entry.done_at


def settle_vacuum(job: Job) -> None:
    """Let work on the loop end the vacuum timers before it, or no more where it was a mistake."""
    for row in job.waitings.filter(what=VACUUM, superseded_by=None):
        settle_end(job, family_of(job, row))
