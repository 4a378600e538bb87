"""What an issue of the record will hold, and freezing it."""

import uuid
from typing import Any

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone

from diagnostics.entries import ISSUE
from diagnostics.forms.issue import IssueForm
from diagnostics.record.build import Heading, record_data
from diagnostics.record.issues import data_before, entries_of, last_issue, next_number
from diagnostics.record.qualified import why_not
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.people import BAY
from jobs.paper.drawable import Undrawn, drawable
from jobs.paper.fonts import FontMissing, typeface
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.posted import told_from_post


@signed_in(*BAY)
def issue(request: HttpRequest) -> HttpResponse:
    """The job as it stands now, its open points, and the button that freezes it."""
    job = asked_job(request)

    def show(form: Any) -> HttpResponse:
        return show_issue(request, job, form)

    if request.method != "POST":
        return show(None)
    return answer(request, enter(ISSUE, told_from_post(request, ISSUE.version, job.key)), show)


def show_issue(request: HttpRequest, job: Job, form: IssueForm | None) -> HttpResponse:
    """The page; a form that came back keeps what was typed, and shows the job as it stands now."""
    last = last_issue(job)
    number = next_number(last)
    first = {
        "issue": number,
        "entries": entries_of(job).count(),
        "address": address(request, job),
    }
    heading = Heading(number, request.user, timezone.now())  # type: ignore[arg-type]
    data = record_data(job, heading, data_before(last))
    undrawn, problem = Undrawn(), ""
    try:
        drawable(data, typeface().coverages, undrawn)
    except FontMissing as missing:
        problem = str(missing)
    said = {
        "job": job,
        "number": number,
        "last": last,
        "data": data,
        "undrawn": undrawn.listed(),
        "problem": problem,
        "cannot": why_not(job, request.user),  # type: ignore[arg-type]
        "form": form or IssueForm(job_key=job.key, initial=first),
        "key": request.POST.get("key") or uuid.uuid4(),
    }
    return render(request, "diagnostics/issue.html", said)


def address(request: HttpRequest, job: Job) -> str:
    """The job's page as others in the shop reach it; empty where only this machine does."""
    if request.get_host().partition(":")[0] not in settings.HOSTS:
        return ""
    return request.build_absolute_uri(f"{reverse('job')}?job={job.key}")
