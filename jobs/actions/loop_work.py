"""Writing work on the loop: its row, what it moved, and the car state it opens."""

from typing import Any

from jobs.actions.amounts import book, let_last_count
from jobs.actions.car_states import StateTold, open_state, share_state
from jobs.actions.corrections import in_order, link
from jobs.actions.failing_now import settle_failing
from jobs.actions.job import address, job_of
from jobs.actions.stage import move
from jobs.actions.waiting import settle_vacuum
from jobs.ledger import CHARGE_TOLERANCE_MG
from jobs.models import CarState, Entry, Job, LoopWork, Move
from jobs.models.amounts import CAR, REFRIGERANT
from jobs.told import LoopWorked


def record_loop_work(entry: Entry, told: LoopWorked) -> dict[str, Any]:
    """Write the work and book what it moved. A correction takes its place in the same car state.

    A correction may arrive before what it corrects, or after a later one: the last to happen
    counts, and the moves of all others are undone.
    """
    job = job_of(entry)
    row = LoopWork(
        key=entry.key,
        job=job,
        entry=entry,
        what=told.what,
        told={
            **told.told,
            "words": told.words,
            "did": list(told.did),
            "touches": list(told.touches),
            **({"mistake": True} if told.mistake else {}),
        },
        corrected_why=told.corrected_why if entry.corrects else "",
    )
    row.state = state_of(row)
    row.save()
    book(entry, job, told.moved)
    family = in_order(list(job.loop_works.select_related("entry", "state", "superseded_by")), row)
    link(family)
    share_state(job, family, as_state)
    let_last_count([one.entry for one in family], entry)
    settle_failing(job)
    settle_vacuum(job)
    put_stage(job, entry)
    entry.marks = [*entry.marks, *told.marks]
    if entry.happened_at < job.opened_at:
        entry.marks.append({"code": "before_received"})
    return {"url": address(job), "state": family[0].state.number if family[0].state else None}


def state_of(row: LoopWork) -> CarState:
    """The car state that work belongs to; what corrects a mistake opens none."""
    corrects = row.entry.corrects
    corrected = row.job.loop_works.filter(key=corrects).first() if corrects else None
    if corrected and corrected.state:
        return corrected.state
    if row.mistake:
        return row.job.car_states.reverse()[0]
    return open_state(row.job, row.entry, as_state(row))


def as_state(row: LoopWork) -> StateTold:
    """What work tells of the state that it opens."""
    return StateTold(row.words, row.told["touches"], row.told["did"], row.mistake)


def put_stage(job: Job, entry: Entry) -> None:
    """Weighing out and back is part of looking for the fault; more than that is a repair.

    So is any work on the loop once somebody is about to decide. A job that is further on stays.
    """
    if job.stage == "deciding" or (job.stage in ("intake", "testing") and gained(job)):
        move(job, entry, "repairing")
    elif job.stage == "intake":
        move(job, entry, "testing")


def gained(job: Job) -> bool:
    """Whether more refrigerant went into the car than came out of it."""
    moves = Move.objects.filter(job=job, substance=REFRIGERANT)
    into = sum(moves.filter(to_place=CAR).values_list("amount", flat=True))
    out = sum(moves.filter(from_place=CAR).values_list("amount", flat=True))
    return into - out > CHARGE_TOLERANCE_MG
