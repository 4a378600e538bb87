"""All tests of one job: what was found, and which can be made next."""

from collections import defaultdict

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from diagnostics.assess import steps_of
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
    photos = defaultdict(list)
    for photo in Photo.objects.filter(job_key=job.key).order_by("entry_id", "number"):
        photos[photo.entry_id].append(photo)
    said = {
        "job": job,
        "steps": [(one, photos.get(one.step.entry_id, [])) for one in made[::-1]],
        "points": step_points(made),
        "may_test": getattr(request.user, "role", "") in (TECHNICIAN, OWNER),
        "made": made,
    }
    return render(request, "diagnostics/steps.html", said)
