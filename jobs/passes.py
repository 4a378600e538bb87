"""An author's pass: the signed proof of who typed an entry, on which tablet.

A pass is handed to the tablet at sign-in and travels with every entry, so what was typed while the
server was away arrives under its author's name whoever is signed in by then. The tablet's own
token lives in a cookie and allows sending only.
"""

import uuid
from dataclasses import dataclass
from datetime import datetime

from django.core import signing
from django.utils import timezone

from jobs.models import Person

PASS_SALT = "shopac.pass"  # noqa: S105 - names the use, hides nothing
TABLET_SALT = "shopac.tablet"
TABLET_COOKIE = "shopac_tablet"
TABLET_COOKIE_AGE = 400 * 24 * 3600  # browsers keep no cookie longer


class NoPass(Exception):
    """The pass cannot be believed; the sentence says why."""


@dataclass(frozen=True)
class Pass:
    """Who signed in where and when."""

    author: Person
    tablet: uuid.UUID
    at: datetime


def make_pass(person: Person, tablet: uuid.UUID) -> str:
    """A pass for this person on this tablet, from now on."""
    told = {"person": str(person.key), "tablet": str(tablet), "at": timezone.now().isoformat()}
    return signing.dumps(told, salt=PASS_SALT)


def read_pass(text: str) -> Pass:
    """Believe a pass or say why not. A pass has no end: a tablet may be offline for a year.

    Raises:
        NoPass: forged, of nobody we know, or withdrawn by the owner.

    """
    try:
        told = signing.loads(text, salt=PASS_SALT)
        tablet = uuid.UUID(told["tablet"])
        at = datetime.fromisoformat(told["at"])
        author = Person.objects.get(key=uuid.UUID(told["person"]))
    except (signing.BadSignature, KeyError, TypeError, ValueError, Person.DoesNotExist):
        raise NoPass("The sign-in kept with this entry is not one of this shop’s.") from None
    if author.passes_from and at < author.passes_from:
        raise NoPass(f"The owner has ended the sign-ins of {author.name} up to that day.")
    return Pass(author, tablet, at)


def tablet_token(tablet: uuid.UUID) -> str:
    """The value of the cookie by which a browser is known as this tablet."""
    return signing.dumps(str(tablet), salt=TABLET_SALT)


def read_tablet(token: str) -> uuid.UUID | None:
    """The tablet of a cookie's value; None when it is not one of ours."""
    try:
        return uuid.UUID(signing.loads(token, salt=TABLET_SALT))
    except (signing.BadSignature, TypeError, ValueError):
        return None
