"""What the job's page shows of its stages: where it stands, how it got there, what was let go."""

from typing import Any

from django import template

from diagnostics.assess import overrides_of
from diagnostics.closing import next_stage
from diagnostics.overrides_told import let_told
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
    closed = job.stage == "closed"
    return {
        "job": job,
        "moves": moves,
        "closed": moves[-1] if closed and moves else None,
        "ending": ENDINGS.get(job.closing_kind),
        "onward": STAGES[onward].lower() if onward in OPEN and not closed else "",
        "is_closed": closed,
        "may_open": role != DESK,
        "waived": waivers_of(job),
        "let": let_told(overrides_of(job), list(job.car_states.all()), context.get("shut") or ()),
    }
