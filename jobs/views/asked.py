"""What a page was asked for: the `job` in its address, and what it `corrects`."""

import uuid
from typing import TypeVar

from django.db.models import QuerySet
from django.http import Http404, HttpRequest

from jobs.models import Job
from jobs.models.base import Keyed
from jobs.told import as_key

Original = TypeVar("Original", bound=Keyed)


def asked_key(request: HttpRequest, name: str = "job") -> uuid.UUID | None:
    """The key of that name in the address; None when there is none: of a job, the neutral page.

    Raises:
        Http404: there is one, and it is no key.

    """
    told = request.GET.get(name, "")
    if not told:
        return None
    key = as_key(told)
    if key is None:
        raise Http404("This link cannot be read. Open the page from the job again.")
    return key


def start_of(text: str) -> int:
    """Where a page of a list starts; what is no number starts at the front."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 8 else 0


def asked_original(request: HttpRequest, rows: QuerySet[Original]) -> Original | None:
    """The row among these that the address names to be corrected; None when it names none.

    Raises:
        Http404: it names one that is not among them.

    """
    key = asked_key(request, "corrects")
    if key is None:
        return None
    found = rows.filter(key=key).first()
    if found is None:
        raise Http404("What is to be corrected is not in this job.")
    return found


def asked_job(request: HttpRequest) -> Job:
    """The job in the address, with car and customer.

    Raises:
        Http404: none was named, or the shop server has no such job.

    """
    key = asked_key(request)
    jobs = Job.objects.select_related("customer", "vehicle__system")
    job = jobs.filter(key=key).first() if key else None
    if job is None:
        raise Http404("The shop server has no such job.")
    return job
