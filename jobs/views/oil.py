"""Oil of the loop: what came out, what went in, what has to go back."""

from typing import Any

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from diagnostics.physics.units import table
from jobs.entries import OIL
from jobs.forms.oil import VOLUMES, OilForm, first_told
from jobs.models import Job
from jobs.models.balances import oil_of_job, oil_told
from jobs.models.oil_works import out_before
from jobs.models.shop import units_chosen
from jobs.models.vehicles import WITH_HIGH_VOLTAGE
from jobs.views.access import signed_in
from jobs.views.loop_work import loop_work_page


@signed_in()
def oil(request: HttpRequest) -> HttpResponseBase:
    """One telling of oil; several parts are several tellings."""
    return loop_work_page(request, OIL, OilForm, first_told, beside)


def beside(job: Job | None) -> dict[str, Any]:
    """The balance so far, and whether only the maker's oil may go in."""
    units = units_chosen()
    drive = job.vehicle.system.drive if job else ""
    return {
        "oil": oil_told(oil_of_job(job), units) if job else None,
        "high_voltage": not drive or drive in WITH_HIGH_VOLTAGE,
        "unit_data": table(VOLUMES),
        "out_before": out_before(job.loop_works.select_related("entry")) if job else 0,
    }
