"""The customer of a job, told later."""

from typing import Any

from jobs.forms.asked import AskedPart
from jobs.forms.filled import FilledForm
from jobs.forms.parts import CustomerPart
from jobs.models import Job


class CustomerForm(FilledForm, AskedPart, CustomerPart):
    """The customer of a job and what was not asked at the counter, told later."""

    MAY_WAIT = ("customer_name",)
    MAY_BE_UNKNOWN = ("phone",)
    NAMED = {"name": "customer_name"}

    @staticmethod
    def filled(job: Job) -> dict[str, Any]:
        """The form's fields as the rows have them."""
        return {
            "customer_name": job.customer.name,
            "phone": job.customer.phone,
            "payer": job.payer,
            **job.complaint_answers,
        }

    def parts(self) -> dict[str, dict[str, Any]]:
        """The rows and columns it fills."""
        told = self.cleaned_data
        return {
            "customer": self.known({"name": told["customer_name"], "phone": told["phone"]}, {}),
            "job": {"payer": told["payer"], "complaint_answers": self.answers},
        }
