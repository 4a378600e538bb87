"""All that was done in one job: tests, what was changed between them, work on its loop, notes."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from django.db.models import prefetch_related_objects
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from diagnostics.assess import Assessed, steps_of
from diagnostics.points import step_points
from diagnostics.waived import parted, waivers_of
from diagnostics.work_points import of_steps
from jobs.models import Change, Entry, Handover, Job, LoopWork, Photo
from jobs.models.changes import changes_of, standing
from jobs.models.corrected import moment
from jobs.models.first_told import first_told
from jobs.models.handovers import handovers_of
from jobs.models.loop_works import standing_works, works_of
from jobs.models.people import BAY
from jobs.views.access import role_of, signed_in
from jobs.views.asked import asked_job


@dataclass(frozen=True)
class Done:
    """One thing that was done: a test, a change, work on the loop, or a hand-over; its photos."""

    step: Assessed | None
    change: Change | None
    photos: list[Photo]
    note: Handover | None = None
    work: LoopWork | None = None
    first: Entry | None = None  # told it, where it was put right since


@signed_in()
def steps(request: HttpRequest) -> HttpResponse:
    """What was done in the job of the address, the last first; who tests also gets the kinds."""
    job = asked_job(request)
    prefetch_related_objects([job], "car_states")
    states = list(job.car_states.all())
    made = steps_of(job, states)
    changes = list(changes_of(job))
    works = list(works_of(job))
    of_tests = [*step_points(made, states), *of_steps(standing_works(works), made)]
    points, waived = parted(of_tests, waivers_of(job))
    said = {
        "job": job,
        "done": done_in(job, made, changes, works),
        "points": points,
        "waived": waived,
        "may_test": role_of(request) in BAY,
        "made": made,
        "changes": standing(changes),
    }
    return render(request, "diagnostics/steps.html", said)


def done_in(
    job: Job, made: Sequence[Assessed], changes: Sequence[Change], works: Sequence[LoopWork]
) -> list[Done]:
    """Tests, changes, work on the loop and hand-overs together, the last to happen first."""
    photos = defaultdict(list)
    for photo in Photo.objects.filter(job_key=job.key).order_by("entry_id", "number"):
        photos[photo.entry_id].append(photo)
    tested = [one.step for one in made]
    first = {
        row.entry_id: told[row.pk]
        for rows in (tested, changes, works)
        for told in (first_told(rows),)
        for row in rows
    }
    done = [
        *((one.step.entry, Done(one, None, photos[one.step.entry_id])) for one in made),
        *((one.entry, Done(None, one, photos[one.entry_id])) for one in changes),
        *((one.entry, Done(None, None, [], note=one)) for one in handovers_of(job)),
        *((one.entry, Done(None, None, photos[one.entry_id], work=one)) for one in works),
    ]
    in_time = sorted(done, key=lambda item: (item[0].done_at, moment(item[0])), reverse=True)
    return [replace(one, first=first.get(entry.pk)) for entry, one in in_time]
