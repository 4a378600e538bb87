"""What pages show of the verdict: the six questions, each in a line, and the command's way."""

from typing import Any

from django import template

from diagnostics.assess import Assessed, system_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.concluded import Concluded
from diagnostics.evidence.path import path_of
from diagnostics.evidence.system import System
from diagnostics.evidence.verdict_shown import NAMES, Question, plain_words, questions_shown
from diagnostics.evidence.verdict_words import disagree_words, not_alone_words
from diagnostics.templatetags.steps import around_on
from diagnostics.weighing import weighed
from jobs.models import Job
from jobs.models.changes import QUESTIONS

register = template.Library()


@register.inclusion_tag("diagnostics/_path.html", takes_context=True)
def command_path(context: dict[str, Any], job: Job | None, made: list[Assessed]) -> dict[str, Any]:
    """The links from "A/C asked for" to "shaft turns", as tests showed them; none without a job."""
    if job is None:
        return {"job": None}
    around = around_on(context, job, made)
    groups: list[dict[str, Any]] = []
    before = "none"
    for group in path_of(around.system, weighed(around)):
        rows: list[dict[str, Any]] = []
        for link in group.links:
            rows.append({"link": link, "before": before, "after": link.state})
            before = link.state
        groups.append({"group": group, "through": rows[0]["before"], "rows": rows})
    groups[-1]["rows"][-1]["after"] = "none"
    return {"job": job, "groups": groups}


@register.inclusion_tag("diagnostics/_questions.html", takes_context=True)
def six_questions(context: dict[str, Any], job: Job | None, made: list[Assessed]) -> dict[str, Any]:
    """The questions in a line each, with how many of the tests of each were made.

    The page without a job has them empty, for its script to fill.
    """
    told = counts(job, made)
    shown: dict[str, Question] = {}
    if job:
        found = questions_shown(weighed(around_on(context, job, made)), KINDS)
        shown = {one.code: one for one in found}
    rows = [
        {"code": code, "name": NAMES[code], "question": shown.get(code), "count": told[code]}
        for code in QUESTIONS
        if code in shown or job is None
    ]
    return {"job": job, "rows": rows, "looked": looked_first(job, made) if job else 0}


def verdict_told(found: Concluded) -> dict[str, Any]:
    """What a tablet is told of a verdict: each question in a line with its parts, and the words."""
    questions = questions_shown(found, KINDS)
    names = ("words", "standing", "said")
    return {
        "weighed": len(found.steps),
        "plain": [*plain_words(questions), *map(not_alone_words, found.joint)],
        "odd": [disagree_words(one, KINDS) for one in found.disagree],
        "questions": [
            {
                "code": one.code,
                "name": one.name,
                "standing": one.standing,
                "said": one.line,
                "parts": [{name: getattr(part, name) for name in names} for part in one.parts],
            }
            for one in questions
        ],
    }


def counts(job: Job | None, made: list[Assessed]) -> dict[str, tuple[int, int]]:
    """How many tests of each question were made, of how many that this car allows."""
    system = system_of(job.vehicle.system) if job else System()
    told = {one.step.kind for one in made if one.stands}
    found = {}
    for code in QUESTIONS:
        fits = [kind for kind in KINDS.values() if kind.about == code and not kind.forbids(system)]
        found[code] = sum(kind.name in told for kind in fits), len(fits)
    return found


def looked_first(job: Job, made: list[Assessed]) -> int:
    """How many of the looks before all questions were had."""
    told = {one.step.kind for one in made if one.stands}
    system = system_of(job.vehicle.system)
    first = [kind for kind in KINDS.values() if kind.about == "see_first"]
    return sum(kind.name in told for kind in first if not kind.forbids(system))
