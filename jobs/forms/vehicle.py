"""The car of a job, read later."""

from typing import Any

from jobs.forms.filled import FilledForm
from jobs.forms.parts import CarPart
from jobs.models import Job


class VehicleForm(FilledForm, CarPart):
    """The car of a job, read later."""

    MAY_WAIT = ("plate",)
    MAY_BE_UNKNOWN = ("make_model", "model_year", "vin", "odometer")
    NAMED = {"vin_mark": "vin", "odometer_unit": "odometer"}
    TOGETHER = {"odometer": ("odometer_unit",)}

    @staticmethod
    def filled(job: Job) -> dict[str, Any]:
        """The form's fields as the rows have them."""
        car = job.vehicle
        return {
            "plate": car.plate,
            "vin": car.vin,
            "make_model": car.make_model,
            "model_year": car.model_year or "",
            "odometer": "" if job.odometer is None else str(job.odometer),
            "odometer_unit": job.odometer_unit,
        }

    def parts(self) -> dict[str, dict[str, Any]]:
        """The rows and columns it fills."""
        return {
            "car": self.known(self.car(), {}),
            "job": self.known(self.odometer_columns, {"odometer_unit": "odometer"}),
        }
