"""Photos of the car taken now, several in one entry, filed at a place."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.entries import PHOTO
from jobs.forms.photo import PhotoForm
from jobs.logbook import enter
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.posted import photos_wrong, told_from_post


@signed_in()
def photo(request: HttpRequest) -> HttpResponse:
    """The form; without a job the neutral page, which any tablet of the shop may keep."""
    if request.method != "POST" and asked_key(request) is None:
        return show(request, None, PhotoForm())
    job = asked_job(request)
    if request.method != "POST":
        asked = {"place": request.GET.get("place", ""), "step": request.GET.get("step", "")}
        return show(request, job, PhotoForm(job_key=job.key, initial=asked))
    wrong = photos_wrong(request)
    if wrong:
        form = PhotoForm(request.POST, job_key=job.key)
        form.add_error("photo", wrong)
        response = show(request, job, form)
        response.status_code = 422
        return response
    outcome = enter(PHOTO, told_from_post(request, PHOTO.version, job.key))
    return answer(request, outcome, lambda form: show(request, job, form))


def show(request: HttpRequest, job: Job | None, form: Any) -> HttpResponse:
    """The page; without a job a tablet fills it."""
    said = {
        "form": form,
        "job": job,
        "system": job.vehicle.system if job else None,
        "kind": PHOTO,
        "corrects": request.POST.get("corrects", ""),
        "key": request.POST.get("key") or (uuid.uuid4() if job else ""),
    }
    return render(request, "jobs/photo.html", said)
