"""The A/C of a job's car as fitted."""

from typing import Any

from django.http import HttpRequest, HttpResponse

from jobs import ledger
from jobs.entries import SYSTEM
from jobs.forms.system import SystemForm
from jobs.models import Job
from jobs.models.vehicles import shown_ohm
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def system(request: HttpRequest) -> HttpResponse:
    """Drive, voltage, refrigerant, label charge, branches."""
    return part_page(request, SYSTEM, SystemForm, filled)


def filled(job: Job) -> dict[str, Any]:
    """The form's fields as the rows have them; the label charge in grams."""
    fitted = job.vehicle.system
    names = ("drive", "displacement", "voltage", "switched_side", "refrigerant", "branches")
    charge = fitted.label_charge_mg
    return {name: getattr(fitted, name) for name in names} | {
        "label_charge": "" if charge is None else ledger.plain_grams(charge),
        "label_charge_unit": "" if charge is None else "g",
        "label_charge_source": fitted.sources.get("label_charge", ""),
        "coil": "" if fitted.coil_milliohm is None else shown_ohm(fitted.coil_milliohm),
        "coil_source": fitted.sources.get("coil_milliohm", ""),
    }
