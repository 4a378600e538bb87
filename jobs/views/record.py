"""What was handed over: the issues of a job's record, each to read here and to print as frozen."""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from jobs.models import Job, Record
from jobs.models.people import OWNER
from jobs.paper.fonts import FontMissing
from jobs.paper.shelf import NotAsFrozen, data_of, file_of
from jobs.paper.typeset import CannotTypeset, typeset
from jobs.views.access import role_of, signed_in
from jobs.views.asked import asked_job

WITH_CUSTOMERS_PAGE = 2  # the schema from which an issue has one
NO_PAGE = "This issue was frozen before records had a page for the customer. Print its PDF."
SEALED = "It was issued before and is open to the owner only: {}."


@require_safe
@signed_in()
def record(request: HttpRequest) -> HttpResponse:
    """The issues of a job, newest first; the one that is asked for (else the newest) to read.

    Its file and its data are held against their hashes each time.
    """
    return show_record(request, asked_job(request))


@require_safe
@signed_in()
def record_paper(request: HttpRequest) -> HttpResponse:
    """The file of an issue: the very bytes that were frozen, or the sentence why not."""
    job, asked = issue_in(request)
    if sealed(request, job, asked):
        return show_record(request, job, status=403)
    try:
        pdf = file_of(asked)
    except NotAsFrozen:
        return show_record(request, job, status=410)
    return file_response(pdf, f"record-{job.number}-{asked.issue}.pdf")


@require_safe
@signed_in()
def record_customer(request: HttpRequest) -> HttpResponse:
    """The customer's page of an issue alone, set anew from its frozen data, or why not."""
    job, asked = issue_in(request)
    if sealed(request, job, asked):
        return show_record(request, job, status=403)
    try:
        data_of(asked)
        if asked.schema < WITH_CUSTOMERS_PAGE:
            raise CannotTypeset(NO_PAGE)
        pdf = typeset(asked.data, part="customer").pdf
    except NotAsFrozen:
        return show_record(request, job, status=410)
    except (CannotTypeset, FontMissing) as trouble:
        return show_record(request, job, problem=str(trouble), status=503)
    name = f"record-{job.number}-{asked.issue}-customer.pdf"
    return file_response(pdf, name)


def issue_in(request: HttpRequest) -> tuple[Job, Record]:
    """The job in the address and the issue of its record that is asked for, else the newest.

    Raises:
        Http404: no record of it was issued, or not that one.

    """
    job = asked_job(request)
    asked = asked_issue(request, list(job.records.select_related("entry")))
    if asked is None:
        raise Http404("No record of this job was issued yet.")
    return job, asked


def file_response(pdf: bytes, name: str) -> HttpResponse:
    """A PDF shown in its place."""
    return HttpResponse(
        pdf,
        content_type="application/pdf",
        headers={
            "Content-Disposition": f'inline; filename="{name}"',
            "X-Content-Type-Options": "nosniff",
        },
    )


def show_record(
    request: HttpRequest, job: Job, *, problem: str = "", status: int = 200
) -> HttpResponse:
    """The page; where file or data are not as they were frozen it says so."""
    issues = list(job.records.select_related("issued_by", "entry").order_by("-issue"))
    asked = asked_issue(request, issues)
    said: dict[str, Any] = {"job": job, "issues": issues, "asked": asked, "problem": problem}
    said["has_page"] = bool(asked and asked.schema >= WITH_CUSTOMERS_PAGE)
    if asked and sealed(request, job, asked):
        said["file_problem"] = SEALED.format(job.customer.name)
    elif asked:
        try:
            file_of(asked)
        except NotAsFrozen as why:
            said["file_problem"] = str(why)
        try:
            said["data"] = data_of(asked)
        except NotAsFrozen as why:
            said["data_problem"] = str(why)
    return render(request, "jobs/record.html", said, status=status)


def sealed(request: HttpRequest, job: Job, issue: Record) -> bool:
    """Whether an issue has a name in it that was taken out since: then only the owner opens it."""
    at = job.customer.redacted_at
    return bool(at and issue.frozen_at <= at and role_of(request) != OWNER)


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
