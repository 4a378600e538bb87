"""PINs and passwords: what may be one, how they are kept, and how tries at them are counted.

A try is counted before it is looked at, so that eight at once are eight, and put back when it was
right. The hashing itself is slow on purpose and is never done while the database is held.
"""

import re
import uuid
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.hashers import check_password, identify_hasher, make_password
from django.contrib.auth.password_validation import get_default_password_validators
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import F
from django.utils import timezone
from django.utils.crypto import salted_hmac

from jobs.models import Person
from jobs.models.people import TECHNICIAN

PIN = re.compile(r"[0-9]{4,8}")
PIN_DIGITS = "4 to 8 digits"
PASSWORD_MAX = 200
# Misses in a row. From the third on each further try has to wait, longer each time.
MISSES_TO_WAIT = 3
MISSES_TO_LOCK = 8
PAUSES = tuple(timedelta(seconds=seconds) for seconds in (10, 30, 60, 120, 300, 900))
# The same for a wrong name, a wrong word and a try made too soon: nobody learns which it was.
NO_MATCH = (
    "Name and password do not belong together, or it is too soon to try again: "
    "after three misses in a row each try has to wait, at most 15 minutes."
)
WRONG_PIN = "That is not the PIN of this name."


@dataclass(frozen=True)
class Try:
    """What came of a try: the person, or the sentence why not."""

    person: Person | None
    why: str = ""


def pin_problem(pin: str) -> str:
    """Why this cannot be a PIN; empty when it can."""
    if not PIN.fullmatch(pin):
        return f"A PIN has {PIN_DIGITS} and nothing else."
    if len(set(pin)) == 1:
        return "All digits alike is the first thing anybody tries. Take another PIN."
    if pin in "0123456789" or pin in "9876543210":
        return "Digits in a row are the first thing anybody tries. Take another PIN."
    return ""


def password_problem(password: str) -> str:
    """Why this cannot be a password; empty when it can."""
    if len(password) > PASSWORD_MAX:
        return f"A password has at most {PASSWORD_MAX} characters."
    if PIN.fullmatch(password):
        return "That is a PIN. A password has at least 10 characters."
    for validator in get_default_password_validators():
        try:
            validator.validate(password)
        except ValidationError as wrong:
            return _SENTENCES.get(wrong.code or "", wrong.messages[0])
    return ""


_SENTENCES = {
    "password_too_short": "A password has at least 10 characters.",
    "password_too_common": "This password stands in lists that are tried first. Take another.",
}


def hash_pin(pin: str, key: uuid.UUID) -> str:
    """A PIN as it is kept. `key` is that of the entry it comes with.

    The salt is drawn from the key, so the same form sent twice is the same entry. Four digits are
    guessed quickly from any hash; the shop's secret key, which is not in the database, is mixed in.
    """
    return make_password(_with_secret(pin), _salt("pin", key))


def hash_password(password: str, key: uuid.UUID) -> str:
    """A password as it is kept; the salt as for a PIN."""
    return make_password(password, _salt("password", key))


def is_pin(person: Person, pin: str) -> bool:
    """Whether this is the person's PIN; nothing is counted, so nobody's try comes here."""
    return bool(person.pin) and check_password(_with_secret(pin), person.pin)


def is_password(person: Person, password: str) -> bool:
    """Whether this is the person's password; nothing is counted, so nobody's try comes here."""
    return person.has_usable_password() and check_password(password, person.password)


def is_hash(text: str) -> bool:
    """Whether this is a hash as the functions above make it, and nothing typed."""
    try:
        identify_hasher(text)
    except ValueError:
        return False
    return True


def try_pin(key: uuid.UUID, pin: str) -> Try:
    """One try at a person's PIN. Whoever may see the names may also hear about waits and locks."""
    person = Person.objects.filter(key=key, is_active=True).exclude(pin="").first()
    if person is None:
        make_password(_with_secret(pin))  # takes as long as a wrong one
        return Try(None, WRONG_PIN)
    counted = _count(person, "pin", MISSES_TO_LOCK)
    if counted is None:
        return Try(None, pin_state(person))
    if not check_password(_with_secret(pin), person.pin):
        if counted >= MISSES_TO_LOCK:
            Person.objects.filter(pk=person.pk).update(locked_at=timezone.now())
        person.refresh_from_db()
        return Try(None, f"{WRONG_PIN} {pin_state(person)}".strip())
    _forget(person, "pin")
    return Try(person)


def try_password(name: str, password: str) -> Try:
    """One try at a password. Never says whether the name is known."""
    secret = password[: PASSWORD_MAX + 1]
    person = Person.objects.filter(name__iexact=name.strip(), is_active=True).first()
    counted = _count(person, "password", None) if person else None
    if counted is None:
        _write_as_if_counted()
    may = person is not None and person.role != TECHNICIAN and person.has_usable_password()
    if person is None or counted is None or not may:
        make_password(secret)
        return Try(None, NO_MATCH)
    if not check_password(secret, person.password):
        return Try(None, NO_MATCH)
    _forget(person, "password")
    return Try(person)


def pin_state(person: Person) -> str:
    """What keeps this person's PIN from working just now, as a sentence; empty: nothing."""
    if is_locked(person):
        return "This PIN is locked after eight misses in a row. The owner unlocks it under People."
    until = person.pin_wait_until
    if until and _left(until):
        # In the shop's time; the next whole second, since a page does not count down.
        clock = timezone.localtime(until + timedelta(seconds=1)).strftime("%H:%M:%S")
        return f"After three misses each try has to wait. Try again from {clock}."
    return ""


def is_locked(person: Person) -> bool:
    """Whether the PIN works again only after the owner unlocks it."""
    return person.locked_at is not None or person.pin_misses >= MISSES_TO_LOCK


def _count(person: Person, what: str, lock_at: int | None) -> int | None:
    """Count this try as a miss beforehand; None when it comes too soon or the PIN is locked."""
    with transaction.atomic():
        row = Person.objects.select_for_update().get(pk=person.pk)
        misses: int = getattr(row, f"{what}_misses")
        locked = lock_at is not None and (row.locked_at is not None or misses >= lock_at)
        if locked or _left(getattr(row, f"{what}_wait_until")):
            person.refresh_from_db()
            return None
        misses = min(misses + 1, 1000)
        wait = None
        if misses >= MISSES_TO_WAIT:
            wait = timezone.now() + PAUSES[min(misses - MISSES_TO_WAIT, len(PAUSES) - 1)]
        setattr(row, f"{what}_misses", misses)
        setattr(row, f"{what}_wait_until", wait)
        row.save(update_fields=[f"{what}_misses", f"{what}_wait_until"])
    return misses


def _write_as_if_counted() -> None:
    """Take as long as a counted try: the disk is waited for, nothing is changed."""
    anyone = Person.objects.order_by("pk").first()
    if anyone:
        Person.objects.filter(pk=anyone.pk).update(password_misses=F("password_misses"))


def _forget(person: Person, what: str) -> None:
    """Put the counter back after a right one."""
    Person.objects.filter(pk=person.pk).update(**{f"{what}_misses": 0, f"{what}_wait_until": None})


def _left(until: datetime | None) -> timedelta | None:
    """What is left of a pause; one longer than any we set comes from a clock put back: over."""
    if until is None:
        return None
    left = until - timezone.now()
    return left if timedelta(0) < left <= PAUSES[-1] else None


def _with_secret(pin: str) -> str:
    return salted_hmac("shopac.pin", pin, algorithm="sha256").hexdigest()


def _salt(what: str, key: uuid.UUID) -> str:
    return salted_hmac(f"shopac.{what}.salt", str(key), algorithm="sha256").hexdigest()[:32]
