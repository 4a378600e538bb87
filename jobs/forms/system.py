"""The A/C of a job's car, looked at later."""

from typing import Any

from jobs.forms.fields import OnJob
from jobs.forms.parts import SystemPart


class SystemForm(OnJob, SystemPart):
    """The A/C of a job's car, looked at later."""

    def parts(self) -> dict[str, dict[str, Any]]:
        """The rows and columns it fills."""
        return {"system": self.system()}
