"""What the job's page and the board show of places and of what is waited for."""

import uuid
from datetime import datetime
from typing import Any

from django import template
from django.utils import timezone

from diagnostics.physics.units import NO_BREAK
from jobs.models import Job, Waiting
from jobs.models.handovers import not_taken_over
from jobs.models.holds import end_of
from jobs.models.moments import short_time
from jobs.models.people import OWNER, TECHNICIAN
from jobs.models.places import bay_words, hook_words, promise_word
from jobs.models.waiting import on_tablets, waits_now

register = template.Library()
UNBROKEN_MAX = 24


@register.inclusion_tag("jobs/_job_waiting.html", takes_context=True)
def job_waiting(context: dict[str, Any], job: Job | None) -> dict[str, Any]:
    """Where the car is and what it waits for; without a job, the places that a script fills."""
    now = timezone.now()
    waits = sorted(waits_now(job), key=end_of) if job else []
    return {
        "job": job,
        "where": where(job, now) if job else "",
        "waits": [(one, time_now(one, now)) for one in waits],
        "may_test": may_test(context),
        "key": uuid.uuid4() if job else "",
        "labels": None if job else on_tablets(),
        "csrf_token": context.get("csrf_token"),
    }


def may_test(context: dict[str, Any]) -> bool:
    """Whether who looks at it makes tests."""
    role = getattr(getattr(context.get("request"), "user", None), "role", "")
    return role in (TECHNICIAN, OWNER)


def time_now(one: Waiting, now: datetime) -> str:
    """Its time in words; of a timer that is over, what is to be done."""
    return one.over_words if one.by_itself and one.over(now) else one.time_words(now)


@register.inclusion_tag("jobs/_job_timers.html", takes_context=True)
def job_timers(context: dict[str, Any], job: Job | None) -> dict[str, Any]:
    """What runs by itself or is over, one line each, below the loop's words."""
    now = timezone.now()
    waits = sorted(waits_now(job), key=end_of) if job else []
    runs = [(one, time_now(one, now)) for one in waits if one.by_itself]
    return {"job": job, "runs": runs, "may_test": may_test(context)}


def where(job: Job, now: datetime) -> str:
    """Place, key, promise and who has it, in one line; empty: nothing was told."""
    told = (
        bay_words(job.bay),
        hook_words(job.key_hook),
        job.has_it.name if job.has_it else "",
        promise(job.promised_at, now) if job.promised_at else "",
    )
    return " · ".join(text for text in told if text)


@register.filter
def where_now(job: Job) -> str:
    """The same, as of now."""
    return where(job, timezone.now())


@register.filter
def board_line(job: Job, hold: Any) -> str:
    """A car's first soft line on the board: car, place, who, what is promised."""
    car = job.vehicle
    promised = where_promised(job, hold)
    hook = unbroken(hook_words(job.key_hook))
    told = (car.words, unbroken(bay_words(job.bay)), hook, who_has(job), unbroken(promised))
    return " · ".join(text for text in told if text)


def who_has(job: Job) -> str:
    """Who has the car, and to whom it was handed over as long as nobody took it over."""
    name = job.has_it.name if job.has_it else ""
    note = not_taken_over(job.handovers.all())
    return ", ".join(text for text in (name, note and f"handed over to {note.to_words}") if text)


def unbroken(text: str) -> str:
    """Words that stand on one line together."""
    return text.replace(" ", NO_BREAK) if len(text) <= UNBROKEN_MAX else text


def where_promised(job: Job, hold: Any) -> str:
    """The promise, where the gutter does not have it."""
    if hold.waiting is None and hold.word != "here since":
        return ""
    if not job.promised_at:
        return "nothing promised"
    return promise(job.promised_at, timezone.now())


def promise(promised_at: datetime, now: datetime) -> str:
    """What was promised in words: promised 16:00."""
    return f"{promise_word(promised_at, now)} {short_time(promised_at, now)}"


@register.filter
def run_words(one: Waiting, now: datetime) -> str:
    """What runs, as far as it has come: Vacuum, 22 of 45 minutes."""
    if not one.by_itself or not one.until:
        return one.label
    if one.over(now):
        return f"{one.label}: {one.over_words}"
    gone = int((now - one.began_at).total_seconds() // 60)
    return f"{one.label}, {gone} of {one.minutes} minute{'s' if one.minutes != 1 else ''}"


@register.filter
def time_words(one: Waiting, now: datetime) -> str:
    """Its time in words."""
    return one.time_words(now)
