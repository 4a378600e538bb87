"""Under what the car stands, asked once an hour."""

from django.http import HttpRequest, HttpResponse

from jobs.entries import CONDITIONS
from jobs.forms.conditions import ConditionsForm
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def conditions(request: HttpRequest) -> HttpResponse:
    """Air, doors and engine speed, as they are now."""
    return part_page(request, CONDITIONS, ConditionsForm, filled)


def filled(_job: Job) -> dict[str, str]:
    """Nothing: what was told an hour ago is looked at anew."""
    return {}
