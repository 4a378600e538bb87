"""A consent that is given after intake."""

from typing import Any

from django.http import HttpRequest, HttpResponse

from jobs.entries import CONSENT
from jobs.forms.consent import ConsentForm
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def consent(request: HttpRequest) -> HttpResponse:
    """The exact text, up to how much, how it was given and by whom."""
    return part_page(request, CONSENT, ConsentForm, filled)


def filled(job: Job) -> dict[str, Any]:  # noqa: ARG001  a consent starts empty
    """Nothing: what was agreed before stays as it is, a new consent gets the next number."""
    return {}
