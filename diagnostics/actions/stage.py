"""Moving a job to another stage: a decision, which rests on the stage its page was opened at."""

from typing import Any

from diagnostics.closing import before_stage, in_the_way
from diagnostics.job_now import job_now
from diagnostics.told import Moved
from jobs.actions.job import address, job_of
from jobs.actions.stage import move
from jobs.logbook import Refused
from jobs.models import Entry, Job
from jobs.models.jobs import STAGES
from jobs.models.people import DESK
from jobs.models.wordings import in_shop_time

NOT_THE_DESK = "A job that is closed is opened again by a technician or the owner."


def move_job(entry: Entry, told: Moved) -> dict[str, Any]:
    """Move the job.

    Raises:
        Refused: it is in another stage by now, something holds it, or it is not theirs to open.

    """
    job = job_of(entry)
    refuse_another_stage(job, told.came_from, entry)
    if job.stage == "closed" and entry.author.role == DESK:
        raise Refused(NOT_THE_DESK)
    held = in_the_way(before_stage(job_now(job), told.to))
    if held:
        raise Refused(f"Not {STAGES[told.to].lower()} yet: {' '.join(held)}")
    move(job, entry, told.to, why=told.why, words=told.words)
    return {"url": address(job), "stage": told.to}


def refuse_another_stage(job: Job, came_from: str, entry: Entry) -> None:
    """A decision rests on the stage the job was in when it was taken.

    Raises:
        Refused: the job is in another one, or came into that one again since; says since when and
            by whom.

    """
    last = job.stage_moves.select_related("entry__author").last()
    if job.stage == came_from and not (last and last.moved_at > entry.happened_at):
        return
    since = (
        f" since {in_shop_time(last.moved_at)} ({last.entry.author.name})"
        if last and last.to == job.stage
        else ""
    )
    raise Refused(
        f"This rests on the stage “{STAGES[came_from].lower()}” at"
        f" {in_shop_time(entry.happened_at)}, and the job is in"
        f" “{STAGES[job.stage].lower()}”{since}. Look at it and decide again."
    )
