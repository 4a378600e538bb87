"""What the job's page shows of its decision: one line, and the ways to options and decision."""

from typing import Any

from django import template

from diagnostics.decided import decisions_of, last_of, who_and_when
from jobs.models import Job

register = template.Library()


@register.inclusion_tag("diagnostics/_job_decision.html")
def job_decision(job: Job | None) -> dict[str, Any]:
    """The decision that counts, in one query; without a job a tablet fills it in."""
    last = last_of(decisions_of(job)) if job else None
    return {"job": job, "decision": last, "who": who_and_when(last) if last else ""}
