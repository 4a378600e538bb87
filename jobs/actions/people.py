"""Writing people: taken on, changed, gone. Always with PINs and passwords as hashes."""

from collections.abc import Callable
from typing import Any

from django.contrib.auth.hashers import make_password
from django.utils import timezone

from jobs.logbook import Refused
from jobs.models import Entry, Person
from jobs.models.people import DESK, OWNER, TECHNICIAN

NO_OWNER_LEFT = "The shop would have no owner left. Make somebody else an owner first."
WORD_FIRST = "An owner signs in by password. Give a password first, then the role."


def add_person(entry: Entry, name: str, role: str, pin: str, password: str) -> Person:
    """Somebody new; the entry's key is theirs. `pin` and `password` are hashes or empty."""
    return Person.objects.create(
        key=entry.key, name=name, role=role, pin=pin, password=password or make_password(None)
    )


def change_person(person: Person, change: str, value: str) -> None:
    """Make one change of CHANGES.

    Raises:
        Refused: no owner would be left, or an owner without password.

    """
    columns = CHANGES[change](person, value)
    for name, new in columns.items():
        setattr(person, name, new)
    person.save(update_fields=list(columns))


def last_owner(person: Person) -> bool:
    """Whether nobody else could unlock, add or pay out."""
    owners = Person.objects.filter(role=OWNER, is_active=True)
    return person.role == OWNER and not owners.exclude(pk=person.pk).exists()


def to_name(_person: Person, value: str) -> dict[str, Any]:
    """Another name; the old one stays in the logbook."""
    return {"name": value}


def to_role(person: Person, value: str) -> dict[str, Any]:
    """Another role. A technician has no password; sign-ins of before end."""
    if value != OWNER and last_owner(person):
        raise Refused(NO_OWNER_LEFT)
    if value == OWNER and not person.has_usable_password():
        raise Refused(WORD_FIRST)
    if value == TECHNICIAN:
        return {"role": value, "password": make_password(None)}
    return {"role": value}


def to_pin(_person: Person, value: str) -> dict[str, Any]:
    """Another PIN; whatever kept the old one from working is over."""
    return {"pin": value, **unlocked(_person, "")}


def to_password(person: Person, value: str) -> dict[str, Any]:
    """Another password."""
    if person.role not in (DESK, OWNER):
        raise Refused("A technician signs in by PIN and has no password.")
    return {"password": value, "password_misses": 0, "password_wait_until": None}


def unlocked(_person: Person, _value: str) -> dict[str, Any]:
    """The PIN works again."""
    return {"pin_misses": 0, "pin_wait_until": None, "locked_at": None}


def gone(person: Person, _value: str) -> dict[str, Any]:
    """No longer works here. What they typed on a tablet still arrives, with a mark."""
    if last_owner(person):
        raise Refused(NO_OWNER_LEFT)
    return {"is_active": False}


def back(_person: Person, _value: str) -> dict[str, Any]:
    """Works here again."""
    return {"is_active": True}


def sign_ins_ended(_person: Person, _value: str) -> dict[str, Any]:
    """Every sign-in up to now has ended, on every tablet, and what was signed with it."""
    return {"passes_from": timezone.now()}


CHANGES: dict[str, Callable[[Person, str], dict[str, Any]]] = {
    "name": to_name,
    "role": to_role,
    "pin": to_pin,
    "password": to_password,
    "unlock": unlocked,
    "end": gone,
    "back": back,
    "end_sign_ins": sign_ins_ended,
}
