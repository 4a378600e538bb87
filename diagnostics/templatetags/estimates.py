"""What an estimate's page takes from what was decided."""

from django import template

from diagnostics.lines_proposed import proposed_for
from jobs.forms.estimate import EstimateForm
from jobs.models import Job
from jobs.told import Proposed

register = template.Library()


@register.simple_tag
def begin_from_decision(form: EstimateForm, job: Job) -> Proposed | None:
    """Fill a form that begins with the lines of what was decided; None: it has lines already."""
    if not form.begins:
        return None
    proposed = proposed_for(job)
    form.propose(proposed)
    return proposed
