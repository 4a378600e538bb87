"""What a service machine does in one go."""

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from jobs.entries import MACHINE_CYCLE
from jobs.forms.machine_cycle import MachineCycleForm
from jobs.views.access import signed_in
from jobs.views.loop_work import of_loop


@signed_in()
def machine_cycle(request: HttpRequest) -> HttpResponseBase:
    """The form, about one job or none."""
    return of_loop(request, MACHINE_CYCLE, MachineCycleForm, "jobs/machine_cycle.html")
