"""Writing a change on the car: its row, and the car state it opens."""

from typing import Any

from jobs.actions.car_states import StateTold, open_state, share_state
from jobs.actions.corrections import in_order, link
from jobs.actions.failing_now import settle_failing
from jobs.actions.job import address, job_of
from jobs.actions.stage import move
from jobs.models import CarState, Change, Entry, Job
from jobs.models.changes import NOTHING, times_changed
from jobs.models.photos import NEW_PART, OLD_PART
from jobs.told import Changed

PHOTO_FIELDS = {"photo_old": OLD_PART, "photo_new": NEW_PART}
# A part's place in jobs.models.ac_places, where it has one.
PHOTO_PLACES = {
    **{part: part for part in ("clutch", "compressor", "condenser", "drier", "evaporator", "fan")},
    **dict.fromkeys(("coil", "belt"), "clutch"),
    **dict.fromkeys(("shaft_seal", "control_valve"), "compressor"),
    "expansion_device": "expansion",
}


def record_change(entry: Entry, told: Changed) -> dict[str, Any]:
    """Write the change. One that corrects another takes its place in the same car state.

    A correction may arrive before what it corrects, or after a later one.
    """
    job = job_of(entry)
    told_of_it = {name: value for name, value in vars(told).items() if name != "marks"}
    if not entry.corrects:
        told_of_it["corrected_why"] = ""
    row = Change(key=entry.key, job=job, entry=entry, **told_of_it)
    row.state = state_of(row)
    row.save()
    told_before = list(job.changes.select_related("entry", "state", "superseded_by"))
    family = in_order(told_before, row)
    link(family)
    file_photos(entry, told)
    share_state(job, family, as_state)
    settle_failing(job)
    entry.marks = [*entry.marks, *told.marks]
    if entry.happened_at < job.opened_at:
        entry.marks.append({"code": "before_received"})
    put_stage(job, entry, times_changed(told_before))
    return {"url": address(job), "state": family[0].state.number}


def file_photos(entry: Entry, told: Changed) -> None:
    """File the photos of the old part and of the new one as such, at the part's place."""
    place = PHOTO_PLACES.get(told.part, "")
    for field, about in PHOTO_FIELDS.items():
        entry.pictures.filter(field=field).update(place=place, about=about, filed_by=entry)


def put_stage(job: Job, entry: Entry, changed: int) -> None:
    """A job whose car was changed is in repair; one whose changes were all mistakes is not."""
    if changed and job.stage in ("intake", "testing", "deciding"):
        move(job, entry, "repairing")
    elif not changed and job.stage == "repairing":
        steps = Entry.objects.filter(job_key=job.key, kind="step")
        made = steps.exclude(fields__has_key="not_done").exists()
        move(job, entry, "testing" if made else "intake")


def state_of(row: Change) -> CarState:
    """The car state a change belongs to; what says that nothing was changed opens none."""
    corrects = row.entry.corrects
    corrected = row.job.changes.filter(key=corrects).first() if corrects else None
    if corrected:
        return corrected.state
    if row.what == NOTHING:
        return row.job.car_states.reverse()[0]
    return open_state(row.job, row.entry, as_state(row))


def as_state(row: Change) -> StateTold:
    """What a change tells of the state that it opens."""
    return StateTold(row.words, row.touched, nothing=row.what == NOTHING)
