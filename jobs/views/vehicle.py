"""The car of a job."""

from typing import Any

from django.http import HttpRequest, HttpResponse

from jobs.entries import VEHICLE
from jobs.forms.vehicle import VehicleForm
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def vehicle(request: HttpRequest) -> HttpResponse:
    """Plate, VIN, make, odometer."""
    return part_page(request, VEHICLE, VehicleForm, filled)


def filled(job: Job) -> dict[str, Any]:
    """The form's fields as the rows have them."""
    car = job.vehicle
    return {
        "plate": car.plate,
        "vin": car.vin,
        "make_model": car.make_model,
        "model_year": car.model_year or "",
        "odometer": job.odometer,
    }
