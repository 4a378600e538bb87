"""What shows that the repaired car cools: before and after, what is still to show, or too cold."""

import uuid
from typing import Any
from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse

from diagnostics.entries import VERIFIED
from diagnostics.evidence.showable import TOO_COLD
from diagnostics.evidence.shown import SAID, Shown
from diagnostics.forms.verified import VerifiedForm
from diagnostics.models import Verified
from diagnostics.verification import Verification, looks_of, verification_of
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.people import BAY
from jobs.models.shop import units_chosen
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key, asked_original
from jobs.views.posted import told_from_post

NOT_VERIFIABLE = "repaired_not_verifiable"
COLUMNS = ("caps", "label", "label_refrigerant", "label_oil", "label_on")


@signed_in()
def verification(request: HttpRequest) -> HttpResponse:
    """The verification of the job in the address; without one, the page that a tablet fills."""
    if request.method != "POST" and asked_key(request) is None:
        return show(request, None, VerifiedForm())
    job = asked_job(request)
    if request.method == "POST":  # the logbook takes it from those who work on the car
        outcome = enter(VERIFIED, told_from_post(request, VERIFIED.version, job.key))
        return answer(request, outcome, lambda form: show(request, job, form))
    corrected = asked_original(request, Verified.objects.filter(job=job))
    form = VerifiedForm(job_key=job.key, initial=typed_in(corrected))
    return show(request, job, form, str(corrected.key) if corrected else "")


def show(request: HttpRequest, job: Job | None, form: Any, corrects: str = "") -> HttpResponse:
    """The page with its form."""
    said = {
        "job": job,
        "form": form,
        "kind": VERIFIED,
        "may_test": role_of(request) in BAY,
        "corrects": request.POST.get("corrects") or corrects,
        "key": request.POST.get("key") or (uuid.uuid4() if job else ""),
    }
    if job:
        seen = verification_of(job)
        said |= {
            "seen": seen,
            "looks": looks_of(job),
            "counts": counts(seen),
            "shown_anyway": [one for one in seen.shown if one.is_shown],
            "close_cold": close_cold(job, seen),
            "warm_from": units_chosen().text(TOO_COLD, "°C"),
        }
    return render(request, "diagnostics/verification.html", said)


def counts(seen: Verification) -> list[str]:
    """How many of the things to show stand how, in words, none of none."""
    by = [(words, of_it(seen.shown, code)) for code, words in SAID.items()]
    return [f"{count} {words}" for words, count in by if count]


def of_it(shown: tuple[Shown, ...], code: str) -> int:
    """How many stand so."""
    return sum(one.stands == code for one in shown)


def close_cold(job: Job, seen: Verification) -> str:
    """The address of the ending that says so, with air and when to come back filled in."""
    asked = {"job": str(job.key), "closing_kind": NOT_VERIFIABLE}
    if seen.cold:
        air = units_chosen().number(seen.cold.air_k, "°C", 0)
        asked |= {"air": air, "come_back": seen.cold.come_back}
    return f"{reverse('close')}?{urlencode(asked)}"


def typed_in(row: Verified | None) -> dict[str, Any]:
    """A look as it was told, to begin its correction with."""
    if row is None:
        return {}
    grams = {} if row.label_mg is None else {"label_grams": f"{row.label_mg / 1000:g} g"}
    return {name: getattr(row, name) for name in COLUMNS} | grams
