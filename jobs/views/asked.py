"""Which job a page was asked for: the `job` in its address."""

import uuid

from django.http import Http404, HttpRequest

from jobs.models import Job


def asked_key(request: HttpRequest) -> uuid.UUID | None:
    """The job's key in the address; None when there is none (the neutral page).

    Raises:
        Http404: there is one, and it is no key.

    """
    told = request.GET.get("job", "")
    if not told:
        return None
    try:
        return uuid.UUID(told)
    except ValueError:
        raise Http404("This link’s job cannot be read.") from None


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
