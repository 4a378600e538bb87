"""Writing a test step: its row, numbered in its job and stamped with how the car stood."""

import uuid
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from diagnostics.models import Step
from jobs.actions.fill import address, job_of
from jobs.models import CarState, Entry, Job


@dataclass(frozen=True)
class ToldStep:
    """What a step's form says: names as the columns of Step."""

    kind: str
    kind_version: int
    readings: Mapping[str, Any]
    kept: Mapping[str, str]
    marks: list[dict[str, str]]
    seen: str
    not_done: str
    not_done_words: str
    corrected_why: str = ""


def record_step(entry: Entry, told: ToldStep) -> dict[str, Any]:
    """Write the step. One that corrects another supersedes it; both stay."""
    job = job_of(entry)
    last = Step.objects.filter(job=job).order_by("-number").first()
    step = Step.objects.create(
        key=entry.key,
        job=job,
        number=last.number + 1 if last else 1,
        entry=entry,
        car_state=state_at(job, entry.happened_at),
        made_at=entry.happened_at,
        failing_now=failing_at(job, entry.happened_at),
        kind=told.kind,
        kind_version=told.kind_version,
        readings=dict(told.readings),
        kept=dict(told.kept),
        marks=told.marks,
        seen=told.seen,
        not_done=told.not_done,
        not_done_words=told.not_done_words,
        corrected_why=told.corrected_why if entry.corrects else "",
    )
    if entry.corrects:
        supersede(job, entry.corrects, step)
    if job.stage == "intake" and not step.not_done:
        job.stage = "testing"
        job.save(update_fields=["stage"])
    return {"url": address(job), "step": step.number}


def state_at(job: Job, moment: datetime) -> CarState:
    """The car state that was open at a moment; the first, for a moment before it."""
    states = list(job.car_states.all())
    open_then = [state for state in states if state.opened_at <= moment]
    return open_then[-1] if open_then else states[0]


def failing_at(job: Job, moment: datetime) -> str:
    """How the job's switch stood at a moment; empty: nobody had told."""
    turned = Entry.objects.filter(kind="failing_now", job_key=job.key, happened_at__lte=moment)
    last = turned.order_by("-happened_at", "-id").first()
    return str(last.fields["failing"][0]) if last else ""


def supersede(job: Job, corrected: uuid.UUID, step: Step) -> None:
    """Put the step in place of the one it corrects, or of what took that one's place since."""
    old = Step.objects.filter(job=job, key=corrected).first()
    while old and old.superseded_by_id:
        old = old.superseded_by
    if old and old.pk != step.pk:
        old.superseded_by = step
        old.save(update_fields=["superseded_by"])
