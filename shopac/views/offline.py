"""What is shown when the shop server does not answer and the page asked for is not kept."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe


@require_safe
def offline(request: HttpRequest) -> HttpResponse:
    """A page without anything of the shop's in it: kept by every tablet, signed in or not.

    Its script lists the cars that are kept on the tablet.
    """
    return render(request, "shopac/offline.html")
