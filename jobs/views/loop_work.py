"""What the pages of work on the loop share: neutral for a tablet to keep, or about one job."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs import ledger
from jobs.forms.loop_work import LoopWorkForm, typed_in
from jobs.logbook import EntryKind, enter
from jobs.models import Job, LoopWork
from jobs.models.loop_works import since_filled, works_of
from jobs.models.people import BAY
from jobs.models.shop import units_chosen
from jobs.models.vehicles import BRANCHES, System
from jobs.models.wordings import words
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key, asked_original
from jobs.views.posted import told_from_post


def of_loop(
    request: HttpRequest, kind: EntryKind, form: type[LoopWorkForm], template: str
) -> HttpResponse:
    """The neutral page, which any tablet of the shop may keep; a job's own for those who do it."""
    if request.method != "POST" and asked_key(request) is None:
        return render(request, template, page(kind, form(), None))
    return of_job(request, kind, form, template)  # type: ignore[return-value]


@signed_in(*BAY)
def of_job(
    request: HttpRequest, kind: EntryKind, form: type[LoopWorkForm], template: str
) -> HttpResponse:
    """The form about the job in the address, and what was done to its loop so far.

    Raises:
        Http404: the address names work to correct that is not in the job.

    """
    job = asked_job(request)

    def show(shown: Any, corrected: LoopWork | None = None) -> HttpResponse:
        said = page(kind, shown, job) | {
            "key": request.POST.get("key") or uuid.uuid4(),
            "corrects": request.POST.get("corrects") or (corrected.key if corrected else ""),
        }
        return render(request, template, said)

    if request.method == "POST":
        return answer(request, enter(kind, told_from_post(request, kind.version, job.key)), show)
    same = job.loop_works.filter(what=form.WHAT)
    corrected = asked_original(request, same)
    begins = typed_in(corrected) if corrected else first_told(job)
    return show(form(job_key=job.key, initial=begins), corrected)


def page(kind: EntryKind, form: Any, job: Job | None) -> dict[str, Any]:
    """What the page shows."""
    said = {"kind": kind, "form": form, "job": job, "key": "", "corrects": ""}
    if job is None:
        return said
    works = list(works_of(job))
    return said | {"works": works, "label": label(job.vehicle.system)}


def first_told(job: Job) -> dict[str, Any]:
    """What a form begins with: the whole charge, where the loop was emptied since it was filled."""
    emptied = {"recovered", "nothing_came", "evacuated", "pumped"}
    done = since_filled(job.car_states.all())
    return {"fill": "full"} if emptied & set(done) else {}


def label(system: System) -> str:
    """What the label says: 520 g (18.3 oz) of R-134a, front; empty: nothing is noted."""
    mg = system.label_charge_mg
    charge = ledger.both(mg, units_chosen().unit("g")) if mg else ""
    told = " of ".join(one for one in (charge, system.refrigerant) if one)
    branches = ", ".join(words(BRANCHES, one).lower() for one in system.branches)
    return f"{told}, {branches}" if told and branches else told
