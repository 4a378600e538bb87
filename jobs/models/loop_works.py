"""What work on the loop does to it, and which work of a job stands.

Each piece of work opens a car state with codes of what it did (`CarState.did`): by them the loop's
state, the orders and the weighing of tests know of it, without another query.
"""

from collections.abc import Iterable

from django.db.models import QuerySet

from jobs.models.amounts import LoopWork
from jobs.models.changes import CHARGE, QUESTIONS
from jobs.models.jobs import CarState, Job

DID = {
    "recovery": "Recovery, and how much came out is not told",
    "recovered": "Refrigerant recovered",
    "nothing_came": "Recovery, and next to nothing came out",
    "oil_out": "Oil came out",
    "oil_drained": "Oil drained from a part",
    "oil_in": "Oil put in",
    "evacuated": "Evacuated, its vacuum read",
    "pumped": "Pumped on, how deep is not told",
    "shallow": "Pumped on, not deep",
    "charged": "Charged by weight",
    "topped_up": "Topped up",
}
# What a recovery, oil and a vacuum leave is told by the loop's own state, and what was found before
# stays found: only refrigerant that is put in bears on a question anew. Oil was measured into an
# open loop, and nobody opens it again to see.
TOUCHES = {"charged": (CHARGE,), "topped_up": (CHARGE,)}
FILLS = ("charged", "topped_up")
RECOVERED = ("recovered", "recovery", "nothing_came")
EMPTIES = (*RECOVERED, "evacuated", "pumped", "shallow")
# The kinds of work, of WORKS, by which refrigerant comes out, and by which it goes in.
TAKES_OUT, PUTS_IN = ("recovery", "machine_cycle"), ("charge", "machine_cycle")


def touched_by(did: Iterable[str]) -> list[str]:
    """The questions that work bears on, in their order."""
    told = {question for code in did for question in TOUCHES.get(code, ())}
    return [question for question in QUESTIONS if question in told]


def works_of(job: Job) -> QuerySet[LoopWork]:
    """The work on a job's loop with state, author and what each took the place of."""
    return job.loop_works.select_related("state", "entry__author", "supersedes")


def standing_works(works: Iterable[LoopWork]) -> list[LoopWork]:
    """Those that count: not superseded, and not told to be a mistake."""
    return [one for one in works if not one.superseded_by_id and not one.mistake]


def is_emptied(states: Iterable[CarState]) -> bool:
    """Whether it was recovered or pumped on since it was filled; the states come in order."""
    emptied = False
    for code in (code for state in states for code in state.did):
        emptied = code not in FILLS and (emptied or code in EMPTIES)
    return emptied
