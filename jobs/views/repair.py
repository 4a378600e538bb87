"""What is changed on the car, one entry a change."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render

from jobs.entries import CHANGE
from jobs.forms.repair import RepairForm, as_typed
from jobs.logbook import enter
from jobs.models import Change, Job
from jobs.models.agreed import agreed_on
from jobs.models.changes import changes_of, standing
from jobs.models.loop_parts import LoopRow, loop_table, told_of
from jobs.models.people import BAY
from jobs.models.taken_out import taken_out_of
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key, asked_original
from jobs.views.posted import told_from_post


@signed_in()
def repair(request: HttpRequest) -> HttpResponseBase:
    """The neutral page, which any tablet of the shop may keep; a job's own for those who repair."""
    if request.method != "POST" and asked_key(request) is None:
        return show(request, None, RepairForm())
    return repair_of_job(request)


@signed_in(*BAY)
def repair_of_job(request: HttpRequest) -> HttpResponse:
    """The form about the job in the address, and what was changed so far.

    Raises:
        Http404: the address names a change to correct that is not in the job.

    """
    job = asked_job(request)
    if request.method == "POST":
        outcome = enter(CHANGE, told_from_post(request, CHANGE.version, job.key))
        return answer(request, outcome, lambda form: show(request, job, form))
    corrected = asked_original(request, job.changes.all())
    typed = as_typed(corrected) if corrected else {}
    form = RepairForm(job_key=job.key, corrects=bool(corrected), initial=typed)
    return show(request, job, form, str(corrected.key) if corrected else "")


def show(request: HttpRequest, job: Job | None, form: Any, corrects: str = "") -> HttpResponse:
    """The page; without a job a tablet fills it."""
    changes = list(changes_of(job)) if job else []
    said = {
        "form": form,
        "job": job,
        "kind": CHANGE,
        "agreed": agreed_on(job) if job else [],
        "changes": changes,
        "loop": loop_rows(job, changes) if job else [],
        "taken_out": taken_out_of(job) if job else {},
        "corrects": request.POST.get("corrects") or corrects,
        "key": request.POST.get("key") or (uuid.uuid4() if job else ""),
    }
    return render(request, "jobs/repair.html", said)


def loop_rows(job: Job, changes: list[Change]) -> list[LoopRow]:
    """The table of the loop's parts, once anything is told of one."""
    rows = loop_table(job.vehicle.system, standing(changes), told_of(job))
    return rows if any(row.code for row in rows) else []
