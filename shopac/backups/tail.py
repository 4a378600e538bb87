"""The end of a backup file: what it is in short, and a hash over all that stands before.

A backup is a ZIP file, and the end is its comment: one line of JSON, then the SHA-256 in hex of
every byte before that hash. A file that was cut off, or of which one bit has changed, has no end
that fits it. The short words are read without reading the rest.
"""

import hashlib
import json
import os
from collections.abc import Callable
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

from shopac.backups.trouble import BackupTrouble

HEX = 64
COMMENT_MOST = 65535  # what a ZIP file's comment can hold
BLOCK = 1024 * 1024
FORMAT = 1
# Why one was made. Codes inside the file.
DAILY, ASKED, UPDATE = "daily", "asked", "update"
Watch = Callable[[int], None]


@dataclass(frozen=True)
class Tail:
    """What a backup says of itself.

    `whole`: photos and records are in it; without them it restores the database only. `counts` are
    those of shopac.backups.contents.COUNTED. `damaged` is how many files had other bytes than
    their name says when they were copied.
    """

    made_at: str
    version: str
    why: str
    engine: str
    whole: bool
    counts: dict[str, int]
    damaged: int = 0
    format: int = FORMAT

    @property
    def at(self) -> datetime:
        """When it was made, with its zone."""
        return datetime.fromisoformat(self.made_at)

    def text(self) -> str:
        """As it stands in the file, before the hash."""
        return json.dumps({"shopac": "backup", **asdict(self)}) + "\n"


def unsealed(tail: Tail) -> bytes:
    """The comment with room for the hash, which is known when all else is written."""
    return tail.text().encode() + b"0" * HEX


def seal(file: BinaryIO, watch: Watch) -> None:
    """Write the hash of all that stands before it into the last bytes; durable when it returns."""
    size = file.seek(0, os.SEEK_END)
    digest = hash_of(file, size - HEX, watch)
    file.seek(size - HEX)
    file.write(digest.encode())
    file.flush()
    os.fsync(file.fileno())


def hash_of(file: BinaryIO, length: int, watch: Watch) -> str:
    """SHA-256 of the first bytes of a file; `watch` is told how many more are read."""
    file.seek(0)
    found = hashlib.sha256()
    left = length
    while left and (block := file.read(min(BLOCK, left))):
        found.update(block)
        left -= len(block)
        watch(len(block))
    return found.hexdigest()


def read(path: Path) -> Tail:
    """The short words of a backup; nothing else of it is looked at.

    Raises:
        BackupTrouble: it cannot be opened, or has no end.

    """
    try:
        with path.open("rb") as file:
            size = file.seek(0, os.SEEK_END)
            file.seek(max(0, size - COMMENT_MOST))
            end = file.read()
    except OSError as wrong:
        raise BackupTrouble(f"{path} cannot be read: {wrong.strerror}.") from None
    _, found, text = end.rpartition(b'{"shopac": "backup"')
    line, _, digest = (found + text).partition(b"\n")
    if not found or len(digest) != HEX:
        raise BackupTrouble(
            f"{path} is no whole backup: its end is not there. It was cut off while it was"
            " written or copied, or it is another file."
        )
    try:
        told = json.loads(line)
        told.pop("shopac")
        tail = Tail(**told)
        tail.at  # noqa: B018  it has to be one
    except (ValueError, TypeError):
        raise BackupTrouble(f"{path} says nothing of itself that can be read.") from None
    if tail.format > FORMAT:
        raise BackupTrouble(
            f"{path} was made by a newer release ({tail.version}) in a form that this one does"
            " not know. Restore it with that release."
        )
    return tail


def check(path: Path, watch: Watch) -> Tail:
    """Read the whole file and hold it to its own hash.

    Raises:
        BackupTrouble: it was cut off, or is not as it was written.

    """
    tail = read(path)
    try:
        with path.open("rb") as file:
            size = file.seek(0, os.SEEK_END)
            digest = hash_of(file, size - HEX, watch)
            kept = file.read(HEX).decode(errors="replace")
    except OSError as wrong:
        raise BackupTrouble(f"{path} cannot be read to its end: {wrong.strerror}.") from None
    if digest != kept:
        raise BackupTrouble(
            f"{path} is damaged: its bytes are not those that were written. Nothing of it is"
            " used; take another backup."
        )
    return tail
