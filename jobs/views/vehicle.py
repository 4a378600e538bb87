"""The car of a job."""

from django.http import HttpRequest, HttpResponse

from jobs.entries import VEHICLE
from jobs.forms.vehicle import VehicleForm
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def vehicle(request: HttpRequest) -> HttpResponse:
    """Plate, VIN, make, odometer."""
    return part_page(request, VEHICLE, VehicleForm, VehicleForm.filled)
