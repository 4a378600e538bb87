"""A post whose sign-in or form token had ended: shown, signed for, and posted again."""

from django.http import HttpRequest, HttpResponse


def held_post(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Placeholder until sign-in is written."""
    return HttpResponse(status=403)
