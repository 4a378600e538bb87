"""The customer of a job."""

from django.http import HttpRequest, HttpResponse

from jobs.entries import CUSTOMER
from jobs.forms.customer import CustomerForm
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def customer(request: HttpRequest) -> HttpResponse:
    """Name, phone, who pays, and what is asked at the counter."""
    return part_page(request, CUSTOMER, CustomerForm, CustomerForm.filled)
