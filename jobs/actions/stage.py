"""Moving a job from one stage to another, with the row that tells of it."""

from typing import Any

from jobs.models import Entry, Job, StageMove


def move(job: Job, entry: Entry, to: str, **told: Any) -> None:
    """Put the job into a stage; `told` are columns of the move: why, words, how it was closed."""
    StageMove.objects.create(
        job=job, entry=entry, came_from=job.stage, to=to, moved_at=entry.happened_at, **told
    )
    job.stage, job.closing_kind = to, told.get("closing_kind", "")
    job.save(update_fields=["stage", "closing_kind"])
