"""Refrigerant taken out of a car."""

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from jobs.entries import RECOVERY
from jobs.forms.recovery import RecoveryForm
from jobs.views.access import signed_in
from jobs.views.loop_work import of_loop


@signed_in()
def recovery(request: HttpRequest) -> HttpResponseBase:
    """The form, about one job or none."""
    return of_loop(request, RECOVERY, RecoveryForm, "jobs/recovery.html")
