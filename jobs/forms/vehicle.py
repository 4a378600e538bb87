"""The car of a job, read later."""

from typing import Any

from jobs.forms.fields import OnJob
from jobs.forms.parts import CarPart


class VehicleForm(OnJob, CarPart):
    """The car of a job, read later."""

    MAY_WAIT = ("plate",)

    def parts(self) -> dict[str, dict[str, Any]]:
        """The rows and columns it fills."""
        return {"car": self.car(), "job": {"odometer": self.odometer_read}}
