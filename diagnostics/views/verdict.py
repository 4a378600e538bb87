"""What the tests of a job conclude: six questions, what carries each answer, what overturns it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from diagnostics.assess import Assessed
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.concluded import Concluded
from diagnostics.evidence.findings import Standing
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.verdict_shown import plain_words, questions_shown
from diagnostics.evidence.verdict_words import (
    BY_NAME,
    INSIDE,
    TO_CUSTOMER,
    disagree_words,
    not_alone_words,
)
from diagnostics.next_step import next_of
from diagnostics.weighing import around_of, weighed
from jobs.models.jobs import FAILING
from jobs.models.people import BAY
from jobs.views.access import role_of, signed_in
from jobs.views.asked import asked_job, asked_key

LEGEND: list[tuple[Standing, str, str]] = [
    (standing, words, TO_CUSTOMER[standing]) for standing, words in INSIDE.items()
]
TOLD_NOTHING = "It told nothing that bears on a question."
TOO_OLD = "Left out: the car was changed several times since. Make it again if it still matters."


@dataclass(frozen=True)
class AtOdds:
    """Tests that do not go together; `again` is the one to make again, None: they need not."""

    words: str
    again: Kind | None


@signed_in()
def verdict(request: HttpRequest) -> HttpResponse:
    """The verdict on the job in the address; without one, the page that a tablet fills."""
    said: dict[str, Any] = {"legend": LEGEND, "may_test": role_of(request) in BAY}
    if asked_key(request) is None:
        return render(request, "diagnostics/verdict.html", said | {"job": None})
    job = asked_job(request)
    around = around_of(job)
    found = weighed(around)
    questions = questions_shown(found, KINDS)
    said |= {
        "job": job,
        "made": around.steps,
        "changes": around.changes,
        "loop": around.loop,
        "shut": around.shut,
        "state": around.states[-1],
        "failing": FAILING.get(job.failing_now, "not told"),
        "weighed": len(found.steps),
        "not_weighed": list(not_weighed(around.steps, found)),
        "plain": list(plain_words(questions)),
        "joint": [not_alone_words(one) for one in found.joint],
        "at_odds": list(at_odds(found)),
        "something_else": [BY_NAME[name].words for name in found.something_else],
        "questions": questions,
        "step": next_of(found, around),
    }
    return render(request, "diagnostics/verdict.html", said)


def at_odds(found: Concluded) -> Iterator[AtOdds]:
    """What does not go together, patterns first."""
    for one in found.disagree:
        yield AtOdds(disagree_words(one, KINDS), KINDS[one.again] if one.again else None)


def not_weighed(steps: Iterable[Assessed], found: Concluded) -> Iterator[tuple[Assessed, str]]:
    """The steps that carry nothing, with why; one that was replaced counts no more."""
    for one in steps:
        if one.step.number in found.steps or one.step.superseded_by_id:
            continue
        yield one, one.not_done or (TOO_OLD if one.step.number in found.too_old else TOLD_NOTHING)
