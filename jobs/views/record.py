"""What was handed over: the issues of a job's record, each to read here and to print as frozen."""

import json
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from jobs.models import Job, Record
from jobs.paper.shelf import NotAsFrozen, data_is_as_frozen, file_of
from jobs.views.access import signed_in
from jobs.views.asked import asked_job

DATA_CHANGED = (
    "The frozen data of this issue are not as they were: their hash is another. They are not shown;"
    " the file has its own copy of them."
)


@require_safe
@signed_in()
def record(request: HttpRequest) -> HttpResponse:
    """The issues of a job, newest first; the one that is asked for (else the newest) to read."""
    return show_record(request, asked_job(request))


@require_safe
@signed_in()
def record_paper(request: HttpRequest) -> HttpResponse:
    """The file of an issue: the very bytes that were frozen, or the sentence why not."""
    job = asked_job(request)
    asked = asked_issue(request, list(job.records.all()))
    if asked is None:
        raise Http404("No record of this job was issued yet.")
    try:
        pdf = file_of(asked)
    except NotAsFrozen as why:
        response = show_record(request, job, str(why))
        response.status_code = 410
        return response
    return HttpResponse(
        pdf,
        content_type="application/pdf",
        headers={
            "Content-Disposition": f'inline; filename="record-{job.number}-{asked.issue}.pdf"',
            "X-Content-Type-Options": "nosniff",
        },
    )


def show_record(request: HttpRequest, job: Job, problem: str = "") -> HttpResponse:
    """The page; `problem` says why a file is not handed out."""
    issues = list(job.records.select_related("issued_by").order_by("-issue"))
    asked = asked_issue(request, issues)
    said: dict[str, Any] = {"job": job, "issues": issues, "asked": asked, "problem": problem}
    if asked and data_is_as_frozen(asked):
        said["data"] = json.loads(asked.data)
    elif asked:
        said["data_problem"] = DATA_CHANGED
    return render(request, "jobs/record.html", said)


def asked_issue(request: HttpRequest, issues: list[Record]) -> Record | None:
    """The issue in the address; the newest when none is named; None when there is none at all.

    Raises:
        Http404: the address names an issue that is not here.

    """
    told = request.GET.get("issue", "")
    if not told:
        return max(issues, key=lambda one: one.issue, default=None)
    found = next((one for one in issues if str(one.issue) == told), None)
    if found is None:
        raise Http404("This job’s record has no such issue.")
    return found
