"""Writing a test step: its row, numbered in its job."""

import uuid
from typing import Any

from diagnostics.models import Step
from diagnostics.told import ToldStep
from jobs.actions.job import address, job_of
from jobs.models import Entry, Job


def record_step(entry: Entry, told: ToldStep) -> dict[str, Any]:
    """Write the step. One that corrects another supersedes it, whichever came first; both stay."""
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
    for waiting in Step.objects.filter(
        job=job, kind=step.kind, entry__corrects=step.key, supersedes=None
    ):
        supersede(job, step.key, waiting)
    if job.stage == "intake" and not step.not_done:
        job.stage = "testing"
        job.save(update_fields=["stage"])
    return {"url": address(job), "step": step.number}


def supersede(job: Job, corrected: uuid.UUID, step: Step) -> None:
    """Put the step in place of the one it corrects, or of what took that one's place since.

    Where that one is not in the job, is another kind of test, or it stands in its place already,
    nothing is replaced.
    """
    old = Step.objects.filter(job=job, key=corrected, kind=step.kind).first()
    if old and last_of(old) != last_of(step):
        old = last_of(old)
        old.superseded_by = step
        old.save(update_fields=["superseded_by"])


def last_of(step: Step) -> Step:
    """What stands in a step's place now: itself, unless it was superseded."""
    while step.superseded_by:
        step = step.superseded_by
    return step
