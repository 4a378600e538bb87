"""A copy of the database beside the data, made before the program changes its tables."""

import os
import shutil
import sqlite3
import subprocess
from collections.abc import Mapping
from contextlib import closing
from datetime import datetime
from pathlib import Path

from shopac.trouble import CannotStart
from shopac.version import VERSION


def sqlite(database: Path, backups: Path, now: datetime) -> Path:
    """Copy a SQLite database that may be in use, whole or not at all.

    Returns:
        The file of the copy, named by the time and the release it was made for.

    Raises:
        CannotStart: the copy could not be written, on a full disk for example.

    """
    copy = _target(backups, now, "sqlite3")
    draft = copy.with_suffix(".part")
    try:
        with closing(sqlite3.connect(database)) as source, closing(sqlite3.connect(draft)) as into:
            source.backup(into)
        _keep(draft, copy)
    except (OSError, sqlite3.Error) as wrong:
        draft.unlink(missing_ok=True)
        raise CannotStart(
            f"The database waits to be changed for this release and could not be copied to "
            f"{backups} first ({wrong}): nothing was changed."
        ) from None
    return copy


def postgresql(settings: Mapping[str, object], backups: Path, now: datetime) -> Path:
    """Dump a PostgreSQL database with pg_dump, in its own compressed format.

    Args:
        settings: Django's entry for the database.
        backups: the folder to write into.
        now: the time in the file's name.

    Raises:
        CannotStart: pg_dump is not there, or did not finish.

    """
    program = shutil.which("pg_dump")
    if program is None:
        raise CannotStart(
            "The database waits to be changed for this release and pg_dump, which copies it "
            "first, is not on this machine: install PostgreSQL's client programs, or copy the "
            "database yourself and start once with --without-backup."
        )
    copy = _target(backups, now, "pgdump")
    draft = copy.with_suffix(".part")
    told = {
        "PGHOST": settings["HOST"],
        "PGPORT": settings["PORT"],
        "PGUSER": settings["USER"],
        "PGPASSWORD": settings["PASSWORD"],
        "PGDATABASE": settings["NAME"],
    }
    environment = {**os.environ, **{name: str(value) for name, value in told.items() if value}}
    command = [program, "--format=custom", "--no-password", f"--file={draft}"]
    done = subprocess.run(command, env=environment, stderr=subprocess.PIPE, text=True, check=False)
    if done.returncode:
        draft.unlink(missing_ok=True)
        reason = (done.stderr.strip().splitlines() or ["no reason given"])[-1]
        raise CannotStart(
            f"The database waits to be changed for this release and pg_dump could not copy it "
            f"first ({reason}): nothing was changed. Copy it yourself and start once with "
            "--without-backup."
        )
    _keep(draft, copy)
    return copy


def _target(backups: Path, now: datetime, ending: str) -> Path:
    backups.mkdir(mode=0o700, exist_ok=True)
    return backups / f"{now:%Y-%m-%d-%H%M%S}-before-{VERSION}.{ending}"


def _keep(draft: Path, copy: Path) -> None:
    """Give a finished copy its name once the disk has it."""
    with draft.open("rb") as file:
        os.fsync(file.fileno())
    draft.replace(copy)
