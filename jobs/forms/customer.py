"""The customer of a job, told later."""

from typing import Any

from jobs.forms.fields import OnJob, Tap
from jobs.forms.parts import CustomerPart
from jobs.models.wordings import PAYERS


class CustomerForm(OnJob, CustomerPart):
    """The customer of a job, told later."""

    payer = Tap("Who pays?", PAYERS)
    MAY_WAIT = ("customer_name",)

    def parts(self) -> dict[str, dict[str, Any]]:
        """The rows and columns it fills."""
        told = self.cleaned_data
        return {
            "customer": {"name": told["customer_name"], "phone": told["phone"]},
            "job": {"payer": told["payer"]},
        }
