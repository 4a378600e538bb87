"""What an estimate's page takes from what was decided."""

from typing import Any

from django import template

from diagnostics.lines_proposed import proposed_for
from jobs.forms.estimate import EstimateForm
from jobs.models import Job

register = template.Library()


@register.inclusion_tag("diagnostics/_estimate_begun.html")
def begin_from_decision(form: EstimateForm, job: Job) -> dict[str, Any]:
    """Fill a form that begins with the lines of what was decided, and say where they come from.

    So jobs' page has lines from the options, and jobs knows nothing of these.
    """
    proposed = proposed_for(job) if form.begins else None
    if proposed:
        form.propose(proposed)
    return {"job": job, "proposed": proposed}
