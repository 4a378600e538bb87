"""Writing a change on the car: its row, and the car state it opens."""

from collections.abc import Sequence
from typing import Any

from django.db.models import Q

from jobs.actions.corrections import in_order, link
from jobs.actions.failing_now import settle_failing
from jobs.actions.job import address, job_of
from jobs.actions.stage import move
from jobs.models import CarState, Change, Entry, Job
from jobs.models.changes import NOTHING, times_changed
from jobs.models.photos import NEW_PART, OLD_PART
from jobs.told import Changed

STATE_LENGTH = 200
PHOTO_FIELDS = {"photo_old": OLD_PART, "photo_new": NEW_PART}
# A part's place in jobs.models.ac_places, where it has one.
PHOTO_PLACES = {
    **{part: part for part in ("clutch", "compressor", "condenser", "drier", "evaporator", "fan")},
    **dict.fromkeys(("coil", "belt"), "clutch"),
    **dict.fromkeys(("shaft_seal", "control_valve"), "compressor"),
    "expansion_device": "expansion",
}
CORRECTION = "Nothing of its own: corrects another change"


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
    share_state(family)
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
        touches=row.touched,
    )


def share_state(family: Sequence[Change]) -> None:
    """Put changes that correct one another into the state of the first, as the last tells it."""
    first, stands = family[0], family[-1]
    if first.state.opened_by_id != first.entry_id and stands.what != NOTHING:
        first.state = open_state(first)
        first.save(update_fields=["state"])
    for following in family[1:]:
        if following.state_id != first.state_id:
            if following.state.opened_by_id == following.entry_id:
                put_right(following.state, CORRECTION, [])
            following.state = first.state
            following.save(update_fields=["state"])
    if first.state.opened_by_id == first.entry_id:
        put_right(first.state, stands.words, stands.touched)


def put_right(state: CarState, what: str, touched: list[str]) -> None:
    """A state with what it is now known to be; when it began stays as it was."""
    state.what, state.touches = what[:STATE_LENGTH], touched
    state.save(update_fields=["what", "touches"])
