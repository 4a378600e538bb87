"""Make one backup file: the database first, then what it may name, whole or not at all.

Photos are put on disk before the entry that names them, so files copied after the database hold
all that it names. The file is written under a temporary name and gets its own when the disk has
every byte of it; until then the backups before it are all there are, and they are not touched.
"""

import errno
import hashlib
import json
import os
import shutil
import sqlite3
import zipfile
from collections.abc import Callable, Iterable
from dataclasses import asdict
from datetime import datetime
from pathlib import Path

from django.conf import settings
from django.db import connection

from jobs.kept_bytes import sync_folder
from shopac.backups import contents, database, tail
from shopac.backups.tail import Tail
from shopac.backups.trouble import BackupTrouble
from shopac.version import VERSION

PART = ".part"
ROOM_LEFT = 64 * 1024 * 1024  # a disk filled to its last byte takes no entry any more
NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
# What is being done, how many bytes of how many are behind.
Watch = Callable[[str, int, int], None]
Files = list[tuple[str, Path]]


def make(target: Path, why: str, now: datetime, watch: Watch, *, whole: bool = True) -> Tail:
    """Write a backup of the shop's data to `target`, which must not be there yet.

    Args:
        target: the file; its folder is made when it is not there.
        why: DAILY, ASKED or UPDATE of shopac.backups.tail.
        now: when it is made, with its zone.
        watch: is told how far it is.
        whole: with photos and records; without, the database and the keys only.

    Raises:
        BackupTrouble: it could not be made; nothing is left of it.

    """
    draft, copied = drafts(target)
    try:
        target.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        if target.exists():
            raise BackupTrouble(f"{target} is there already and is not written over.")
        refuse_without_room(target.parent, whole=whole)
        watch("Copying the database", 0, 0)
        counts = database.copy(copied)
        begun = Tail(now.isoformat(), VERSION, why, connection.vendor, whole, counts)
        made = fill(draft, copied, begun, watch)
        draft.replace(target)
        sync_folder(target.parent)
        return made
    except (OSError, sqlite3.Error) as wrong:
        raise BackupTrouble(said_of(target, wrong)) from None
    finally:
        for left in (draft, copied, *beside(copied)):
            left.unlink(missing_ok=True)


def drafts(target: Path) -> tuple[Path, Path]:
    """The names under which a backup, and the database's copy, lie while they are written."""
    return target.with_name(target.name + PART), target.with_name(f"{target.name}.database{PART}")


def beside(copied: Path) -> list[Path]:
    """What SQLite may leave beside a database file."""
    return [copied.with_name(copied.name + ending) for ending in ("-journal", "-wal", "-shm")]


def refuse_without_room(folder: Path, *, whole: bool) -> None:
    """Find out before writing that the disk cannot take it.

    Raises:
        BackupTrouble: it cannot.

    """
    needed, free = room_needed(whole=whole), shutil.disk_usage(folder).free
    if free < needed:
        raise BackupTrouble(
            f"The disk of {folder} has {in_words(free)} left and a backup needs"
            f" {in_words(needed)}. None was made; the backups before are as they were. Make room,"
            " or name a folder on another disk with SHOPAC_BACKUPS."
        )


def room_needed(*, whole: bool) -> int:
    """How many bytes of disk a backup takes while it is made, at most."""
    data = Path(settings.DATA)
    named = [path for folder in folders(whole=whole) for _, path in contents.files_of(data, folder)]
    return sum(size_of(path) for path in named) + 2 * size_of(base()) + ROOM_LEFT


def base() -> Path:
    """The database file; that of a PostgreSQL is not there, and its size not known."""
    return Path(str(connection.settings_dict["NAME"]))


def size_of(path: Path) -> int:
    """Bytes of a file, none where it has gone."""
    try:
        return path.stat().st_size
    except OSError:
        return 0


def folders(*, whole: bool) -> tuple[str, ...]:
    """Whose files go in."""
    return contents.FOLDERS if whole else ()


def fill(draft: Path, copied: Path, begun: Tail, watch: Watch) -> Tail:
    """Write everything into the draft and seal it; what it says of itself."""
    data = Path(settings.DATA)
    pieces: Files = [(contents.DATABASE[begun.engine], copied), *keys(data)]
    for folder in folders(whole=begun.whole):
        pieces += contents.files_of(data, folder)
    total = 2 * sum(size_of(path) for _, path in pieces)  # written once, read again for the seal
    behind = 0

    def on(more: int) -> None:
        nonlocal behind
        behind += more
        watch("Writing the file", min(behind, total), total)

    handle = os.open(draft, os.O_RDWR | os.O_CREAT | os.O_TRUNC, 0o600)
    with os.fdopen(handle, "w+b") as file:
        with zipfile.ZipFile(file, "w", zipfile.ZIP_STORED) as archive:
            archive.writestr("README.txt", contents.README)
            listed, damaged = add_all(archive, pieces, on)
            made = Tail(**{**asdict(begun), "damaged": len(damaged)})
            manifest = {**asdict(made), "files": listed, "damaged": damaged}
            archive.writestr("manifest.json", json.dumps(manifest, indent=0))
            archive.comment = tail.unsealed(made)
        tail.seal(file, on)
    return made


def keys(data: Path) -> Files:
    """The signing key, name and port on the network, and of the certificates what may go in."""
    names = (contents.SECRET_KEY, contents.CHOSEN, contents.AUTHORITY, contents.SEALED)
    return [(name, data / name) for name in names if (data / name).exists()]


def add_all(
    archive: zipfile.ZipFile, pieces: Iterable[tuple[str, Path]], on: Callable[[int], None]
) -> tuple[dict[str, list[int | str]], list[str]]:
    """Add the files; {name: [bytes, SHA-256]}, and the names of those that are not what they were.

    A file that went meanwhile was taken out on a customer's request.
    """
    listed: dict[str, list[int | str]] = {}
    damaged = []
    for name, path in pieces:
        try:
            source = path.open("rb")
        except FileNotFoundError:
            continue
        with source:
            entry = zipfile.ZipInfo.from_file(path, name, strict_timestamps=False)
            squeezed = name in contents.DATABASE.values()
            entry.compress_type = zipfile.ZIP_DEFLATED if squeezed else zipfile.ZIP_STORED
            found = hashlib.sha256()
            size = 0
            with archive.open(entry, "w", force_zip64=True) as into:
                while block := source.read(tail.BLOCK):
                    found.update(block)
                    size += into.write(block)
                    on(len(block))
        listed[name] = [size, found.hexdigest()]
        named_by_hash = name.partition("/")[0] in contents.FOLDERS
        if named_by_hash and path.stem != found.hexdigest():
            damaged.append(name)
    return listed, damaged


def said_of(target: Path, wrong: Exception) -> str:
    """What went wrong, in sentences for the owner."""
    full = isinstance(wrong, OSError) and wrong.errno in NO_ROOM
    if full or "full" in str(wrong):
        return (
            f"The disk of {target.parent} is full. No backup was made; the backups before are as"
            " they were. Make room, or name a folder on another disk with SHOPAC_BACKUPS."
        )
    return f"No backup could be written to {target} ({wrong}); the backups before are as they were."


def in_words(size: int) -> str:
    """Bytes as people read them: 1.4 GB, 312 MB, under 1 MB."""
    if size >= 1000**3:
        return f"{size / 1000**3:.1f} GB"
    return f"{round(size / 1000**2)} MB" if size >= 1000**2 else "under 1 MB"


def many(count: int, what: str) -> str:
    """A count of something named in the plural: 1 job, 2 jobs, 1 entry."""
    one = f"{what[:-3]}y" if what.endswith("ies") else what.removesuffix("s")
    return f"{count} {one if count == 1 else what}"
