"""What is known of the last backup and the last drill here, and how far one under way is.

Files of a folder of the data folder, so that they can be read while the disk with the backups is
not there, and by a board that may not ask the database for it.
"""

import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path
from time import monotonic, sleep
from typing import IO

from django.utils import timezone

from jobs.kept_bytes import write_whole
from shopac import lock
from shopac.backups.trouble import BackupTrouble

FOLDER = "backing_up"
TOO_OLD = timedelta(days=3)
TOLD_EACH = 0.5  # seconds between two words on how far it is
STARTING = timedelta(seconds=15)
LOOKED_AT_S = 1.0


@dataclass(frozen=True)
class Known:
    """Times are ISO texts with a zone, empty: never. `drill` is what the last drill said.

    `damaged`: so many photos and records had other bytes than their name says when the last backup
    was made.
    """

    since: str = ""
    made_at: str = ""
    made: str = ""
    damaged: int = 0
    failed_at: str = ""
    failed: str = ""
    drilled_at: str = ""
    drilled: str = ""
    drill_ok: bool = False
    drill: tuple[str, ...] = ()


@dataclass(frozen=True)
class Now:
    """What is under way: in words, bytes behind and altogether; 0 of 0 where it is not known."""

    what: str
    done: int
    of: int
    at: str

    @property
    def percent(self) -> int | None:
        """How far it is, from 0 to 100."""
        return self.done * 100 // self.of if self.of else None


def read(data: Path) -> Known:
    """What is known; nothing where no start has begun to watch yet."""
    try:
        told = json.loads((data / FOLDER / "known.json").read_text())
        return Known(**{**told, "drill": tuple(told["drill"])})
    except (OSError, ValueError, TypeError, KeyError):
        return Known()


def tell(data: Path, **told: object) -> None:
    """Write what is newly known. Only who holds the lock may, or a start."""
    (data / FOLDER).mkdir(mode=0o700, exist_ok=True)
    known = replace(read(data), **told)  # type: ignore[arg-type]
    write_whole(data / FOLDER / "known.json", json.dumps(asdict(known)).encode())


def begin_watch(data: Path) -> None:
    """From now on the lack of a backup counts."""
    if not read(data).since:
        tell(data, since=timezone.now().isoformat())


@contextmanager
def alone(data: Path) -> Iterator[None]:
    """One backup or drill at a time.

    Raises:
        BackupTrouble: another is under way.

    """
    (data / FOLDER).mkdir(mode=0o700, exist_ok=True)
    held = taken_in_time(data / FOLDER / "lock")
    if held is None:
        raise BackupTrouble("Another backup or drill is under way. Wait for its end.")
    with held:
        try:
            yield
        finally:
            (data / FOLDER / "now.json").unlink(missing_ok=True)


def taken_in_time(path: Path) -> IO[str] | None:
    """The lock, waited for a moment: a page that looks whether one is under way has it briefly."""
    end = monotonic() + LOOKED_AT_S
    while (held := lock.take(path, f"process {os.getpid()}")) is None and monotonic() < end:
        sleep(0.05)
    return held


class Told:
    """Tells how far it is: a file for the page, and what else is asked to."""

    def __init__(self, data: Path, *, keeps: bool = True) -> None:
        self.data = data
        self.keeps = keeps
        self.last = 0.0
        self.words = ""

    def __call__(self, words: str, done: int, of: int) -> None:
        """Called often; writes now and then, and where something else begins."""
        if words == self.words and monotonic() - self.last < TOLD_EACH:
            return
        self.last, self.words = monotonic(), words
        if self.keeps:
            tell_now(self.data, words, done, of)
        self.said(words, done, of)

    def said(self, words: str, done: int, of: int) -> None:
        """For a command that prints it, too."""


def tell_now(data: Path, words: str, done: int = 0, of: int = 0) -> None:
    """Write how far it is."""
    (data / FOLDER).mkdir(mode=0o700, exist_ok=True)
    now = Now(words, done, of, timezone.now().isoformat())
    draft = data / FOLDER / f"now.{os.getpid()}"
    draft.write_text(json.dumps(asdict(now)))
    draft.replace(data / FOLDER / "now.json")


def under_way(data: Path) -> Now | None:
    """What is under way; None: nothing, or what was is cut off."""
    try:
        now = Now(**json.loads((data / FOLDER / "now.json").read_text()))
        begun = timezone.now() - datetime.fromisoformat(now.at) < STARTING
    except (OSError, ValueError, TypeError):
        return None
    held = lock.take(data / FOLDER / "lock", "a look whether one is under way")
    if held is None:
        return now
    held.close()
    return now if begun else None


def warnings(data: Path, now: datetime) -> list[str]:
    """What the owner should know without asking: no backup for three days, a drill that failed."""
    known = read(data)
    last = known.made_at or known.since
    found = []
    if last and now - datetime.fromisoformat(last) > TOO_OLD:
        days = (now - datetime.fromisoformat(last)).days
        found.append(f"No backup for {days} days.")
    if known.drilled_at and not known.drill_ok:
        found.append("The last drill found something wrong with a backup.")
    if known.damaged:
        found.append(f"Damaged on the disk: {known.damaged} photos or records.")
    return found
