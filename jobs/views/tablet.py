"""What the shop server knows about the browser that asks, and who is signed in there."""

import logging
import uuid
from datetime import datetime
from decimal import Decimal
from ipaddress import ip_address

from django.conf import settings
from django.contrib.auth import login, logout
from django.contrib.auth.models import AnonymousUser
from django.db import OperationalError
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.utils import timezone

from jobs.browsers import browser_words
from jobs.contacts import HEADER, Seen, contact, read_figures, revoked
from jobs.models import Person, Tablet
from jobs.models.wordings import in_shop_time
from jobs.passes import (
    PINS_COOKIE,
    TABLET_COOKIE,
    TABLET_COOKIE_AGE,
    pins_allowed,
    pins_token,
    read_tablet,
    tablet_token,
)
from jobs.told import as_key
from jobs.views.screen import COOKIE as SCREEN_COOKIE
from jobs.views.screen import this_screen

log = logging.getLogger("shopac")
SIGNED_IN_AT = "signed_in_at"
SIGNED_IN_ON = "tablet"
PROXY_HEADERS = ("Forwarded", "X-Forwarded-For", "X-Real-IP", "Via")


def from_this_machine(request: HttpRequest) -> bool:
    """Whether the browser runs on the shop server itself, and nothing stands between."""
    try:
        address = ip_address(request.META.get("REMOTE_ADDR", ""))
    except ValueError:
        return False
    mapped = getattr(address, "ipv4_mapped", None)
    if any(name in request.headers for name in PROXY_HEADERS):
        return False
    return (mapped or address).is_loopback


def this_tablet(request: HttpRequest) -> uuid.UUID | None:
    """The tablet this browser is known as."""
    return read_tablet(request.COOKIES.get(TABLET_COOKIE, ""))


def pins_work(request: HttpRequest) -> bool:
    """Whether a PIN may be asked for here: on a tablet an owner named, or on the server itself.

    Four digits are a word for a place where everybody sees who types. Anywhere else it takes a
    password, and the names of the people are not shown.
    """
    tablet = this_tablet(request)
    allowed = from_this_machine(request) or pins_allowed(
        request.COOKIES.get(PINS_COOKIE, ""), tablet
    )
    return allowed and revoked(tablet) is None


def revoked_words(tablet: Tablet | None) -> str:
    """What an owner's word means for the tablet it was spoken over; empty: none was."""
    if tablet is None or tablet.revoked_at is None:
        return ""
    since = f"{tablet.revoked_by} revoked this tablet {in_shop_time(tablet.revoked_at)}"
    return (
        f"{since}: it sends nothing and no PIN works here. What is kept here stays. Save it to a"
        " file; the owner brings that file in on the page Tablets."
    )


def in_contact(request: HttpRequest) -> Tablet | None:
    """Note that this tablet asked and what it told of itself; the tablet as it was known before."""
    key = this_tablet(request)
    if key is None:
        return None
    now = timezone.now()
    screen = this_screen(request) if SCREEN_COOKIE in request.COOKIES else None
    seen = Seen(
        browser_words(request.headers.get("User-Agent", "")),
        pins_allowed(request.COOKIES.get(PINS_COOKIE, ""), key),
        Decimal(screen.mm) if screen else None,
    )
    return contact(key, seen, read_figures(request.headers.get(HEADER, ""), now), now)


def sign_in_here(request: HttpRequest, person: Person) -> None:
    """Start a new session for this person; whatever the browser had before is gone."""
    request.session.flush()
    login(request, person)
    request.session[SIGNED_IN_AT] = timezone.now().isoformat()
    request.session[SIGNED_IN_ON] = str(this_tablet(request) or uuid.uuid4())
    request.session.save()  # now, while a locked database can still be answered for


def sign_out_here(request: HttpRequest) -> None:
    """End this session. Where the database takes nothing just now, the browser forgets it at least.

    Its row then stays until it ends by itself, with a key that nobody has any more.
    """
    try:
        logout(request)
    except OperationalError as error:
        log.warning("A session could not be removed: %s", error)
        request.session = type(request.session)()
        request.user = AnonymousUser()


def session_since(request: HttpRequest) -> str:
    """When this session began, as one text by which it is told from others."""
    return str(request.session.get(SIGNED_IN_AT, ""))


def session_tablet(request: HttpRequest) -> uuid.UUID | None:
    """The tablet on which this session began: revoking that one ends it."""
    return as_key(str(request.session.get(SIGNED_IN_ON, "")))


def signed_in_at(request: HttpRequest) -> datetime:
    """When the person of this session signed in."""
    told = session_since(request)
    return datetime.fromisoformat(told) if told else timezone.now()


def remember_tablet(request: HttpRequest, response: HttpResponseBase) -> uuid.UUID:
    """Make the browser known as a tablet, or known for longer: it may send what was typed there."""
    tablet = this_tablet(request) or session_tablet(request) or uuid.uuid4()
    _set(response, TABLET_COOKIE, tablet_token(tablet))
    return tablet


def let_pins_work(request: HttpRequest, response: HttpResponseBase, owner: Person) -> None:
    """Let people sign in by PIN in this browser, on the word of this owner."""
    _set(response, PINS_COOKIE, pins_token(owner, remember_tablet(request, response)))


def stop_pins(response: HttpResponseBase) -> None:
    """Let PINs work here no longer."""
    response.delete_cookie(PINS_COOKIE, samesite="Lax")


def _set(response: HttpResponseBase, name: str, value: str) -> None:
    response.set_cookie(
        name,
        value,
        max_age=TABLET_COOKIE_AGE,
        httponly=True,
        samesite="Lax",
        secure=settings.HTTPS,
    )
