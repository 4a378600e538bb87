"""Refrigerant taken out of a car."""

from typing import Any

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from jobs.entries import RECOVERY
from jobs.forms.charge import weighed_beside
from jobs.forms.recovery import RecoveryForm
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.loop_work import loop_work_page


@signed_in()
def recovery(request: HttpRequest) -> HttpResponseBase:
    """The form, about one job or none."""
    return loop_work_page(request, RECOVERY, RecoveryForm, nothing, weighed_beside)


def nothing(_job: Job) -> dict[str, Any]:
    """What it begins with: nothing, each time is another one."""
    return {}
