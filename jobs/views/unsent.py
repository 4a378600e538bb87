"""What is kept on this tablet and not yet on the shop server."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe


@require_safe
def unsent(request: HttpRequest) -> HttpResponse:
    """The frame of the list; the tablet fills it with what it keeps itself.

    It needs no sign-in: the shop server puts nothing of its own in it, and who is not signed in any
    more must still see what has not been sent.
    """
    return render(request, "jobs/unsent.html")
