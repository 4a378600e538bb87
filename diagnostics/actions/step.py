"""Writing a test step: its row, numbered in its job."""

import uuid
from typing import Any

from diagnostics.models import Step
from diagnostics.told import ToldStep
from jobs.actions.job import address, job_of
from jobs.models import Entry, Job


def record_step(entry: Entry, told: ToldStep) -> dict[str, Any]:
    """Write the step. One that corrects another supersedes it; both stay."""
    job = job_of(entry)
    last = Step.objects.filter(job=job).order_by("-number").first()
    step = Step.objects.create(
        key=entry.key,
        job=job,
        number=last.number + 1 if last else 1,
        entry=entry,
        made_at=entry.happened_at,
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


def supersede(job: Job, corrected: uuid.UUID, step: Step) -> None:
    """Put the step in place of the one it corrects, or of what took that one's place since."""
    old = Step.objects.filter(job=job, key=corrected).first()
    while old and old.superseded_by_id:
        old = old.superseded_by
    if old and old.pk != step.pk:
        old.superseded_by = step
        old.save(update_fields=["superseded_by"])
