"""The sheet for a part seller's warranty desk, from the frozen data of an issue."""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from jobs.models import Record
from jobs.paper.claim import claim_of, fitted
from jobs.paper.shelf import NotAsFrozen, data_of
from jobs.views.access import signed_in
from jobs.views.asked import asked_job
from jobs.views.record import SEALED, asked_issue, sealed


@require_safe
@signed_in()
def claim(request: HttpRequest) -> HttpResponse:
    """One part that was fitted, as the issue in the address (else the newest) tells of it."""
    job = asked_job(request)
    issues = list(job.records.select_related("entry"))
    asked = asked_issue(request, issues)
    said: dict[str, Any] = {"job": job, "asked": asked}
    if asked and sealed(request, job, asked):
        said["problem"] = SEALED.format(job.customer.name)
        return render(request, "jobs/claim.html", said, status=403)
    if asked:
        try:
            said |= sheet(request, asked, issues)
        except NotAsFrozen as why:
            said["problem"] = str(why)
    return render(request, "jobs/claim.html", said, status=410 if "problem" in said else 200)


def sheet(request: HttpRequest, asked: Record, issues: list[Record]) -> dict[str, Any]:
    """What stands on it.

    Raises:
        Http404: the address names a part that this issue does not have.
        NotAsFrozen: the issue's data are not as they were.

    """
    data = data_of(asked)
    parts = fitted(data)
    key = request.GET.get("part", "")
    chosen = next((one for one in parts if not key or one["key"] == key), None)
    if chosen is None and key:
        raise Http404("This issue has no such part.")
    return {
        "data": data,
        "parts": parts,
        "claim": claim_of(data, chosen) if chosen else None,
        "newest": max(one.issue for one in issues),
    }
