"""The door for tablets: entries kept there arrive here."""

import json
import re
import uuid
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import partial
from typing import Any

from django.conf import settings
from django.core.exceptions import RequestDataTooBig
from django.http import HttpRequest, JsonResponse
from django.utils import timezone
from django.views.decorators.http import require_POST

from jobs.clocks import in_utc, offset_of
from jobs.contacts import revoked
from jobs.logbook import (
    ACCEPTED,
    AGAIN,
    FORBIDDEN,
    OVERTAKEN,
    REFUSED,
    RETURNED,
    REUSED,
    NotAnEntry,
    Outcome,
    Told,
    enter,
    fingerprint_of,
)
from jobs.models import Entry, Person
from jobs.models.entries import LATE
from jobs.passes import NoPass, Pass, read_pass
from jobs.photos import Sent, named, posted_files, sent_files
from jobs.ring import waits_for_job
from jobs.told import Mark
from jobs.views.tablet import revoked_words, this_tablet
from shopac.door import ENTRIES
from shopac.views.ring import went_back

OFFSET_MAX_MS = 200 * 366 * 24 * 3600 * 1000  # two centuries: a clock that was never set
TOO_LARGE = "too_large"
NAMED_FIRST: Mark = {"code": "named_first"}  # its author's PIN came later
NAMELESS: Mark = {"code": "nameless"}  # it got the name of who signed in next
STATUS = {
    ACCEPTED: 201,
    AGAIN: 200,
    OVERTAKEN: 200,
    RETURNED: 422,
    FORBIDDEN: 403,
    REUSED: 409,
    REFUSED: 409,
    TOO_LARGE: 413,
}


class Revoked(NoPass):
    """An owner revoked the tablet: it sends nothing, whoever is signed in there."""


@require_POST
def entries(request: HttpRequest) -> JsonResponse:
    """Take one entry: a JSON body, or multipart with the part `entry` and its photos.

    Every answer that settles something echoes the entry's key and fingerprint; a tablet believes
    no other.
    """
    try:
        said = read_said(request)
        photos = read_photos(request, said)
        told, kind_name = read_told(partial(who, request), said, photos)
        print_ = fingerprint_of(kind_name, told)
    except Revoked as gone:
        return JsonResponse({"state": "revoked", "why": str(gone)}, status=401)
    except NoPass as no_pass:
        return JsonResponse({"state": "sign_in", "why": str(no_pass)}, status=401)
    except NotAnEntry as wrong:
        return JsonResponse({"state": "no_entry", "why": str(wrong)}, status=400)
    except RequestDataTooBig:
        why = "This entry has more text than the shop server takes at once."
        return JsonResponse({"state": TOO_LARGE, "why": why}, status=413)
    outcome = turned_away(kind_name, told, print_)
    later = None if outcome else must_wait(kind_name, told, said)
    if later:
        return later
    outcome = outcome or enter(ENTRIES[kind_name], told)
    return said_back(outcome, STATUS[outcome.state])


def must_wait(kind_name: str, told: Told, said: dict[str, Any]) -> JsonResponse | None:
    """The answer to what a tablet sends again later, since this database went back in time.

    What it had acknowledged comes before what waits there; and a car that was lost comes with the
    tablet where it was taken in.
    """
    if went_back(said):
        why = "The shop server was restored; what it had before is sent to it first."
        return JsonResponse({"state": "went_back", "why": why}, status=412)
    if not ENTRIES[kind_name].opens_job and waits_for_job(told.job_key):
        why = (
            "The shop server was restored and does not know this car. It waits for the tablet where"
            " the car was taken in."
        )
        return JsonResponse({"state": "no_job", "why": why}, status=503)
    return None


def turned_away(kind_name: str, told: Told, print_: str) -> Outcome | None:
    """What is settled before the logbook is asked; None: nothing."""
    if any(photo.size > settings.PHOTO_BYTES_MAX for photo in told.photos):
        why = "A photo of this entry is too large for the shop server. Take it again, smaller."
        return Outcome(TOO_LARGE, told.key, print_, why=why)
    if kind_name not in ENTRIES:
        why = "The shop server does not know this kind of entry; it may be older than this tablet."
        return Outcome(REFUSED, told.key, print_, why=why)
    if ENTRIES[kind_name].online:
        why = "This is done on a page of the shop server, not sent from a tablet."
        return Outcome(REFUSED, told.key, print_, why=why)
    return None


def read_said(request: HttpRequest) -> dict[str, Any]:
    """The JSON of the entry, wherever it lies in the request."""
    if request.content_type == "application/json":
        text: str | bytes = request.body
    else:
        text = request.POST.get("entry", "")
    try:
        said = json.loads(text)
    except (ValueError, RecursionError):
        raise NotAnEntry("The entry is not JSON.") from None
    if not isinstance(said, dict):
        raise NotAnEntry("The entry is not an object.")
    return said


def read_photos(request: HttpRequest, said: dict[str, Any]) -> list[Sent]:
    """The photos the entry lists, in its order, each with the very bytes whose hash it names."""
    listed = said.get("photos") or []
    if not isinstance(listed, list) or len(listed) > settings.PHOTOS_PER_ENTRY_MAX:
        raise NotAnEntry("The list of photos cannot be read.")
    came = {one.sha256: one for one in sent_files(posted_files(request))}
    photos = []
    for line in listed:
        one = came.get(str(line.get("sha256"))) if isinstance(line, dict) else None
        if one is None:
            raise NotAnEntry("A photo of this entry did not arrive whole.")
        field, name = named(str(line.get("field", "")), 40), named(str(line.get("name", "")), 200)
        photos.append(Sent(field, name, one.sha256, one.size, one.type, one.file))
    return photos


Vouched = tuple[Pass, Person | None, list[Mark]]
Who = Callable[[str, datetime, int | None], Vouched]


def read_told(who: Who, said: dict[str, Any], photos: Sequence[Sent]) -> tuple[Told, str]:
    """The entry and the name of its kind.

    `who(pass, typed_at, offset)` gives the author's pass, the sender, and what is odd about them.

    Raises:
        NotAnEntry: a part is missing or of the wrong type.
        NoPass: nobody signed for it, or not on this tablet.

    """
    try:
        key = uuid.UUID(said["key"])
        fields = read_fields(said["fields"])
        kind_name = read_kind(said["kind"])
        version = small_number(said["version"], below=2**15)
        job_key = uuid.UUID(said["job"]) if said.get("job") else None
        corrects = uuid.UUID(said["corrects"]) if said.get("corrects") else None
        sequence = small_number(said["sequence"]) if said.get("sequence") is not None else None
        rev = small_number(said.get("rev") or 0)
        typed_at = read_time(said["typed_at"])
        happened_at = read_time(said["happened_at"]) if said.get("happened_at") else None
        offset_at_tap = read_offset(said.get("clock_offset_ms"))
        offset_at_sending = read_offset(said.get("clock_offset_sent_ms"))
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError):
        raise NotAnEntry("A part of the entry is missing or cannot be read.") from None
    offset = offset_of(offset_at_tap, offset_at_sending)
    proof, sender, marks = who(str(said.get("pass") or ""), typed_at, offset)
    if said.get("claimed") is True:  # that says it whole
        marks = [*(one for one in marks if one["code"] != "before_sign_in"), NAMED_FIRST]
    if said.get("nameless") is True:
        marks = [*(one for one in marks if one["code"] != "before_sign_in"), NAMELESS]
    mendings = read_mendings(said.get("mended") or (), offset_at_sending)
    told = Told(
        key=key,
        version=version,
        job_key=job_key,
        fields=fields,
        author=proof.author,
        photos=photos,
        sender=sender,
        tablet=proof.tablet,
        sequence=sequence,
        rev=rev,
        corrects=corrects,
        typed_at=typed_at,
        happened_at=happened_at,
        clock_offset_ms=offset_at_tap,
        clock_offset_sent_ms=offset_at_sending,
        marks=[*marks, *mended(mendings, proof.author, by_server(typed_at, offset))],
        asked=said.get("asked") is not False,
    )
    return told, kind_name


def read_fields(said: object) -> dict[str, list[str]]:
    """The typed fields, {name: [text, …]}; an ever so small doubt is a TypeError."""
    if not isinstance(said, dict):
        raise TypeError("fields are no object")
    for texts in said.values():
        if not isinstance(texts, list) or not all(isinstance(text, str) for text in texts):
            raise TypeError("a field is no list of texts")
    return said


def who(request: HttpRequest, pass_text: str, typed_at: datetime, offset_ms: int | None) -> Vouched:
    """The author's pass, the sender by sign-in or tablet cookie, and what is odd about them.

    Raises:
        NoPass: nobody signed for it, or this browser is neither that tablet nor signed in.
        Revoked: this is a revoked tablet, or it was typed on one.

    """
    here = this_tablet(request)
    if gone := revoked(here):
        raise Revoked(revoked_words(gone))
    proof = read_pass(pass_text)
    if proof.tablet != here and (gone := revoked(proof.tablet)):
        raise Revoked(revoked_words(gone))
    sender = request.user if isinstance(request.user, Person) else None
    if sender is None and here != proof.tablet:
        raise NoPass("This browser is not known to the shop server; sign in first.")
    return proof, sender, proof.marks(typed_at, offset_ms, here)


@dataclass(frozen=True)
class Mending:
    """Who changed an entry on the tablet after it was first told there, by the server's clock."""

    by: Person | None
    at: datetime


def read_mendings(said: Any, offset_at_sending: int | None) -> list[Mending]:
    """The changes that a tablet tells of, each of another person."""
    try:
        return [read_mending(one, offset_at_sending) for one in said]
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError):
        raise NotAnEntry("Who changed the entry cannot be read.") from None


def read_mending(said: dict[str, Any], offset_at_sending: int | None) -> Mending:
    """One change; under a pass that is not believed it is nobody's."""
    offset = offset_of(read_offset(said.get("clock_offset_ms")), offset_at_sending)
    at = by_server(read_time(said["at"]), offset)
    try:
        return Mending(read_pass(str(said.get("pass") or "")).author, at)
    except NoPass:
        return Mending(None, at)


def mended(mendings: list[Mending], author: Person, typed_at: datetime) -> list[Mark]:
    """Marks of the changes. What its author set right within ten minutes is none."""
    return [
        {
            "code": "mended",
            "person": str(one.by.key) if one.by else "",
            "figures": {"at": in_utc(one.at)},
        }
        for one in mendings
        if one.by != author or one.at - typed_at > LATE
    ]


def by_server(time: datetime, offset_ms: int | None) -> datetime:
    """A tablet's time by the shop server's clock."""
    return time + timedelta(milliseconds=offset_ms or 0)


def read_kind(value: object) -> str:
    """The name of an entry kind; whether there is such a one is not looked at yet."""
    if not isinstance(value, str) or not re.fullmatch(r"[a-z_]{1,40}", value):
        raise ValueError("no name of a kind")
    return value


def small_number(value: object, below: int = 2**31) -> int:
    """A whole number that a database column holds."""
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value < below:
        raise ValueError("not a small whole number")
    return value


def read_time(text: object) -> datetime:
    """An ISO time with its zone; a tablet's clock may be years off, but not out of the calendar."""
    when = datetime.fromisoformat(str(text))
    if when.tzinfo is None or not 1900 < when.year < 9000:
        raise ValueError("a time without zone, or out of the calendar")
    return when.astimezone(timezone.get_default_timezone())


def read_offset(value: object) -> int | None:
    """Server minus tablet in milliseconds; None when it was not measured or makes no sense."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return int(value) if abs(value) < OFFSET_MAX_MS else None


def place_of(outcome: Outcome) -> int | None:
    """The entry's place in the logbook's order, by which a tablet knows its last one."""
    if STATUS[outcome.state] not in (200, 201):
        return None
    return Entry.objects.filter(key=outcome.key).values_list("pk", flat=True).first()


def said_back(outcome: Outcome, status: int) -> JsonResponse:
    """The acknowledgement: key and fingerprint echoed, and what a form page needs."""
    errors = {}
    if outcome.form is not None:
        errors = {name: list(texts) for name, texts in outcome.form.errors.items()}
    return JsonResponse(
        {
            "key": str(outcome.key),
            "fingerprint": outcome.fingerprint,
            "state": outcome.state,
            "result": dict(outcome.result),
            "place": place_of(outcome),
            "errors": errors,
            "why": outcome.why,
        },
        status=status,
    )
