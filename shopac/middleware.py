"""What every answer of the site goes through."""

import errno
import logging
from collections.abc import Callable

from django.conf import settings
from django.contrib.sessions.middleware import SessionMiddleware
from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.db import OperationalError
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.template.loader import render_to_string

from jobs.logbook import NotAnEntry
from jobs.views.access import SignInEnded
from jobs.views.posted import files, lines, typed
from shopac.door import ADDRESS
from shopac.views.held_post import held_post, is_for_signed_in

Answer = Callable[[HttpRequest], HttpResponseBase]
log = logging.getLogger("shopac")

CONTENT_POLICY = "; ".join(
    (
        "default-src 'self'",
        "img-src 'self' blob: data:",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
        "object-src 'none'",
    )
)
NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
# Bytes of an unread body that are still taken in before an early answer.
DRAIN_MAX = 256 * 1024 * 1024


def security_headers(get_response: Answer) -> Answer:
    """Allow only the site's own files, no inline script or style, no frames, no devices unasked."""

    def answer(request: HttpRequest) -> HttpResponseBase:
        response = get_response(request)
        response.headers.setdefault("Content-Security-Policy", CONTENT_POLICY)
        response.headers.setdefault("Permissions-Policy", "geolocation=(), microphone=()")
        if not request.path.startswith("/static/"):
            response.headers.setdefault("Cache-Control", "no-store")
        return response

    return answer


def database_trouble(get_response: Answer) -> Answer:
    """Answer 503 or 507 with a sentence when the database is locked or its disk is full.

    Nothing was written then: the transaction is rolled back whole, and a tablet tries again by
    itself. The body is always read to its end first; a browser that is still sending a photo takes
    an early answer for a broken line.
    """

    def answer(request: HttpRequest) -> HttpResponseBase:
        try:
            return unreadable(request) or get_response(request)
        finally:
            drain(request)

    answer.process_exception = trouble  # type: ignore[attr-defined]
    return answer


def unreadable(request: HttpRequest) -> HttpResponseBase | None:
    """Read a posted form first; the answer where its files have no room or its text no end.

    Whoever reads it first meets these, and that would be the check of its token, inside which
    nothing can be answered in words.
    """
    if request.method != "POST":
        return None
    try:
        request.POST  # noqa: B018  reading is the point
    except (RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent):
        return too_large(request)
    except OSError as error:
        for handler in request.upload_handlers:  # the half-written one is nobody's else
            file = getattr(handler, "file", None)
            if file:
                file.close()
        return trouble(request, error)
    return None


def too_large(request: HttpRequest) -> HttpResponseBase:
    """The answer to more than any form of ours sends."""
    if request.path == ADDRESS:
        return JsonResponse({"state": "too_large", "why": TOO_LARGE}, status=413)
    return HttpResponse(render_to_string("400.html"), status=413)


def bounded(get_response: Answer) -> Answer:
    """Turn away a body larger than any form of ours before it is written to the disk.

    Whoever sends it has not been asked who they are yet.
    """

    def answer(request: HttpRequest) -> HttpResponseBase:
        told = request.META.get("CONTENT_LENGTH") or "0"
        if not told.isdecimal() or int(told) <= settings.BODY_BYTES_MAX:
            return get_response(request)
        drain(request)
        return too_large(request)

    return answer


def drain(request: HttpRequest) -> None:
    """Read what the sender is still sending."""
    if request.method not in ("POST", "PUT", "PATCH"):
        return
    left = DRAIN_MAX
    stream = getattr(request, "_stream", None)
    try:
        while stream is not None and left > 0:
            chunk = stream.read(64 * 1024)
            if not chunk:
                return
            left -= len(chunk)
    except (OSError, ValueError):
        return


def trouble(request: HttpRequest, error: Exception) -> HttpResponse | None:
    """The page or JSON for a database that cannot take anything now; None for other errors."""
    status, why = trouble_words(error)
    if not status:
        return None
    log.warning("%s %s: %s", request.method, request.path, error)
    if request.path == ADDRESS:
        answer: HttpResponse = JsonResponse({"state": "later", "why": why}, status=status)
    else:
        said: dict[str, object] = {"why": why}
        if request.method == "POST" and is_for_signed_in(request):
            said |= {"typed": typed(request), "again": lines(request), "files": files(request)}
        answer = render(request, "shopac/trouble.html", said, status=status)
    answer.headers["Retry-After"] = "5"
    return answer


class Sessions(SessionMiddleware):
    """Django's sessions; one that cannot be written is answered like any other locked database."""

    def process_response(self, request: HttpRequest, response: HttpResponse) -> HttpResponse:
        """Write the session, or say why not.

        Raises:
            Exception: whatever else went wrong.

        """
        try:
            return super().process_response(request, response)
        except (OperationalError, OSError) as error:
            instead = trouble(request, error)
            if instead is None:
                raise
            return instead


def nothing_lost(get_response: Answer) -> Answer:
    """Show what was posted when nobody was signed in, or when no form or job takes it."""

    def answer(request: HttpRequest) -> HttpResponseBase:
        return get_response(request)

    def hold(request: HttpRequest, error: Exception) -> HttpResponse | None:
        if isinstance(error, SignInEnded):
            return held_post(request, form=error.form)
        if isinstance(error, NotAnEntry):
            said: dict[str, object] = {"why": str(error), "typed": typed(request)}
            return render(request, "jobs/not_taken.html", said, status=400)
        if isinstance(error, Http404) and request.method == "POST":
            why = str(error) if " " in str(error) else "There is no such page."
            said = {"why": why, "typed": typed(request), "no_job": True}
            return render(request, "jobs/not_taken.html", said, status=404)
        return None

    answer.process_exception = hold  # type: ignore[attr-defined]
    return answer


def trouble_words(error: BaseException) -> tuple[int, str]:
    """(status, sentence) for a locked or full database or disk; (0, "") for anything else."""
    text = str(error).lower()
    if isinstance(error, OperationalError):
        if "full" in text or "no space" in text:
            return 507, FULL
        if "disk i/o" in text:
            return 507, DISK
        # a table or column that is not there is a mistake of ours, not a moment to wait for
        return (0, "") if "no such" in text else (503, BUSY)
    if isinstance(error, OSError) and error.errno in NO_ROOM:
        return 507, FULL
    return 0, ""


TOO_LARGE = "This is more than the shop server takes at once. Nothing of it was stored."
BUSY = "The shop server is busy writing. Nothing of this was stored; send it again."
DISK = "The shop server’s disk does not take this. Nothing of it was stored; tell the owner."
FULL = "The shop server’s disk is full. Nothing of this was stored; tell the owner."
