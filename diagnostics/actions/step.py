"""Writing a test step: its row, numbered in its job."""

from typing import Any

from diagnostics.models import Named, Step
from diagnostics.told import ToldStep
from jobs.actions.corrections import in_order, link
from jobs.actions.job import address, job_of
from jobs.actions.stage import move
from jobs.models import Entry


def record_step(entry: Entry, told: ToldStep) -> dict[str, Any]:
    """Write the step. One that corrects another of its kind supersedes it, and both stay.

    A correction may arrive before what it corrects, or after a later one. All of them were made
    when the first was.
    """
    job = job_of(entry)
    last = Step.objects.filter(job=job).order_by("-number").first()
    step = Step.objects.create(
        key=entry.key,
        job=job,
        number=last.number + 1 if last else 1,
        entry=entry,
        made_at=entry.done_at,
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
    Named.objects.bulk_create(
        Named(step=step, quantity=quantity, equipment=thing)
        for quantity, thing in told.named.items()
    )
    same_kind = Step.objects.filter(job=job, kind=step.kind)
    family = in_order(list(same_kind.select_related("entry", "superseded_by")), step)
    link(family)
    arrived_before = Step.objects.filter(pk__in=[one.pk for one in family])
    arrived_before.exclude(made_at=step.made_at).update(made_at=step.made_at)
    if job.stage == "intake" and not step.not_done:
        move(job, entry, "testing")
    return {"url": address(job), "step": step.number}
