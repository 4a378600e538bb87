"""The customer of a job."""

from typing import Any

from django.http import HttpRequest, HttpResponse

from jobs.entries import CUSTOMER
from jobs.forms.customer import CustomerForm
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def customer(request: HttpRequest) -> HttpResponse:
    """Name, phone, who pays, and what is asked at the counter."""
    return part_page(request, CUSTOMER, CustomerForm, filled)


def filled(job: Job) -> dict[str, Any]:
    """The form's fields as the rows have them."""
    return {
        "customer_name": job.customer.name,
        "phone": job.customer.phone,
        "payer": job.payer,
        **job.complaint_answers,
    }
