"""A file of entries that a tablet saved, and how one of them comes in.

Through the same door as ever: same keys, same fingerprints, photos held to their hashes, the
author's pass believed or not. Only the sender is another: the owner who brings the file in.
"""

import base64
import binascii
import hashlib
import io
import json
import uuid
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from functools import partial
from operator import itemgetter
from typing import Any, BinaryIO

from django.conf import settings
from django.utils import timezone

from jobs.clocks import in_utc
from jobs.logbook import AGAIN, NotAnEntry, Outcome, Told, enter, fingerprint_of
from jobs.models import Entry, Person
from jobs.passes import NoPass, Pass, read_pass, sealed_pass
from jobs.photos import Sent, named
from jobs.told import Mark, as_key, one_line
from shopac.door import ENTRIES
from shopac.views.entries import Vouched, read_told, turned_away

FILE_BYTES_MAX = 120 * 1024 * 1024  # a tablet puts 60 MB of photos into one: 80 MB as text
ENTRIES_MAX = 5000
NOT_SAVED_HERE = "This is no file of entries that a tablet saved."
TOO_LARGE = "This file is larger than any that a tablet saves."
CHANGED = "Its content is not what its fingerprint says: it was changed after it was saved."
NOT_WHOLE = "A photo of it does not stand in the file whole, or is not the one that was kept."
NAMELESS = "Nobody was signed in when this was typed."
UNCONFIRMED = "The name on it was not confirmed by a PIN: no sign-in stands behind it."


class NotAFile(ValueError):
    """The file cannot be read as one of ours; the sentence says why."""


@dataclass(frozen=True)
class Brought:
    """One entry of a file and what came of it. `told` is None where it could not be read."""

    key: uuid.UUID | None
    kind: str
    author: str
    outcome: Outcome | None
    told: Told | None = None
    why: str = ""


def read_file(file: BinaryIO, size: int) -> list[dict[str, Any]]:
    """The entries of a file, as they stand there.

    Raises:
        NotAFile: too large, no JSON, or not of our shape.

    """
    if size > FILE_BYTES_MAX:
        raise NotAFile(TOO_LARGE)
    try:
        said = json.load(file)
    except (ValueError, RecursionError):
        raise NotAFile(NOT_SAVED_HERE) from None
    entries = said.get("entries") if isinstance(said, dict) and said.get("format") == 1 else None
    if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
        raise NotAFile(NOT_SAVED_HERE)
    if not entries or len(entries) > ENTRIES_MAX:
        raise NotAFile(NOT_SAVED_HERE)
    return entries


def in_order(*files: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """What stands in files, each tablet's in the order in which it was kept there.

    A file is of one tablet; in it an entry without a sign-in behind it names none.
    """
    told = [(tablet_of(file), place_of(said), said) for file in files for said in file]
    return [said for _, _, said in sorted(told, key=itemgetter(0, 1))]


def tablet_of(file: list[dict[str, Any]]) -> str:
    """The tablet that a file is of, by the first entry that names it."""
    return next((str(said["tablet"]) for said in file if said.get("tablet")), "")


def place_of(said: Mapping[str, Any]) -> int:
    """The place of an entry in the order of its tablet."""
    sequence = said.get("sequence")
    return sequence if isinstance(sequence, int) else 0


def bring(said: dict[str, Any], owner: Person, *, own: bool) -> Brought:
    """Let one entry in, or say why not; what was let in before gets its first answer again.

    `own`: the owner takes under their own name what no sign-in that holds stands behind.
    """
    kind, author = str(said.get("kind"))[:40], one_line(str(said.get("author") or ""))[:80]
    brought = Brought(as_key(said.get("key")), kind, author, None)
    try:
        photos = read_photos(said)
        nobody = Pass(owner, None, timezone.now())
        content, kind_name = read_told(
            lambda *_: (nobody, owner, []), said | {"mended": []}, photos
        )
        print_ = fingerprint_of(kind_name, content)
        brought = replace(brought, told=content)
        if print_ != said.get("fingerprint"):
            return replace(brought, why=CHANGED)
        known = Entry.objects.filter(key=content.key, fingerprint=print_).first()
        if known:
            return replace(brought, outcome=Outcome(AGAIN, known.key, print_, known.result))
        mended = said | {"mended": [with_pass(one, said) for one in mendings(said)]}
        told, _ = read_told(partial(vouch, said, owner, own), mended, photos)
        outcome = turned_away(kind_name, told, print_) or enter(ENTRIES[kind_name], told)
    except (NoPass, NotAnEntry) as why:
        return replace(brought, why=str(why))
    return replace(brought, outcome=outcome, told=told)


def read_photos(said: Mapping[str, Any]) -> list[Sent]:
    """The photos of an entry, each with the very bytes whose hash it names.

    Raises:
        NotAnEntry: one of them is not whole, or there are more than one entry takes.

    """
    listed = said.get("photos") or []
    if not isinstance(listed, list) or len(listed) > settings.PHOTOS_PER_ENTRY_MAX:
        raise NotAnEntry("The list of photos cannot be read.")
    found = []
    for one in listed:
        if not isinstance(one, dict):
            raise NotAnEntry("The list of photos cannot be read.")
        try:
            data = base64.b64decode(str(one.get("base64", "")), validate=True)
        except (binascii.Error, ValueError):
            raise NotAnEntry(NOT_WHOLE) from None
        digest = hashlib.sha256(data).hexdigest()
        if digest != one.get("sha256"):
            raise NotAnEntry(NOT_WHOLE)
        field, name = named(str(one.get("field", "")), 40), named(str(one.get("name", "")), 200)
        kind = named(str(one.get("type", "")), 100)
        found.append(Sent(field, name, digest, len(data), kind, io.BytesIO(data)))
    return found


def mendings(said: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Who changed the entry on the tablet, as it stands in the file.

    Raises:
        NotAnEntry: it cannot be read.

    """
    listed = said.get("mended") or []
    if not isinstance(listed, list) or not all(isinstance(one, dict) for one in listed):
        raise NotAnEntry("Who changed the entry cannot be read.")
    return listed


def with_pass(mending: dict[str, Any], said: Mapping[str, Any]) -> dict[str, Any]:
    """A change with the pass that sealed it; where none did, it is nobody's."""
    parts = [said.get("key"), mending.get("at"), mending.get("clock_offset_ms")]
    try:
        whole = sealed_pass(str(mending.get("pass_head")), parts, str(mending.get("seal")))
    except NoPass:
        whole = ""
    return mending | {"pass": whole}


SEALED = "key fingerprint sequence rev typed_at clock_offset_ms clock_offset_sent_ms".split()


def vouch(
    said: Mapping[str, Any],
    owner: Person,
    own: bool,
    _pass: str,
    typed_at: datetime,
    offset_ms: int | None,
) -> Vouched:
    """The author by the pass that sealed the entry; the owner sends it, and its marks say so.

    Raises:
        NoPass: changed since it was saved; or no sign-in that holds stands behind it, and the owner
            does not put their name under it.

    """
    brought: Mark = {
        "code": "brought_in",
        "person": str(owner.key),
        "figures": {"at": in_utc(timezone.now())},
    }
    head = str(said.get("pass_head") or "")
    if head:
        parts = [said.get(name) for name in SEALED]
        whole = sealed_pass(head, parts, str(said.get("seal") or ""))
    try:
        if not head:
            raise NoPass(UNCONFIRMED if said.get("author") else NAMELESS)
        proof = read_pass(whole)
    except NoPass:
        if not own:
            raise
        brought["code"] = "brought_in_own"
        return Pass(owner, as_key(said.get("tablet")), timezone.now()), owner, [brought]
    return proof, owner, [*proof.marks(typed_at, offset_ms, None), brought]
