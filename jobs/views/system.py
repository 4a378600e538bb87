"""The A/C of a job's car as fitted."""

from django.http import HttpRequest, HttpResponse

from jobs.entries import SYSTEM
from jobs.forms.system import SystemForm
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def system(request: HttpRequest) -> HttpResponse:
    """Drive, voltage, refrigerant, label charge, branches."""
    return part_page(request, SYSTEM, SystemForm, SystemForm.filled)
