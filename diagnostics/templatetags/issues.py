"""What the page of a job's record shows of its making: the way to the next issue."""

from collections.abc import Sequence
from typing import Any

from django import template

from diagnostics.entries import ISSUE
from jobs.models import Job, Record
from jobs.views.access import role_of

register = template.Library()


@register.inclusion_tag("diagnostics/_issue_link.html", takes_context=True)
def issue_link(context: dict[str, Any], job: Job, issues: Sequence[Record]) -> dict[str, Any]:
    """The way to the next issue, or whose work that is."""
    return {
        "job": job,
        "issued": bool(issues),
        "may_issue": role_of(context["request"]) in ISSUE.roles,
    }
