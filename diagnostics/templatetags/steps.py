"""What the job's page shows of the tests: the next one, and the last made."""

from typing import Any

from django import template

from diagnostics.assess import Assessed, steps_of, system_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.kind import Kind
from diagnostics.points import step_points
from jobs.models import Job
from jobs.models.people import OWNER, TECHNICIAN

register = template.Library()
LAST = 3


@register.inclusion_tag("diagnostics/_next_step.html", takes_context=True)
def next_step(context: dict[str, Any], job: Job | None) -> dict[str, Any]:
    """The test to make next, points of those made, and the last three.

    Without a job (the page a tablet keeps) the first kind stands there; its own page bars it where
    the car's drive does. One query a job, however many steps it has.
    """
    role = getattr(getattr(context.get("request"), "user", None), "role", "")
    may_test = role in (TECHNICIAN, OWNER) or job is None
    if job is None:
        return {"job": None, "kind": next(iter(KINDS.values())), "may_test": may_test}
    made = steps_of(job)
    return {
        "job": job,
        "kind": next_kind(job, made) if may_test else None,
        "may_test": may_test,
        "points": step_points(made),
        "count": len(made),
        "last": made[: -LAST - 1 : -1],
    }


def next_kind(job: Job, made: list[Assessed]) -> Kind | None:
    """The first kind in the order of the catalogue that this car allows and nobody made yet."""
    system = system_of(job.vehicle.system)
    told = {one.step.kind for one in made if not one.step.superseded_by_id}
    open_kinds = (kind for name, kind in KINDS.items() if name not in told)
    return next((kind for kind in open_kinds if not kind.forbids(system)), None)
