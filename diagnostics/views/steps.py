"""All tests of one job: what was found, and which can be made next."""

from collections import defaultdict
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from diagnostics.assess import steps_of, system_of
from diagnostics.evidence.catalogue import GROUPS, KINDS
from diagnostics.evidence.system import System
from diagnostics.points import step_points
from jobs.models import Photo
from jobs.models.people import OWNER, TECHNICIAN
from jobs.views.access import signed_in
from jobs.views.asked import asked_job


@signed_in()
def steps(request: HttpRequest) -> HttpResponse:
    """The steps of the job in the address, newest first; those who test get the kinds to go on."""
    job = asked_job(request)
    made = steps_of(job)
    system = system_of(job.vehicle.system)
    photos = defaultdict(list)
    for photo in Photo.objects.filter(job_key=job.key).order_by("entry_id", "number"):
        photos[photo.entry_id].append(photo)
    said = {
        "job": job,
        "steps": [(one, photos.get(one.step.entry_id, [])) for one in made[::-1]],
        "points": step_points(made),
        "may_test": getattr(request.user, "role", "") in (TECHNICIAN, OWNER),
        "groups": groups(system, {one.step.kind for one in made if one.stands}),
    }
    return render(request, "diagnostics/steps.html", said)


def groups(system: System, told: set[str]) -> list[dict[str, Any]]:
    """The tests by the part of the job they belong to; those this car bars come last in theirs."""
    found = []
    for code, words in GROUPS.items():
        kinds = [kind for kind in KINDS.values() if kind.about == code]
        offered = [(kind, kind.name in told) for kind in kinds if not kind.forbids(system)]
        barred = [(kind, kind.forbids(system)) for kind in kinds if kind.forbids(system)]
        made = sum(done for _kind, done in offered)
        if kinds:
            found.append({"words": words, "offered": offered, "barred": barred, "made": made})
    return found
