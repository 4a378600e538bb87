"""Estimates of a job: the next version to be written, and each version as it is printed."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from jobs.entries import ESTIMATE
from jobs.forms.estimate import EstimateForm
from jobs.logbook import enter
from jobs.models import Estimate, Job
from jobs.models.estimates import in_force
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.posted import told_from_post
from jobs.views.priced import ADD_UP, asked_row, listed_prices, paper_of, sums_part, sums_said

FROM_DECISION = "decision"
NO_WORK = (
    "An estimate is no bill and no consent. Work begins when you agree to it, and what goes beyond"
    " it needs your agreement again."
)


@signed_in()
def estimate(request: HttpRequest) -> HttpResponse:
    """One version as it is printed, or the form of the next."""
    job = asked_job(request)
    versions = versions_of(job)
    if request.method == "POST" and request.POST.get("button") == ADD_UP:
        return show_form(request, job, versions, typed_so_far(request, job))
    if request.method == "POST":
        outcome = enter(ESTIMATE, told_from_post(request, ESTIMATE.version, job.key))
        return answer(request, outcome, lambda form: show_form(request, job, versions, form))
    version = asked_row(request, versions, "version")
    if version:
        return render(
            request, "jobs/estimate.html", sheet_of(job, version) | {"versions": versions}
        )
    return show_form(request, job, versions, to_begin(request, job, versions))


@signed_in()
@require_POST
def estimate_sums(request: HttpRequest) -> HttpResponse:
    """What the lines typed so far come to."""
    return sums_part(request, typed_so_far(request, asked_job(request)))


def sheet_of(job: Job, one: Estimate) -> dict[str, Any]:
    """What is printed of one version."""
    standing = []
    if one.superseded_by:
        later = f"estimate {one.number + 1}"
        standing.append(f"Superseded by {later}: this one counts no more.")
    if one.total is None:
        standing.append(f"This has {one.total_words}. Nobody can agree to it yet.")
    return paper_of(job, one) | {"standing": standing, "after": [NO_WORK], "title": one.words}


def versions_of(job: Job) -> list[Estimate]:
    """All versions, the newest first."""
    rows = job.estimates.select_related("entry__author", "before", "superseded_by__entry")
    return list(rows.order_by("-number"))


def typed_so_far(request: HttpRequest, job: Job) -> EstimateForm:
    """The form as it is typed, to be added up."""
    form = EstimateForm(request.POST, job_key=job.key)
    form.is_valid()
    return form


def to_begin(request: HttpRequest, job: Job, versions: list[Estimate]) -> EstimateForm:
    """The form with the lines of the version in force; or to be filled from the decision."""
    form = EstimateForm(job_key=job.key)
    last = in_force(versions)
    form.make_rows(0)
    if last:
        form.initial["on"] = last.key
    if last and request.GET.get("from") != FROM_DECISION:
        form.begin(last.lines, last.currency)
        form.initial["note"] = last.note
        form.initial["plan"] = last.plan
        form.initial["decision"] = last.decision or ""
    else:
        form.begins = True
    return form


def show_form(request: HttpRequest, job: Job, versions: list[Estimate], form: Any) -> HttpResponse:
    """The page of the next version; what the lines come to is worked out when they are shown."""
    said = {
        "job": job,
        "form": form,
        "kind": ESTIMATE,
        "key": request.POST.get("key") or uuid.uuid4(),
        "corrects": request.POST.get("corrects", ""),
        "prices": listed_prices(form.currency),
        "versions": versions,
        "last": in_force(versions),
        "sums": sums_said(form) if form.is_bound else None,
        "title": f"Estimate {len(versions) + 1}",
    }
    return render(request, "jobs/estimate.html", said)
