"""An author's pass: the signed proof of who typed an entry, on which tablet.

A pass is handed to the tablet at sign-in and travels with every entry, so what was typed while the
server was away arrives under its author's name whoever is signed in by then. The tablet's own
token lives in a cookie and allows sending only. A second cookie is an owner's word that this is a
tablet of the shop: a PIN is asked for there and nowhere else.
"""

import hmac
import json
import uuid
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.core import signing
from django.utils import timezone

from jobs.models import Person
from jobs.models.people import OWNER
from jobs.told import Mark

PASS_SALT = "shopac.pass"  # noqa: S105 - names the use, hides nothing
TABLET_SALT = "shopac.tablet"
TABLET_COOKIE = "shopac_tablet"
PINS_SALT = "shopac.pins"
PINS_COOKIE = "shopac_pins"
TABLET_COOKIE_AGE = 400 * 24 * 3600  # browsers keep no cookie longer
# Clocks of tablets drift; half an hour is no finding. Our judgement.
SIGN_IN_SLACK = timedelta(minutes=30)
# What reading a signed text can end with; signed by us, it may still be of another kind.
UNREADABLE = (
    signing.BadSignature,
    AttributeError,
    KeyError,
    TypeError,
    ValueError,
    Person.DoesNotExist,
)


class NoPass(Exception):
    """The pass cannot be believed; the sentence says why."""


@dataclass(frozen=True)
class Pass:
    """Who signed in where and when."""

    author: Person
    tablet: uuid.UUID | None
    at: datetime

    def marks(
        self, typed_at: datetime, offset_ms: int | None, here: uuid.UUID | None
    ) -> list[Mark]:
        """What is odd about an entry that comes with this pass; it is kept all the same.

        `typed_at` is the tablet's clock as told, `offset_ms` server minus tablet, `here` the tablet
        that sends.
        """
        found: list[Mark] = []
        if not self.author.is_active:
            found.append({"code": "author_gone"})
        if typed_at + timedelta(milliseconds=offset_ms or 0) < self.at - SIGN_IN_SLACK:
            found.append({"code": "before_sign_in"})
        if here is not None and here != self.tablet:
            found.append({"code": "other_tablet"})
        return found


def make_pass(person: Person, tablet: uuid.UUID, at: datetime | None = None) -> str:
    """A pass for this person on this tablet, who signed in at that time; now when none is told."""
    since = (at or timezone.now()).isoformat()
    told = {"person": str(person.key), "tablet": str(tablet), "at": since}
    return signing.dumps(told, salt=PASS_SALT)


def read_pass(text: str) -> Pass:
    """Believe a pass or say why not. A pass has no end: a tablet may be offline for a year.

    Raises:
        NoPass: forged, of nobody we know, or withdrawn by the owner.

    """
    if not text:
        raise NoPass("Nobody was signed in when this was typed.")
    try:
        told = signing.loads(text, salt=PASS_SALT)
        tablet = uuid.UUID(told["tablet"])
        at = datetime.fromisoformat(told["at"])
        author = Person.objects.get(key=uuid.UUID(told["person"]))
    except UNREADABLE:
        raise NoPass("The sign-in kept with this entry is not one of this shop’s.") from None
    if withdrawn(author, at):
        why = f"The owner has ended the sign-ins of {author.name} up to that day."
        raise NoPass(f"{why} {way_on(author)}")
    return Pass(author, tablet, at)


def sealed_pass(head: str, parts: Sequence[object], seal: str) -> str:
    """The pass with which a tablet sealed these parts of an entry that it saved to a file.

    A file has the pass without its signature (`head`), which is no secret: who and since when.
    `seal` is the HMAC-SHA-256 (hex) of the parts as JSON, under the whole pass as text, which never
    leaves the tablet; the same in static/js/kept_file.js. So nobody who finds a file can send by
    it, and nobody without that pass can change one.

    Raises:
        NoPass: the seal is not that of this pass over these parts.

    """
    text = json.dumps(list(parts), ensure_ascii=False, separators=(",", ":"))
    signer = signing.TimestampSigner(salt=PASS_SALT)
    for key in (signer.key, *signer.fallback_keys):
        whole = f"{head}:{signer.signature(head, key)}"
        right = hmac.new(whole.encode(), text.encode(errors="replace"), "sha256").hexdigest()
        if hmac.compare_digest(right.encode(), seal.encode(errors="replace")):
            return whole
    raise NoPass("It is not as a tablet of this shop saved it: changed since, or made elsewhere.")


def way_on(person: Person) -> str:
    """What becomes of an entry whose pass was withdrawn."""
    if person.is_active:
        return f"It is sent once {person.name} has signed in here anew."
    return (
        f"{person.name} works here no more, so it does not go out: save it to a file or discard it."
    )


def withdrawn(person: Person, at: datetime) -> bool:
    """Whether the owner has ended what this person was given at that time."""
    return person.passes_from is not None and at < person.passes_from


def pins_token(owner: Person, tablet: uuid.UUID) -> str:
    """The cookie by which PINs work on this tablet: an owner's word for it."""
    told = {"owner": str(owner.key), "tablet": str(tablet), "at": timezone.now().isoformat()}
    return signing.dumps(told, salt=PINS_SALT)


def pins_allowed(token: str, tablet: uuid.UUID | None) -> bool:
    """Whether an owner, still one and not withdrawn since, has named this browser a shop tablet."""
    try:
        told = signing.loads(token, salt=PINS_SALT)
        at = datetime.fromisoformat(told["at"])
        named = uuid.UUID(told["tablet"])
        owner = Person.objects.get(key=uuid.UUID(told["owner"]), role=OWNER, is_active=True)
    except UNREADABLE:
        return False
    return named == tablet and not withdrawn(owner, at)


def tablet_token(tablet: uuid.UUID) -> str:
    """The value of the cookie by which a browser is known as this tablet."""
    return signing.dumps(str(tablet), salt=TABLET_SALT)


def read_tablet(token: str) -> uuid.UUID | None:
    """The tablet of a cookie's value; None when it is not one of ours."""
    try:
        return uuid.UUID(signing.loads(token, salt=TABLET_SALT))
    except UNREADABLE:
        return None
