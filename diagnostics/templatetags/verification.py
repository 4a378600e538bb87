"""What jobs' pages show of the verification: the way to it, from the first change on."""

from typing import Any

from django import template

from diagnostics.work_done import last_touched
from jobs.models import Job

register = template.Library()


@register.inclusion_tag("diagnostics/_verification_link.html")
def verification_link(job: Job | None) -> dict[str, Any]:
    """The link, without a query where the car states came with the job; hidden without a job."""
    changed = bool(job and last_touched(job.car_states.all()))
    return {"job": job, "changed": changed}
