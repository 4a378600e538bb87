"""The customer of a job, told later."""

from typing import Any

from jobs.forms.asked import AskedPart
from jobs.forms.fields import OnJob
from jobs.forms.parts import CustomerPart


class CustomerForm(OnJob, AskedPart, CustomerPart):
    """The customer of a job and what was not asked at the counter, told later."""

    MAY_WAIT = ("customer_name",)
    MAY_BE_UNKNOWN = ("phone",)

    def parts(self) -> dict[str, dict[str, Any]]:
        """The rows and columns it fills."""
        told = self.cleaned_data
        return {
            "customer": self.known({"name": told["customer_name"], "phone": told["phone"]}, {}),
            "job": {"payer": told["payer"], "complaint_answers": self.answers},
        }
