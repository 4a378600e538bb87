"""Closing a job: a decision, which is refused where its sentence to the customer were not true."""

from typing import Any

from diagnostics.actions.stage import refuse_another_stage
from diagnostics.assess import Assessed
from diagnostics.closing import before_closing, in_the_way, only_a_belt
from diagnostics.job_now import JobNow, job_now
from diagnostics.points import must_not_run
from diagnostics.since_changed import is_fine
from diagnostics.told import Closed
from jobs.actions.job import address, job_of
from jobs.actions.stage import move
from jobs.logbook import Refused
from jobs.models import Entry
from jobs.models.closing import ENDINGS

HANG_IT = "Hang the tag in the car, and say so."
SHORT_BELT = "short_belt"
BELT_ALONE = (
    "By what is noted only a belt was changed, and a new belt makes nothing safe: note that the"
    " compressor was unplugged, or say that the belt is a shorter one, past it."
)
NEVER_OPENED = "The loop was opened by what is noted"


def close_job(entry: Entry, told: Closed) -> dict[str, Any]:
    """Close the job.

    Raises:
        Refused: it is in another stage by now, something holds this ending, or a test that it names
            does not stand any more.

    """
    job = job_of(entry)
    refuse_another_stage(job, told.came_from, entry)
    now, ending = job_now(job), ENDINGS[told.kind]
    held = [*in_the_way(before_closing(now, told.kind)), *against(now, told)]
    if held:
        raise Refused(f"Not closed as “{ending.in_a_line}”: {' '.join(held)}")
    entry.marks = [*entry.marks, *told.marks]
    move(job, entry, "closed", closing_kind=told.kind, answers=dict(told.answers))
    return {"url": address(job), "stage": "closed", "closing_kind": told.kind}


def carries(one: Assessed) -> bool:
    """Whether a test may carry that the car does what it can: it found nothing wrong."""
    return not one.stands or is_fine(one)


def against(now: JobNow, told: Closed) -> list[str]:
    """What was answered against what the job has, in sentences."""
    stand = {str(one.step.number) for one in now.steps if one.stands}
    gone = [number for number in told.answers.get("carried_by", ()) if number not in stand]
    said = [f"Step {number} does not stand any more." for number in gone]
    said += [
        f"Step {one.step.number}, {one.title}, does not carry it: {one.finding}"
        for one in now.steps
        if str(one.step.number) in told.answers.get("carried_by", ()) and not carries(one)
    ]
    belt_alone = told.kind == "made_safe" and any(only_a_belt(now))
    if belt_alone and SHORT_BELT not in told.answers.get("safe_by", ()):
        said.append(BELT_ALONE)
    opened = next((one for one in now.changes if one.what == "opened"), None)
    if told.answers.get("loop_capped") == "not_opened" and opened:
        said.append(f"{NEVER_OPENED}: {opened.words.lower()}, so it is not “never opened”.")
    untagged = told.answers.get("tag") != "yes"
    barred = must_not_run(now.shut)
    if "tag" in ENDINGS[told.kind].may_ask and barred and untagged:
        said.append(" ".join([*(gate.run_words for gate in barred), HANG_IT]))
    return said
