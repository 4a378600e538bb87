"""What a service machine does in one go."""

from typing import Any

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from jobs.entries import MACHINE_CYCLE
from jobs.forms.charge import weighed_beside
from jobs.forms.machine_cycle import MachineCycleForm
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.loop_work import loop_work_page


@signed_in()
def machine_cycle(request: HttpRequest) -> HttpResponseBase:
    """The form, about one job or none."""
    return loop_work_page(request, MACHINE_CYCLE, MachineCycleForm, nothing, weighed_beside)


def nothing(_job: Job) -> dict[str, Any]:
    """What it begins with: nothing, each time is another one."""
    return {}
