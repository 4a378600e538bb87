"""What the job's page and the board show of places and of what is waited for."""

import uuid
from datetime import datetime
from typing import Any

from django import template
from django.utils import timezone

from diagnostics.physics.units import NO_BREAK
from jobs.models import Job, Waiting
from jobs.models.holds import end_of
from jobs.models.moments import short_time
from jobs.models.places import bay_words, hook_words
from jobs.models.waiting import standing_waits

register = template.Library()
UNBROKEN_MAX = 24


@register.inclusion_tag("jobs/_job_waiting.html", takes_context=True)
def job_waiting(
    context: dict[str, Any],
    job: Job | None,
    without_links: bool = False,
) -> dict[str, Any]:
    """Where the car is and what it waits for; without a job, the places that a script fills."""
    now = timezone.now()
    waits = sorted(standing_waits([job]), key=end_of) if job else []
    return {
        "job": job,
        "where": where(job, now) if job else "",
        "waits": [(one, one.time_words(now)) for one in waits],
        "key": uuid.uuid4() if job else "",
        "links": not without_links,
        "csrf_token": context.get("csrf_token"),
    }


def where(job: Job, now: datetime) -> str:
    """Place, key, promise and who has it, in one line; empty: nothing was told."""
    promised = short_time(job.promised_at, now) if job.promised_at else ""
    past = bool(job.promised_at and job.promised_at <= now)
    told = (
        bay_words(job.bay),
        hook_words(job.key_hook),
        job.has_it.name if job.has_it else "",
        f"{'was due' if past else 'promised'} {promised}" if promised else "",
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
    name = job.has_it.name if job.has_it else ""
    told = (car.words, unbroken(bay_words(job.bay)), name, unbroken(promised))
    return " · ".join(text for text in told if text)


def unbroken(text: str) -> str:
    """Words that stand on one line together."""
    return text.replace(" ", NO_BREAK) if len(text) <= UNBROKEN_MAX else text


def where_promised(job: Job, hold: Any) -> str:
    """The promise, where the gutter does not have it."""
    if hold.waiting is None and hold.word != "here since":
        return ""
    if not job.promised_at:
        return "nothing promised"
    now = timezone.now()
    word = "was due" if job.promised_at <= now else "promised"
    return f"{word} {short_time(job.promised_at, now)}"


@register.filter
def run_words(one: Waiting, now: datetime) -> str:
    """What runs, as far as it has come: Vacuum, 22 of 45 minutes."""
    if not one.by_itself or not one.until:
        return one.label
    if one.over(now):
        return f"{one.label} is over"
    gone = int((now - one.began_at).total_seconds() // 60)
    return f"{one.label}, {gone} of {one.minutes} minutes"


@register.filter
def time_words(one: Waiting, now: datetime) -> str:
    """Its time in words."""
    return one.time_words(now)
