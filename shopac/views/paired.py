"""What this tablet has of what it needs to go on without the shop server; the end of pairing."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe


@require_safe
def paired(request: HttpRequest) -> HttpResponse:
    """A page without anything of the shop's in it; its script asks the browser."""
    return render(request, "shopac/paired.html")
