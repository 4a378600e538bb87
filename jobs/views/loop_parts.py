"""The parts of the loop: what was seen of those that stay, beside what was flushed or replaced."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render

from jobs.entries import LOOP_PARTS
from jobs.forms.loop_parts import LoopPartsForm
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.changes import changes_of, standing
from jobs.models.loop_parts import BY_FIELD, LoopRow, loop_table, told_of
from jobs.models.people import BAY
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.posted import told_from_post


@signed_in()
def loop_parts(request: HttpRequest) -> HttpResponseBase:
    """The neutral page, which any tablet of the shop may keep; a job's own for those who repair."""
    if request.method != "POST" and asked_key(request) is None:
        return show(request, None, LoopPartsForm())
    return loop_parts_of_job(request)


@signed_in(*BAY)
def loop_parts_of_job(request: HttpRequest) -> HttpResponse:
    """The form about the job in the address."""
    job = asked_job(request)
    if request.method == "POST":
        outcome = enter(LOOP_PARTS, told_from_post(request, LOOP_PARTS.version, job.key))
        return answer(request, outcome, lambda form: show(request, job, form))
    return show(request, job, LoopPartsForm(job_key=job.key))


def show(request: HttpRequest, job: Job | None, form: Any) -> HttpResponse:
    """The page, a line a part with how it stands; without a job it has the lines of any car."""
    lines: list[tuple[str, Any, LoopRow | None]]
    if job:
        form.call(job.vehicle.system)
        rows = loop_table(job.vehicle.system, standing(changes_of(job)), told_of(job))
        lines = [(row.field, form[row.field], row) for row in rows]
    else:
        lines = [(code, form[code], None) for code in BY_FIELD]
    said = {
        "form": form,
        "job": job,
        "kind": LOOP_PARTS,
        "lines": lines,
        "corrects": request.POST.get("corrects", ""),
        "key": request.POST.get("key") or (uuid.uuid4() if job else ""),
    }
    return render(request, "jobs/loop_parts.html", said)
