"""Where it is: bay, key hook, promised time, who has it."""

from typing import Any

from django.http import HttpRequest, HttpResponse

from jobs.entries import PLACE
from jobs.forms.place import PlaceForm
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.part import part_page


@signed_in()
def place(request: HttpRequest) -> HttpResponse:
    """A form that starts empty: what is not told anew stays as it is."""
    return part_page(request, PLACE, PlaceForm, nothing)


def nothing(job: Job) -> dict[str, Any]:  # noqa: ARG001  what stands is shown above the form
    """What it starts with."""
    return {}
