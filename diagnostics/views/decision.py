"""Which way to repair was chosen: the form, what it would rest on, and what was decided so far."""

import uuid
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render

from diagnostics.assess import Assessed
from diagnostics.decided import (
    decisions_of,
    in_time,
    reason_words,
    set_aside,
    was_open,
    who_and_when,
)
from diagnostics.entries import DECISION
from diagnostics.evidence.verdict_words import TO_CUSTOMER
from diagnostics.forms.decision import DecisionForm
from diagnostics.job_now import JobNow
from diagnostics.models import Decision
from diagnostics.offers_told import OfferTold, parted
from diagnostics.options_now import options_now
from jobs.logbook import enter
from jobs.models import Change, Entry, Job
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key, asked_original
from jobs.views.posted import told_from_post


@dataclass(frozen=True)
class DecisionTold:
    """One decision in words, and what was entered after it."""

    row: Decision
    who: str
    why: str
    was_open: Sequence[str]
    aside: Sequence[Any]
    steps_since: Sequence[Assessed]
    changes_since: Sequence[Change]
    counts: bool

    @property
    def saw_less(self) -> int:
        """How many entries came after its page was opened and before it arrived; 0: not told."""
        seen = self.row.page_saw
        return max(0, self.row.saw - seen) if seen is not None else 0


@signed_in()
def decision(request: HttpRequest) -> HttpResponseBase:
    """The form about the job in the address; without one, the neutral page that a tablet keeps."""
    if request.method != "POST" and asked_key(request) is None:
        neutral = {"job": None, "kind": DECISION, "key": "", "form": DecisionForm()}
        return render(request, "diagnostics/decision.html", neutral)
    job = asked_job(request)

    def show(form: Any) -> HttpResponse:
        return show_decision(request, job, form, None)

    if request.method == "POST":
        return answer(
            request, enter(DECISION, told_from_post(request, DECISION.version, job.key)), show
        )
    return show_decision(request, job, None, asked_original(request, job.decisions.all()))


def show_decision(
    request: HttpRequest, job: Job, form: DecisionForm | None, corrected: Decision | None
) -> HttpResponse:
    """The page; `form` is the one that came back with problems."""
    now = options_now(job)
    main, others, none = parted(now.told)
    offered = [*main, *none]
    plan = request.GET.get("plan", "")
    also = [one for one in others if one.offer.code == plan]
    first = {"plan": plan, "seen": Entry.objects.filter(job_key=job.key).count()}
    asked = form or DecisionForm(job_key=job.key, initial={**first, **typed_in(corrected)})
    asked.offer({one.offer.code: plan_words(one) for one in [*offered, *also]})
    chosen = next((one for one in now.told if one.offer.code == asked["plan"].value()), None)
    rows = list(decisions_of(job))
    standing = in_time(rows)
    said = {
        "job": job,
        "kind": DECISION,
        "key": request.POST.get("key") or uuid.uuid4(),
        "form": asked,
        "corrects": request.POST.get("corrects") or (str(corrected.key) if corrected else ""),
        "chosen": chosen,
        "warnings": warnings(chosen) if chosen else [],
        "made": [in_words(one, now.now, one is standing[-1]) for one in reversed(standing)],
        "replaced": [one for one in rows if one.superseded_by_id],
    }
    return render(request, "diagnostics/decision.html", said)


def plan_words(one: OfferTold) -> str:
    """A way with its price of today, as a button says it."""
    price = one.total or ("price not whole yet" if one.offer.repairs else "")
    open_ = one.offer.repairs and one.offer.standing not in ("proved", "likely")
    note = one.offer.mark or (f"what it is meant for: {one.stands}" if open_ else "")
    return f"{one.offer.words}{f', {price}' if price else ''}{f' ({note})' if note else ''}"


def warnings(one: OfferTold) -> list[str]:
    """What a person has to know before this way is taken; it refuses nothing."""
    offer = one.offer
    told = [offer.warning] if offer.warning else []
    if offer.repairs and offer.seen != "proved" and not offer.warning:
        told.append(
            f"What it cures is {TO_CUSTOMER[offer.seen]}: it may be paid and change nothing."
        )
    told += one.against
    told += offer.unshown
    if one.is_partial:
        told.append("It does not cure all that was found.")
    if offer.breaks:
        told.append(f"Part sellers may ask for {' and '.join(offer.breaks)}, which it leaves out.")
    return [*told, *offer.cautions]


def typed_in(one: Decision | None) -> dict[str, Any]:
    """A decision as it was told, to begin its correction with."""
    names = ("plan", "decided_by", "told_how", "reasons", "why")
    return {name: getattr(one, name) for name in names} if one else {}


def in_words(one: Decision, now: JobNow, counts: bool) -> DecisionTold:
    """One decision with what came after it."""
    at = one.entry_id
    return DecisionTold(
        one,
        who_and_when(one),
        reason_words(one),
        was_open(one),
        set_aside(one),
        [step for step in now.steps if step.step.entry_id > at and step.stands],
        [change for change in now.changes if change.entry_id > at],
        counts,
    )
