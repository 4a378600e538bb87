"""A post whose sign-in or form token had ended: shown, signed for, and posted again.

This must be no way around the form token. What is shown goes back to its address with a fresh token
of this browser and a PIN or password typed now; and it is offered only for what was posted from one
of our own pages, so that no other site can lay its words before somebody to sign.
"""

from urllib.parse import urlsplit

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.views.decorators.debug import sensitive_post_parameters

from jobs.forms.sign_in import SignInAgain
from jobs.models import Person
from jobs.views.posted import files, lines, secrets_typed, typed
from jobs.views.tablet import pins_work
from shopac.door import ADDRESS

LATER = "Sign in, then send this again. Nothing of it was taken."


@sensitive_post_parameters()
def held_post(
    request: HttpRequest, reason: str = "", form: SignInAgain | None = None
) -> HttpResponse:
    """Show what was posted and ask who signs for it.

    `reason` is the form token's, empty when only the sign-in had ended; `form` is a try to sign
    that was not right. A script that sent JSON is told to come back.
    """
    if is_from_script(request):
        return JsonResponse({"state": "later", "why": LATER}, status=403)
    if not is_from_here(request):
        return render(request, "403.html", {"elsewhere": True}, status=403)
    if not is_for_signed_in(request):
        return render(request, "403.html", {"typed": typed(request)}, status=403)
    likely = request.user if isinstance(request.user, Person) else None
    said = {
        "form": form or SignInAgain(pins=pins_work(request), likely=likely),
        "typed": typed(request),
        "again": lines(request),
        "files": files(request),
        "secrets": secrets_typed(request),
        "token_ended": bool(reason),
    }
    return render(request, "shopac/held_post.html", said, status=403)


def is_from_script(request: HttpRequest) -> bool:
    """Whether a page's script sent this, which keeps what it sends."""
    return request.path == ADDRESS or request.content_type == "application/json"


def is_from_here(request: HttpRequest) -> bool:
    """Whether one of our own pages posted this, as far as the browser says."""
    site = request.headers.get("Sec-Fetch-Site", "same-origin")
    if site not in ("same-origin", "none"):
        return False
    origin = request.headers.get("Origin") or request.headers.get("Referer")
    if origin is None:
        return True
    told = urlsplit(origin)
    return (told.scheme, told.netloc) == (request.scheme, request.get_host())


def is_for_signed_in(request: HttpRequest) -> bool:
    """Whether the address is one for people who are signed in, so that signing for it helps."""
    match = request.resolver_match
    return match is not None and hasattr(match.func, "roles")
