"""When a tablet last asked, and what it told of itself then. No entry: it says nothing of a car.

A tablet asks every few seconds; that is written down once a minute, and at once when it has more or
fewer entries than it last told. Writing never waits: whoever holds the database is about a car.
"""

import logging
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from decimal import Decimal

from django.db import DatabaseError, connection, transaction
from django.http import QueryDict

from jobs.models import Tablet

log = logging.getLogger("shopac")
HEADER = "Shopac-Tablet"
APART = timedelta(seconds=50)
LONGEST_S = 10 * 366 * 24 * 3600
MOST = 2**31 - 1
WORDS = "0123456789abcdefghijklmnopqrstuvwxyz.-"


@dataclass(frozen=True)
class Figures:
    """What a tablet tells of itself: see the columns of Tablet."""

    unsent: int
    photos: int
    waiting: int
    kept_bytes: int
    persisted: bool | None
    version: str
    oldest_at: datetime | None


@dataclass(frozen=True)
class Seen:
    """What the shop server sees of a tablet that asks, whether it tells anything or not."""

    browser: str
    pins: bool
    px_per_mm: Decimal | None


def read_figures(text: str, now: datetime) -> Figures | None:
    """What stands in the header; None where any of it is missing or can't be.

    `oldest` comes as an age in seconds, since the tablet's clock may be off.
    """
    told = QueryDict(text[:400])
    try:
        unsent, photos, waiting = (small(told[name]) for name in ("unsent", "photos", "waiting"))
        kept_bytes = small(told["bytes"], 2**53)
        age = small(told["oldest"], LONGEST_S) if unsent else None
    except (KeyError, ValueError):
        return None
    version = told.get("version", "")
    if waiting > unsent or len(version) > 40 or set(version) - set(WORDS):
        return None
    oldest_at = None if age is None else now - timedelta(seconds=age)
    persisted = {"1": True, "0": False}.get(told.get("persisted", ""))
    return Figures(unsent, photos, waiting, kept_bytes, persisted, version, oldest_at)


def small(text: str, most: int = MOST) -> int:
    """A whole number that a column holds.

    Raises:
        ValueError: it is none.

    """
    if not (text.isascii() and text.isdigit() and len(text) < 20 and int(text) <= most):
        raise ValueError("not a small whole number")
    return int(text)


def contact(key: uuid.UUID, seen: Seen, figures: Figures | None, now: datetime) -> Tablet | None:
    """Write down that this tablet asked, if it is time; the tablet as it was known before.

    None: it was not known. Where the database takes nothing now, nothing is written.
    """
    known = Tablet.objects.filter(key=key).select_related("revoked_by").first()
    if known and not is_due(known, seen, figures, now):
        return known
    columns = {"last_contact": now, **asdict(seen)}
    if figures:
        columns |= {"told_at": now, **asdict(figures)}
    try:
        with unwaiting():
            if known is None:
                Tablet.objects.bulk_create([Tablet(key=key, **columns)], ignore_conflicts=True)
            else:
                Tablet.objects.filter(pk=known.pk).update(**columns)
    except DatabaseError as error:
        log.info("A tablet's contact is not written down: %s", error)
    return known


def is_due(known: Tablet, seen: Seen, figures: Figures | None, now: datetime) -> bool:
    """Whether there is something new to write down."""
    last = known.last_contact
    if last is None or not last <= now < last + APART:  # a clock put back counts as time gone by
        return True
    if figures and (figures.unsent, figures.waiting) != (known.unsent, known.waiting):
        return True
    return (seen.pins, seen.px_per_mm) != (known.pins, known.px_per_mm)


@contextmanager
def unwaiting() -> Iterator[None]:
    """A write that fails at once where another one is under way."""
    if connection.vendor == "postgresql":
        with transaction.atomic(), connection.cursor() as cursor:
            cursor.execute("SET LOCAL lock_timeout = '50ms'")
            yield
        return
    connection.ensure_connection()
    usual = int(connection.settings_dict["OPTIONS"].get("timeout", 5) * 1000)
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA busy_timeout = 0")
    try:
        yield
    finally:
        with connection.cursor() as cursor:
            cursor.execute(f"PRAGMA busy_timeout = {usual}")


def revoked(key: uuid.UUID | None) -> Tablet | None:
    """The tablet, where an owner has revoked it."""
    if key is None:
        return None
    rows = Tablet.objects.filter(key=key, revoked_at__isnull=False)
    return rows.select_related("revoked_by").first()
