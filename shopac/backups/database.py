"""A copy of the database while it is in use: SQLite's own online copy, or pg_dump."""

import os
import shutil
import sqlite3
import subprocess
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from pathlib import Path

from django.db import connection, transaction

from shopac.backups.contents import COUNTED, SESSIONS
from shopac.backups.trouble import BackupTrouble

Counts = dict[str, int]


def copy(into: Path) -> Counts:
    """Write a whole copy of the shop's database as it is at one moment; what is counted in it.

    Raises:
        BackupTrouble: it is damaged, or pg_dump is not there or did not finish.
        OSError: it cannot be written.
        sqlite3.Error: the same, or the database cannot be read.

    """
    if connection.vendor == "sqlite":
        return copy_sqlite(Path(connection.settings_dict["NAME"]), into)
    return dump(into)


def copy_sqlite(database: Path, into: Path) -> Counts:
    """Copy a SQLite database that others write to. Who is signed in is not in the copy."""
    if not database.exists():
        raise BackupTrouble(f"There is no database {database} to copy.")
    with closing(sqlite3.connect(database)) as source, closing(sqlite3.connect(into)) as target:
        source.backup(target)
        target.execute("PRAGMA journal_mode=DELETE")
        target.execute("PRAGMA secure_delete=ON")
        with target:
            if SESSIONS in tables(target):
                target.execute(f"DELETE FROM {SESSIONS}")  # noqa: S608  our own name
        found = str(target.execute("PRAGMA quick_check(1)").fetchone()[0])
        if found != "ok":
            raise BackupTrouble(
                f"The shop's database {database} is damaged ({found.splitlines()[-1]}), so no"
                " backup was made of it: it would take the place of a sound one. Stop the program"
                " and restore the newest backup."
            )
        return counts(target)


def tables(database: sqlite3.Connection) -> set[str]:
    """The names of its tables."""
    rows = database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
    return {str(row[0]) for row in rows}


def counts(database: sqlite3.Connection) -> Counts:
    """How many rows of what is counted; a table that an older release had not is left out."""
    there = tables(database)
    return {
        name: int(database.execute(f"SELECT count(*) FROM {table}").fetchone()[0])  # noqa: S608
        for name, table in COUNTED.items()
        if table in there
    }


def dump(into: Path) -> Counts:
    """Dump a PostgreSQL database in pg_dump's own compressed form, counted at the same moment."""
    program = program_of("pg_dump")
    command = [program, "--format=custom", "--no-password", f"--file={into}"]
    with counted_snapshot() as (snapshot, found):
        run([*command, f"--exclude-table-data={SESSIONS}", f"--snapshot={snapshot}"])
    with into.open("rb") as file:
        os.fsync(file.fileno())
    return found


@contextmanager
def counted_snapshot() -> Iterator[tuple[str, Counts]]:
    """The name of a moment of the PostgreSQL database, which pg_dump can share, and its counts."""
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        cursor.execute("SELECT pg_export_snapshot()")
        snapshot = str(cursor.fetchone()[0])
        there = set(connection.introspection.table_names(cursor))
        found: Counts = {}
        for name, table in COUNTED.items():
            if table in there:
                cursor.execute(f"SELECT count(*) FROM {table}")  # noqa: S608  our own name
                found[name] = int(cursor.fetchone()[0])
        yield snapshot, found


def program_of(name: str) -> str:
    """Where one of PostgreSQL's client programs is.

    Raises:
        BackupTrouble: it is not on this machine.

    """
    found = shutil.which(name)
    if found is None:
        raise BackupTrouble(
            f"{name} is not on this machine: install PostgreSQL's client programs, of the"
            " server's version or newer."
        )
    return found


def run(command: list[str], named: str = "") -> str:
    """Run a client program against the shop's database, or the one named; returns what it says.

    Raises:
        BackupTrouble: it did not finish; with its own reason.

    """
    done = subprocess.run(
        command,
        env={**os.environ, **reached(connection.settings_dict, named)},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        reason = (done.stderr.strip().splitlines() or ["no reason given"])[-1]
        raise BackupTrouble(f"{Path(command[0]).name} did not finish ({reason}).")
    return done.stdout


def reached(settings: Mapping[str, object], named: str) -> dict[str, str]:
    """The environment by which PostgreSQL's programs reach the database of Django's settings."""
    told = {
        "PGHOST": settings["HOST"],
        "PGPORT": settings["PORT"],
        "PGUSER": settings["USER"],
        "PGPASSWORD": settings["PASSWORD"],
        "PGDATABASE": named or settings["NAME"],
    }
    return {name: str(value) for name, value in told.items() if value}
