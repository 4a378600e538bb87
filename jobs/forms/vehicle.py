"""The car of a job, read later."""

from typing import Any

from jobs.forms.fields import OnJob
from jobs.forms.parts import CarPart


class VehicleForm(OnJob, CarPart):
    """The car of a job, read later."""

    MAY_WAIT = ("plate",)
    MAY_BE_UNKNOWN = ("make_model", "model_year", "vin", "odometer")

    def parts(self) -> dict[str, dict[str, Any]]:
        """The rows and columns it fills."""
        return {
            "car": self.known(self.car(), {}),
            "job": self.known({"odometer": self.odometer_read}, {}),
        }
