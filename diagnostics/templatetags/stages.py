"""What the job's page shows of its stages: where it stands, how it got there, what was let go."""

from typing import Any

from django import template

from diagnostics.assess import overrides_of
from diagnostics.closing import next_stage
from diagnostics.overrides_told import let_told
from diagnostics.since_changed import inside_unseen
from diagnostics.waived import waivers_of
from jobs.models import Job
from jobs.models.closing import ENDINGS
from jobs.models.jobs import OPEN, STAGES
from jobs.models.people import DESK
from jobs.models.stages import moves_of
from jobs.views.access import role_of

register = template.Library()


@register.inclusion_tag("diagnostics/_job_stage.html", takes_context=True)
def job_stage(context: dict[str, Any], job: Job) -> dict[str, Any]:
    """The way on, back and out of the stage, and the way so far; in three queries."""
    role = role_of(context.get("request"))
    moves, onward = moves_of(job), next_stage(job.stage)
    closed, states = job.stage == "closed", list(job.car_states.all())
    ending = ENDINGS.get(job.closing_kind)
    unseen = inside_unseen(states, context.get("made") or ())
    return {
        "job": job,
        "moves": moves,
        "closed": moves[-1] if closed and moves else None,
        "ending": ending,
        "sentence": ending.said(unseen=unseen) if ending else "",
        "onward": STAGES[onward].lower() if onward in OPEN and not closed else "",
        "is_closed": closed,
        "may_open": role != DESK,
        "waived": waivers_of(job),
        "let": let_told(overrides_of(job), states, context.get("shut") or ()),
    }
