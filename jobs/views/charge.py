"""Refrigerant put into a car."""

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from jobs.entries import CHARGE
from jobs.forms.charge import ChargeForm
from jobs.views.access import signed_in
from jobs.views.loop_work import of_loop


@signed_in()
def charge(request: HttpRequest) -> HttpResponseBase:
    """The form, about one job or none."""
    return of_loop(request, CHARGE, ChargeForm, "jobs/charge.html")
