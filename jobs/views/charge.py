"""Refrigerant put into a car."""

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from jobs.entries import CHARGE
from jobs.forms.charge import ChargeForm, first_charge, weighed_beside
from jobs.views.access import signed_in
from jobs.views.loop_work import loop_work_page


@signed_in()
def charge(request: HttpRequest) -> HttpResponseBase:
    """The form, about one job or none."""
    return loop_work_page(request, CHARGE, ChargeForm, first_charge, weighed_beside)
