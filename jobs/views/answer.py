"""What a page answers after its post went through the logbook."""

import uuid
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from jobs.logbook import FORBIDDEN, OVERTAKEN, RETURNED, REUSED, Outcome
from jobs.views.posted import files, lines, typed

TAKEN = "shopac_taken"
ShowForm = Callable[[Any], HttpResponse]


def answer(request: HttpRequest, outcome: Outcome, show_form: ShowForm) -> HttpResponse:
    """Go on where the entry says; or show the form with its problems; or say why not.

    `show_form(form)` renders the page with the bound form; its answer gets status 422. For a key
    already taken `jobs/not_taken.html` offers "correct it" and "one more".
    """
    if outcome.stands or outcome.state == OVERTAKEN:
        onward = redirect(outcome.result["url"])
        # For the script: the draft of a form that posted by itself can go.
        key = str(outcome.key)
        onward.set_cookie(TAKEN, key, max_age=300, samesite="Lax", secure=settings.HTTPS)
        return onward
    if outcome.state == RETURNED:
        response = show_form(outcome.form)
        response.status_code = 422
        return response
    status = 403 if outcome.state == FORBIDDEN else 409
    said = {
        "outcome": outcome,
        "why": outcome.why,
        "reused": outcome.state == REUSED,
        "typed": typed(request),
        "again": [one for one in lines(request) if one.name not in ("key", "corrects", "rev")],
        "files": files(request),
        "new_key": uuid.uuid4(),
    }
    return render(request, "jobs/not_taken.html", said, status=status)
