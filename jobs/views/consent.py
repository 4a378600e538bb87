"""A consent after intake: what is asked, what came of it, and what was agreed so far."""

import uuid
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from jobs import signature
from jobs.entries import CONSENT
from jobs.forms.consent import ConsentForm
from jobs.logbook import enter
from jobs.models import Consent, Job, Named
from jobs.models.agreed_texts import WORK_TEXTS, Sums, shown_text, what_of_estimate
from jobs.models.consents import (
    CALLED,
    CUSTOMER,
    FIND_FAULT,
    NOT_REACHED,
    OUTCOMES,
    WORK,
    YES,
    agreed_before,
    in_force,
)
from jobs.models.estimates import in_force as newest_of
from jobs.models.named import who_may
from jobs.models.wordings import CONSENT_WAYS, in_shop_time, words
from jobs.money import DECIMALS
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.posted import told_from_post


@signed_in()
def consent(request: HttpRequest) -> HttpResponse:
    """The exact text, up to how much, who was asked, what came of it, signed or how.

    Raises:
        Http404: the address names a job that is not here, or a post names none.

    """
    job = asked_job(request) if asked_key(request) else None
    if request.method != "POST":
        return show(request, job, None)
    if job is None:
        raise Http404("The form does not say which job it is about; open it from the job again.")
    outcome = enter(CONSENT, told_from_post(request, CONSENT.version, job.key))
    return answer(request, outcome, lambda form: show(request, job, form))


def show(request: HttpRequest, job: Job | None, form: Any) -> HttpResponse:
    """The page; without a job a tablet fills it, and no price is on it."""
    consents = consents_of(job) if job else []
    estimates = list(job.estimates.all()) if job else []
    named = list(job.named.all()) if job else []
    newest = newest_of(estimates)
    if form is None:
        form = ConsentForm(job_key=job.key if job else None, initial=begun(job, consents, newest))
        if job:
            form.initial["consent_before"] = agreed_before(in_force(consents), form.currency)
    before = agreed_before(in_force(consents), newest.currency if newest else form.currency)
    form.offers(estimates, named)
    said = {
        "form": form,
        "job": job,
        "kind": CONSENT,
        "key": request.POST.get("key") or uuid.uuid4(),
        "agreed": [agreed(one) for one in consents],
        "named": who_may(named),
        "phones": phones(job, named) if job else None,
        "estimate": newest if newest and newest.may_be_agreed else None,
        "no_total": newest if newest and newest.total is None else None,
        "before": "" if before is None or not job else before,
        "work_text": WORK_TEXTS[form.fields["work_text"].initial],
        "decimals": DECIMALS.get(form.currency, 0),
        "field": (signature.WIDTH, signature.HEIGHT),
    }
    if job and said["estimate"] and newest:
        total = newest.total or 0
        added = None if before is None else total - before
        sums = Sums(before, added, total, newest.currency)
        what = what_of_estimate(newest, job.number)
        said["estimate_text"] = shown_text(what, sums, form.fields["work_text"].initial)
    return render(request, "jobs/consent.html", said)


def consents_of(job: Job) -> list[Consent]:
    """All that was asked on a job, with all that their words need."""
    around = ("superseded_by", "withdrawn_by", "estimate", "entry__author")
    return list(job.consents.select_related(*around))


def begun(job: Job | None, consents: list[Consent], newest: Any) -> dict[str, Any]:
    """What is filled in already: what is asked next, and the customer with their number."""
    if job is None:
        return {"consent_about": WORK, "consent_who": CUSTOMER, "consent_asked": "1"}
    about = WORK if any(one.counts for one in consents) else FIND_FAULT
    done = {one.estimate_id for one in consents if one.counts}
    if newest and newest.may_be_agreed and newest.pk not in done:
        about = str(newest.key)
    return {
        "consent_about": about,
        "consent_who": CUSTOMER,
        "consent_asked": "1",
        "number_called": job.customer.phone,
    }


def phones(job: Job, named: list[Named]) -> dict[str, str]:
    """The number of each who may be asked, by their answer."""
    people = {str(one.key): one.phone for one in who_may(named)}
    return {CUSTOMER: job.customer.phone, **people}


def agreed(one: Consent) -> dict[str, Any]:
    """A consent in words, with the signature as it was drawn."""
    return {
        "consent": one,
        "about": one.about_words,
        "amount": one.amount_words,
        "added": one.added_words,
        "said_yes": one.outcome in YES,
        "outcome": words(OUTCOMES, one.outcome),
        "reached": one.outcome != NOT_REACHED,
        "how": words(CONSENT_WAYS, one.how).lower(),
        "called": one.number_called if one.how in CALLED else "",
        "tries": [in_shop_time(at) for at in one.tried],
        "signed": one.signed_words,
        "path": signature.path(one.strokes),
        "field": (signature.WIDTH, signature.HEIGHT),
    }
