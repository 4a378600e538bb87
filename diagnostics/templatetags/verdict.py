"""What pages show of the verdict: the six questions, each in a line, and the command's way."""

from typing import Any

from django import template

from diagnostics.assess import Assessed, system_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.path import path_of
from diagnostics.evidence.system import System
from diagnostics.evidence.verdict_shown import NAMES, questions_shown
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
    groups, before = [], "none"
    for group in path_of(around.system, weighed(around)):
        rows = []
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
    if job is None:
        rows = [{"code": code, "name": NAMES[code], "count": told[code]} for code in QUESTIONS]
        return {"job": None, "rows": rows, "looked": 0}
    shown = questions_shown(weighed(around_on(context, job, made)), KINDS)
    rows = [
        {"code": one.code, "name": one.name, "question": one, "count": told[one.code]}
        for one in shown
    ]
    return {"job": job, "rows": rows, "looked": looked_first(job, made)}


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
