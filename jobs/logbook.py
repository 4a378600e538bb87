"""The logbook: one way in for every change.

`enter(kind, told)` looks up the key, holds the form to account, writes the rows and the entry in
one transaction and returns what happened. Pages and the door for tablets both come through here.
"""

import hashlib
import json
import re
import uuid
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from django import forms
from django.core.exceptions import BadRequest
from django.db import connection, transaction
from django.db.models import Q
from django.utils import timezone
from django.utils.datastructures import MultiValueDict

from jobs import forget
from jobs.clocks import in_utc, when
from jobs.models import Entry, Person, Reused
from jobs.models.corrected import family_of
from jobs.photos import Kept, Sent, keep, record
from jobs.told import Mark

FIELD_NAME = re.compile(r"[a-z][a-z0-9_]{0,59}")
NOT_CONTENT = frozenset({"csrfmiddlewaretoken", "key", "button", "corrects", "rev"})
# What people sign in with is hashed before it becomes an entry, under another name.
SECRET = re.compile(r"pin|password|held_.*")
# "shopac" as a number: the one lock that every writing transaction takes on PostgreSQL.
WRITE_LOCK = 0x73686F706163


class NotAnEntry(ValueError, BadRequest):
    """What came is not of an entry's shape; the sentence says what is missing.

    No form of ours sends such a thing. A page that meets it is answered with status 400.
    """


@dataclass(frozen=True)
class Told:
    """One entry as it was told. `fields` is {name: (text, …)}.

    `asked`: somebody has its form in front and can be asked about what is odd. Where nobody has, it
    is kept as typed and marked: what was recorded behind it need not wait for an answer.
    """

    key: uuid.UUID
    version: int
    job_key: uuid.UUID | None
    fields: Mapping[str, Sequence[str]]
    author: Person
    photos: Sequence[Sent] = ()
    sender: Person | None = None
    tablet: uuid.UUID | None = None
    sequence: int | None = None
    rev: int = 0
    corrects: uuid.UUID | None = None
    typed_at: datetime = field(default_factory=timezone.now)
    happened_at: datetime | None = None
    clock_offset_ms: int | None = None
    clock_offset_sent_ms: int | None = None
    marks: Sequence[Mark] = ()
    asked: bool = True


EntryForm = Callable[[MultiValueDict[str, str], Told], forms.Form]
Apply = Callable[[Entry, forms.Form], dict[str, Any]]
Ahead = Callable[[forms.Form, Told], Apply]
AHEAD_TRIES = 2


@dataclass(frozen=True)
class EntryKind:
    """How one kind of entry is read and what it writes.

    `form(data, told)` builds the bound form; `apply(entry, form)` writes rows and returns the
    result, with at least `url` (where to go on). A fact is never refused for what it says; a
    decision may raise Refused in `apply`. An entry that is `online` is made on a page of the shop
    server only; a tablet cannot keep it and send it later. One that `opens_job` belongs to the job
    of its own key, or, where it corrects such an entry, to that one's job, be it here or not.
    `alike` are fields that have to be the same in an entry and in what corrects it.
    `ahead(form, told)` does what takes long before the write lock is taken, and returns what stands
    in for `apply`; that raises Meanwhile where something came in between. Then it is done again, at
    last by `apply` inside the lock.
    """

    name: str
    version: int
    form: EntryForm
    apply: Apply
    roles: frozenset[str]
    fact: bool
    online: bool = False
    opens_job: bool = False
    ahead: Ahead | None = None
    alike: tuple[str, ...] = ()


class Meanwhile(Exception):
    """What was made ahead of the write lock rests on what has changed since."""


class Refused(Exception):
    """A decision that cannot stand; the sentence says what replaced what it rests on."""


ACCEPTED, AGAIN, OVERTAKEN = "accepted", "again", "overtaken"
REUSED, RETURNED, FORBIDDEN, REFUSED = "reused", "returned", "forbidden", "refused"


@dataclass(frozen=True)
class Outcome:
    """What came of an entry. `form` is set when it went back to its form."""

    state: str
    key: uuid.UUID
    fingerprint: str
    result: Mapping[str, Any] = field(default_factory=dict)
    form: forms.Form | None = None
    why: str = ""

    @property
    def stands(self) -> bool:
        """Whether the entry is in the logbook under this key and content."""
        return self.state in (ACCEPTED, AGAIN)


def clean_text(text: str) -> str:
    r"""Text as the logbook keeps it: CRLF and CR to LF, NUL and lone surrogates to U+FFFD.

    A text area holds LF in the page and CRLF at the server; neither database nor UTF-8 can hold
    the other two. The same rule stands in static/offline/fingerprint.js.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n").replace("\x00", "\ufffd")
    return re.sub("[\ud800-\udfff]", "\ufffd", text)


def clean_fields(fields: Mapping[str, Sequence[str]]) -> dict[str, list[str]]:
    """Fields as they are kept and fingerprinted: known shape, sorted, unanswered ones left out.

    A field is left out when all its values are empty; an empty one among others keeps its place,
    since lists of a form may belong together line by line.

    Raises:
        NotAnEntry: a field's name is not of lower-case letters, digits and underscores, or that
            of a PIN or password.

    """
    kept: dict[str, list[str]] = {}
    for name in sorted(fields):
        if name in NOT_CONTENT:
            continue
        if SECRET.fullmatch(name):
            raise NotAnEntry("A PIN or a password is no part of an entry.")
        if not FIELD_NAME.fullmatch(name):
            raise NotAnEntry(f"A field is called “{name[:60]}”; no form of ours has such a field.")
        values = [clean_text(value) for value in fields[name]]
        if any(values):
            kept[name] = values
    return kept


def fingerprint(
    kind: str,
    version: int,
    job_key: uuid.UUID | None,
    fields: Mapping[str, Sequence[str]],
    photos: Sequence[tuple[str, str]] = (),
    corrects: uuid.UUID | None = None,
    happened_at: datetime | None = None,
) -> str:
    """SHA-256 (hex) over canonical JSON of an entry's content.

    `photos` are (field, hash of the bytes sent) in order: a picture moved to another field is
    another answer. `happened_at` counts as an instant, in UTC to the millisecond as scripts have
    it. Text counts as it was typed: é composed and é decomposed are two texts, because what is kept
    is what was typed, and the two sides need no tables of Unicode that agree. Keys sorted, no
    spaces, UTF-8. Held to tests/offline/fingerprints.json together with the script's own function.
    """
    content = {
        "corrects": str(corrects) if corrects else None,
        "fields": clean_fields(fields),
        "happened_at": in_utc(happened_at) if happened_at else None,
        "job": str(job_key) if job_key else None,
        "kind": kind,
        "photos": [[clean_text(name), sha256] for name, sha256 in photos],
        "version": version,
    }
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def fingerprint_of(kind: str, told: Told) -> str:
    """The fingerprint of an entry as it was told."""
    photos = [(photo.field, photo.sha256) for photo in told.photos]
    return fingerprint(
        kind, told.version, told.job_key, told.fields, photos, told.corrects, told.happened_at
    )


def enter(kind: EntryKind, told: Told) -> Outcome:
    """Take one entry into the logbook, exactly once.

    Photos are put on disk first (a file without a row is harmless, a row without a file is not);
    then, in one writing transaction: look up the key, check the form, write rows and entry.

    Raises:
        NotAnEntry: the fields are not of an entry's shape.
        Refused: by a fact, whose `apply` may not do so; a mistake of the program's.
        django.db.OperationalError: database locked or full; nothing was written.

    """
    told = replace(told, fields=clean_fields(told.fields))
    print_ = fingerprint_of(kind.name, told)
    known = Entry.objects.filter(key=told.key, fingerprint=print_).first()
    if known:  # most repeats end here, whoever may enter what by now
        return Outcome(AGAIN, told.key, print_, known.result)
    if told.author.role not in kind.roles:
        return Outcome(FORBIDDEN, told.key, print_, why=not_for(told.author))
    kept_photos = [keep(photo) for photo in told.photos]
    try:
        for _ in range(AHEAD_TRIES if kind.ahead else 0):
            form = bound(kind, told)
            if not (kind.ahead and form.is_valid()):
                break
            with suppress(Meanwhile):
                return write(kind, told, print_, kept_photos, kind.ahead(form, told))
        return write(kind, told, print_, kept_photos, kind.apply)
    except Refused as refused:
        if kind.fact:
            raise
        return Outcome(REFUSED, told.key, print_, why=str(refused))


def bound(kind: EntryKind, told: Told) -> forms.Form:
    """The form of an entry with what was told."""
    return kind.form(MultiValueDict({name: list(told.fields[name]) for name in told.fields}), told)


def write(
    kind: EntryKind, told: Told, print_: str, kept_photos: Sequence[Kept], apply: Apply
) -> Outcome:
    """Entry and rows in one writing transaction, or what stands in the way."""
    with transaction.atomic():
        take_write_lock()
        known = Entry.objects.filter(key=told.key).first()
        if known:
            return meet_known(known, told, print_, columns(kind, told, print_, kept_photos))
        form = bound(kind, told)
        if not form.is_valid():
            return Outcome(RETURNED, told.key, print_, form=form)
        row = columns(kind, told, print_, kept_photos)
        entry = Entry.objects.create(**row, done_at=row["happened_at"], result={})
        put_done_at(entry, kind.alike)
        record(entry, kept_photos)
        entry.result = apply(entry, form)
        entry.save(update_fields=["result", "marks"])
        forget.arrived(entry)
    return Outcome(ACCEPTED, told.key, print_, entry.result)


def put_done_at(entry: Entry, alike: Sequence[str]) -> None:
    """Let an entry, and those that correct one another with it, be of the moment of the first.

    Those that arrived before are put right, too: tablets bring them in any order.
    """
    family = family_of(entry, alike)
    for one in family:
        if one.done_at != family[0].happened_at:
            one.done_at = family[0].happened_at
            one.save(update_fields=["done_at"])


def take_write_lock() -> None:
    """One writer at a time. SQLite has it by IMMEDIATE; PostgreSQL by one advisory lock."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [WRITE_LOCK])


def meet_known(known: Entry, told: Told, print_: str, row: dict[str, Any]) -> Outcome:
    """Answer for a key already taken: the first answer again, overtaken, or reused and kept."""
    if known.fingerprint == print_:
        return Outcome(AGAIN, told.key, print_, known.result)
    if told.rev < known.rev:
        return Outcome(OVERTAKEN, told.key, print_, known.result)
    kept, _ = Reused.objects.get_or_create(key=told.key, fingerprint=print_, defaults=row)
    forget.arrived(kept)
    why = "Under this entry's key the shop server already holds something else. Both are kept."
    return Outcome(REUSED, told.key, print_, known.result, why=why)


def job_of(kind: EntryKind, told: Told) -> uuid.UUID | None:
    """The key of the job an entry belongs to.

    Tablets bring a correction and what it corrects in any order. One that comes before its original
    belongs to the job that will have the original's key, and the original finds its place taken.
    """
    if not kind.opens_job:
        return told.job_key
    same = Entry.objects.filter(kind=kind.name)
    tied = same.filter(Q(key=told.corrects) | Q(corrects=told.key))
    known = tied.exclude(job_key=None).order_by("id").values_list("job_key", flat=True).first()
    if known or not told.corrects:
        return known or told.key
    if told.job_key not in (None, told.key):
        return told.job_key  # a tablet keeps all that correct one another under the first one's job
    another = Entry.objects.filter(key=told.corrects).exists()  # of a kind that opens no job
    return told.key if another else told.corrects


def columns(
    kind: EntryKind, told: Told, print_: str, kept_photos: Sequence[Kept]
) -> dict[str, Any]:
    """The logbook columns of an entry."""
    row: dict[str, Any] = {
        name: getattr(told, name)
        for name in (
            "key version fields author sender tablet sequence rev corrects typed_at clock_offset_ms"
            " clock_offset_sent_ms"
        ).split()
    }
    arrived_at = timezone.now()
    said_at = told.happened_at or told.typed_at
    happened_at, clock_marks = when(
        said_at, told.clock_offset_ms, told.clock_offset_sent_ms, arrived_at
    )
    return row | {
        "kind": kind.name,
        "job_key": job_of(kind, told),
        "photos": [photo.listed() for photo in kept_photos],
        "fingerprint": print_,
        "arrived_at": arrived_at,
        "happened_at": happened_at,
        "marks": [*told.marks, *clock_marks],
    }


def not_for(person: Person) -> str:
    """The sentence for an entry that is not this person's to make."""
    return f"{person.role_words} cannot enter this. Ask someone whose work it is; it stays here."
