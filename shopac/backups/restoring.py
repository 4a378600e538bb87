"""Bring a shop back from a backup into a folder that nobody uses.

Everything is unpacked, checked and opened beside its place first. Only then what is in the folder
is moved aside and the new moved in, by renames. A file says that this is under way: a program that
is cut off between the two renames leaves a folder that no start takes for an empty one, and the
next restore goes on from there. Nothing is deleted but what a restore itself unpacked.
"""

import json
import os
import secrets
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from django.conf import settings
from django.core.management import call_command
from django.db import connection

from jobs.actions.epoch import begin
from jobs.kept_bytes import sync_folder, write_whole
from shopac import lock, stamp
from shopac.backups import contents, database, known, sealed
from shopac.backups.half import ASIDE, UNDER_WAY
from shopac.backups.opened import Opened, lacking, open_folder
from shopac.backups.tail import Tail
from shopac.backups.trouble import BackupTrouble
from shopac.backups.unpacking import Manifest, unpack
from shopac.backups.writing import Watch, beside, many

UNPACKED = ".restored-"
EPOCH = (
    "A new epoch has begun: tablets bring back by themselves what they sent in the last fortnight."
    " What was done on this server itself after the backup is not in it."
)
FORGOTTEN = (
    "Customers who were taken out on request after the backup are in it again: take them out anew."
)
LET_IN_AGAIN = (
    "Whoever was let go, whose sign-ins were ended and which tablet was revoked after the backup is"
    " let in again, with the PINs and passwords of then: see to it anew on the pages People and"
    " Tablets before tablets are let in."
)
NO_AUTHORITY = (
    "The key of the certificate authority was not restored. Certificates that this machine has stay"
    " as they are; one that has none makes a new authority, with which every tablet is paired anew."
)


@dataclass(frozen=True)
class Restored:
    """What was restored: from which backup, what was found in it, and where the old things lie."""

    manifest: Manifest
    opened: Opened
    aside: Path | None
    authority: bool


def restore(backup: Path, into: Path, now: datetime, watch: Watch, passphrase: str) -> Restored:
    """Restore a backup into a folder.

    Args:
        backup: the file.
        into: a data folder that no program uses; made when it is not there.
        now: names the folder of what is moved aside.
        watch: is told how far it is.
        passphrase: opens the key of the certificate authority; empty: it stays out.

    Raises:
        BackupTrouble: the folder is in use, or the backup cannot be used. The folder is as it was.

    """
    with alone(into) as folder, known.alone(folder), unpacked_beside(folder) as fresh:
        manifest = unpack(backup, fresh, watch)
        refuse_without_photos(manifest, folder)
        authority = sealed.open_into(fresh, passphrase)
        watch("Opening the restored shop", 0, 0)
        why = f"Restored from a backup of {manifest.tail.made_at}."
        opened = opened_in(fresh, manifest, why)
        refuse_wrong(opened)
        if manifest.tail.engine == "postgresql":
            into_postgresql(fresh / contents.DATABASE["postgresql"], why)
        brings = [one for one in manifest.brings if (fresh / one).exists()]
        aside = exchange(folder, fresh, brings, now)
        stamp.write(folder)
    return Restored(manifest, opened, aside, authority)


@contextmanager
def alone(into: Path) -> Iterator[Path]:
    """Hold the folder's lock, so that no program starts on it meanwhile.

    Raises:
        BackupTrouble: one runs on it now.

    """
    try:
        into.mkdir(mode=0o700, parents=True, exist_ok=True)
        folder = into.resolve()
        held = lock.take(folder / "lock", f"a restore (process {os.getpid()})")
    except OSError as wrong:
        raise BackupTrouble(f"{into} cannot be written to: {wrong.strerror}.") from None
    if held is None:
        raise BackupTrouble(
            f"shopac is running on {folder}: {lock.held_by(folder / 'lock')}. Stop it first:"
            " nothing is restored into a folder in use."
        )
    with held:
        yield folder


@contextmanager
def unpacked_beside(folder: Path) -> Iterator[Path]:
    """A folder on the same disk to unpack into; what an interrupted restore unpacked goes first."""
    for left in folder.glob(f"{UNPACKED}*"):
        shutil.rmtree(left, ignore_errors=True)
    fresh = folder / f"{UNPACKED}{secrets.token_hex(4)}"
    try:
        fresh.mkdir(mode=0o700)
        yield fresh
    except OSError as wrong:
        raise BackupTrouble(f"The restore into {folder} could not go on ({wrong}).") from None
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def refuse_without_photos(manifest: Manifest, folder: Path) -> None:
    """A backup of the database alone is good only where its photos and records lie.

    Raises:
        BackupTrouble: it is one, and nothing lies there.

    """
    there = any((folder / one).exists() for one in contents.FOLDERS)
    if not manifest.tail.whole and manifest.tail.counts.get("photos") and not there:
        raise BackupTrouble(
            f"This backup was made before an update and holds the database only, and {folder} has"
            " none of the photos that it names. Restore it where they are, or restore a whole one."
        )


def opened_in(fresh: Path, manifest: Manifest, why: str) -> Opened:
    """Open what was unpacked with this release and begin its epoch; a dump cannot be opened."""
    if manifest.tail.engine == "postgresql":
        listed = database.run(
            [
                database.program_of("pg_restore"),
                "--list",
                str(fresh / contents.DATABASE["postgresql"]),
            ]
        )
        wrong = [] if "TABLE public jobs_entry " in listed else ["The dump has no logbook."]
        return Opened(counts=manifest.tail.counts, wrong=wrong)
    found = open_folder(fresh, why)
    for left in beside(fresh / contents.DATABASE["sqlite"]):
        left.unlink(missing_ok=True)
    return found


def refuse_wrong(opened: Opened) -> None:
    """Do not put in place what this release cannot open.

    Raises:
        BackupTrouble: something is wrong with it.

    """
    if opened.wrong:
        raise BackupTrouble(f"{' '.join(opened.wrong)} Nothing was restored; take another backup.")


def exchange(folder: Path, fresh: Path, brings: list[str], now: datetime) -> Path | None:
    """Move aside what has the name of something new, and the new in; where the old is."""
    base = contents.DATABASE["sqlite"]
    leaving = [*brings, *(one.name for one in beside(folder / base) if base in brings)]
    leaving = [name for name in leaving if (folder / name).exists()]
    aside = folder / f"{ASIDE}{now:%Y-%m-%d-%H%M%S}-{secrets.token_hex(2)}"
    write_whole(folder / UNDER_WAY, json.dumps({"aside": aside.name}).encode())
    sync_folder(folder)
    if leaving:
        aside.mkdir(mode=0o700)
        for name in leaving:
            (folder / name).rename(aside / name)
        sync_folder(aside)
    for name in brings:
        (fresh / name).rename(folder / name)
    sync_folder(folder)
    (folder / UNDER_WAY).unlink()
    sync_folder(folder)
    return aside if leaving else None


def into_postgresql(dump: Path, why: str) -> None:
    """Read a dump into the empty database of SHOPAC_DATABASE, bring it up to date, begin its epoch.

    The dump is removed then. All of it is read in or nothing.

    Raises:
        BackupTrouble: pg_restore did not finish: the database is as it was.

    """
    command = [database.program_of("pg_restore"), "--no-owner", "--no-privileges"]
    command += ["--exit-on-error", "--single-transaction", "--no-password"]
    command += [f"--dbname={connection.settings_dict['NAME']}"]
    database.run([*command, str(dump)])
    dump.unlink()
    call_command("migrate", interactive=False, verbosity=0)
    begin(why)


def refuse_other_database(tail: Tail, into: Path) -> None:
    """See that SHOPAC_DATABASE names a database that the backup can be restored into.

    Raises:
        BackupTrouble: it does not.

    """
    if tail.engine != "postgresql":
        if connection.vendor != "sqlite" and into.resolve() == Path(settings.DATA).resolve():
            raise BackupTrouble(
                "This backup is of a SQLite database and SHOPAC_DATABASE names another. Leave it"
                " empty, here and at the next start."
            )
        return
    if connection.vendor != "postgresql":
        raise BackupTrouble(
            "This backup is of a PostgreSQL database. Name an empty one with SHOPAC_DATABASE."
        )
    if connection.introspection.table_names():
        raise BackupTrouble(
            f"The database {connection.settings_dict['NAME']} is in use. A backup is restored into"
            " an empty one only: make one, and name it with SHOPAC_DATABASE."
        )


def data_folder() -> Path:
    """Where a restore goes that names no folder: this program's own data.

    Raises:
        BackupTrouble: the database lies elsewhere.

    """
    data = Path(settings.DATA)
    usual = data / contents.DATABASE["sqlite"]
    if connection.vendor == "sqlite" and Path(connection.settings_dict["NAME"]) != usual:
        raise BackupTrouble(
            f"SHOPAC_DATABASE names a database outside {data}, which this command would not"
            " replace. Restore with --into another folder and put the database in its place."
        )
    return data


def words(done: Restored) -> list[str]:
    """What a restore did, in sentences."""
    told, at = done.opened.counts, done.manifest.tail.at.astimezone()
    counted = ", ".join(many(told.get(one, 0), one) for one in ("jobs", "entries"))
    said = [f"Restored as of {at:%Y-%m-%d %H:%M}: {counted}."]
    if done.manifest.tail.whole:
        said += lacking(done.opened)
    if done.aside:
        said.append(f"What was there before lies in {done.aside}.")
    return [*said, EPOCH, FORGOTTEN, LET_IN_AGAIN, *([] if done.authority else [NO_AUTHORITY])]
