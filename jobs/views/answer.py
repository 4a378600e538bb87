"""What a page answers after its post went through the logbook."""

from collections.abc import Callable, Mapping
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from jobs.logbook import FORBIDDEN, OVERTAKEN, RETURNED, Outcome

ShowForm = Callable[[Any], HttpResponse]


def answer(request: HttpRequest, outcome: Outcome, show_form: ShowForm) -> HttpResponse:
    """Go on where the entry says; or show the form with its problems; or say why not.

    `show_form(form)` renders the page with the bound form; its answer gets status 422. The page
    for a key already taken offers "correct it" and "one more" (`jobs/already_taken.html`).
    """
    if outcome.stands or outcome.state == OVERTAKEN:
        return redirect(outcome.result["url"])
    if outcome.state == RETURNED:
        response = show_form(outcome.form)
        response.status_code = 422
        return response
    status = 403 if outcome.state == FORBIDDEN else 409
    said: Mapping[str, Any] = {"outcome": outcome, "typed": typed(request)}
    return render(request, "jobs/not_taken.html", said, status=status)


def typed(request: HttpRequest) -> list[tuple[str, str]]:
    """What was typed, to be shown so that nothing is lost."""
    hidden = ("csrfmiddlewaretoken", "key", "pin", "password")
    return [
        (name, value)
        for name in request.POST
        if name not in hidden
        for value in request.POST.getlist(name)
        if value
    ]
