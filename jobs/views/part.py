"""What the pages that fill a job's rows later have in common."""

import uuid
from collections.abc import Callable, Mapping
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.forms.fields import OnJob
from jobs.logbook import EntryKind, enter
from jobs.models import Job, Person
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.posted import told_from_post

Filled = Callable[[Job], Mapping[str, Any]]


def part_page(
    request: HttpRequest, kind: EntryKind, form_class: type[OnJob], filled: Filled
) -> HttpResponse:
    """A form about one job, filled with what is known; without a job, the neutral page.

    Template and route have the kind's name.

    Raises:
        Http404: the address names a job that is not here.

    """
    key = asked_key(request)
    job = asked_job(request) if key else None

    def show(form: Any) -> HttpResponse:
        if job and isinstance(request.user, Person) and hasattr(form, "fit"):
            form.fit(request.user)
        said = {
            "form": form,
            "job": job,
            "kind": kind,
            "key": request.POST.get("key") or uuid.uuid4(),
        }
        return render(request, f"jobs/{kind.name}.html", said)

    if request.method != "POST":
        return show(form_class(job_key=key, initial=dict(filled(job)) if job else {}))
    if job is None:
        raise Http404("The form does not say which job it is about; open it from the job again.")
    return answer(request, enter(kind, told_from_post(request, kind.version, job.key)), show)
