"""Make a data folder ready to be served: check, back up, migrate, collect files, first content.

Run as `python -m shopac.prepare ADDRESS` in the program's environment by the start command. What
is worth watching goes to stderr; stdout carries what the person is told once the pages are up.
"""

import argparse
import hashlib
import sqlite3
import sys
from contextlib import closing
from pathlib import Path
from typing import Any

import django
from django.apps import apps
from django.conf import settings
from django.contrib.staticfiles.finders import get_finders
from django.core.exceptions import ImproperlyConfigured
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.utils import timezone

from shopac import backup, stamp
from shopac.checks import run_checks
from shopac.one_time import BEGIN, NEW_PASSWORD, forget_word, make_word, word_file
from shopac.trouble import CannotStart
from shopac.version import VERSION


def main() -> int:
    """Prepare the folder named by SHOPAC_DATA; returns the exit code."""
    parser = argparse.ArgumentParser(prog="shopac.prepare")
    parser.add_argument("address", help="where the pages will be, for the link that is printed")
    parser.add_argument("--empty", action="store_true")
    parser.add_argument("--new-password", action="store_true")
    parser.add_argument("--without-backup", action="store_true")
    parser.add_argument("--lan", metavar="NAME", default="", help="served on the network as this")
    options = parser.parse_args()
    try:
        django.setup()
        folder: Path = settings.DATA
        check_settings()
        if connection.vendor == "sqlite":
            check_sqlite(Path(connection.settings_dict["NAME"]), used=bool(stamp.read(folder)))
        migrate(folder, without_backup=options.without_backup)
        collect_static(folder)
        fill_first_time(options.address, empty=options.empty or bool(options.lan))
        call_command("let_records_go")
        offer_new_password(options.address, asked=options.new_password)
        if options.lan:
            call_command("certify", options.lan)
        stamp.write(folder)
    except (CannotStart, CommandError, ImproperlyConfigured) as wrong:
        _say(str(wrong))
        return 1
    except DatabaseError as wrong:
        _say(f"The database cannot be used: {' '.join(str(wrong).split())}")
        return 1
    except OSError as wrong:
        _say(f"The data folder cannot be written: {wrong}")
        return 1
    return 0


def _say(words: str) -> None:
    print(words, file=sys.stderr, flush=True)


def check_settings() -> None:
    """Hold the settings to what keeps a shop's promises (shopac/checks.py).

    Raises:
        CannotStart: one of them breaks a promise.

    """
    for found in run_checks():
        if found.is_serious():
            raise CannotStart(f"{found.msg} {found.hint}")
        _say(f"{found.msg} {found.hint}")


def check_sqlite(path: Path, *, used: bool) -> None:
    """Look whether the database file is whole before anything opens it for writing.

    Args:
        path: the database file.
        used: the folder has been prepared before, so the file must be there.

    Raises:
        CannotStart: the file is missing, empty or damaged. It is left as it is.

    """
    cure = f"Put a copy from {path.parent / 'backups'} or your own in its place."
    if not path.exists() or path.stat().st_size == 0:
        if used:
            raise CannotStart(
                f"The shop's database {path} is {'empty' if path.exists() else 'not there'}, "
                f"although this folder has been in use. {cure}"
            )
        return
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True)) as file:
            found = str(file.execute("PRAGMA quick_check(1)").fetchone()[0])
    except sqlite3.DatabaseError as wrong:
        found = str(wrong)
    if found != "ok":
        raise CannotStart(
            f"The shop's database {path} is damaged ({found.splitlines()[-1]}) "
            f"and was left as it is. {cure}"
        )


def migrate(folder: Path, *, without_backup: bool) -> None:
    """Bring the tables up to this release, after a copy when there are any yet.

    Raises:
        CannotStart: the copy could not be made.

    """
    executor = MigrationExecutor(connection)
    waiting = executor.migration_plan(executor.loader.graph.leaf_nodes())
    if not waiting:
        return
    if executor.loader.applied_migrations:
        now = timezone.localtime()
        if connection.vendor == "sqlite":
            copy = backup.sqlite(Path(connection.settings_dict["NAME"]), folder / "backups", now)
            _say(f"Copied the database to {copy} before changing it.")
        elif without_backup:
            _say("No copy of the database is made, as asked.")
        else:
            copy = backup.postgresql(connection.settings_dict, folder / "backups", now)
            _say(f"Copied the database to {copy} before changing it.")
    _say(f"Preparing the database ({len(waiting)} steps) ...")
    call_command("migrate", interactive=False, verbosity=0)


def collect_static(folder: Path) -> None:
    """Put the pages' files where they are served from, when one of them has changed."""
    seen = folder / "static_seen"
    now = _static_fingerprint()
    if seen.exists() and seen.read_text() == now:
        return
    _say("Collecting the pages' files ...")
    seen.unlink(missing_ok=True)
    call_command("collectstatic", interactive=False, clear=True, verbosity=0)
    seen.write_text(now)


def _static_fingerprint() -> str:
    """A hash over name, size and time of every file the pages may ask for."""
    found = hashlib.sha256(f"{VERSION} {settings.STORAGES['staticfiles']}".encode())
    for finder in get_finders():
        for name, storage in finder.list([]):
            state = Path(storage.path(name)).stat()
            found.update(f"{name}\0{state.st_size}\0{state.st_mtime_ns}\n".encode())
    return found.hexdigest()


def fill_first_time(address: str, *, empty: bool) -> None:
    """Give a data folder without a shop its first content: the demo, or a link to set one up.

    The link holds a one-time word that stays in the folder until a shop was set up with it, so a
    folder begun empty is never filled with the demo afterwards.
    """
    shop: Any = apps.get_model("jobs", "Shop")
    if shop.objects.exists():
        if empty:
            _say("There is a shop in this data folder already; --empty changes nothing.")
        if shop.objects.filter(demo=True).exists():
            call_command("demo")
        return
    if empty or word_file(BEGIN).exists():
        print(f"Set up the shop here, once: {address}begin/?token={make_word(BEGIN)}")
        return
    _say("Loading the demo ...")
    call_command("demo")


def offer_new_password(address: str, *, asked: bool) -> None:
    """Print the link by which an owner gets a new password. That of an earlier start has ended."""
    forget_word(NEW_PASSWORD)
    if not asked:
        return
    owners: Any = apps.get_model("jobs", "Person").objects.filter(role="owner", is_active=True)
    if not owners.exists():
        _say("There is no owner yet; --new-password changes nothing.")
        return
    word = make_word(NEW_PASSWORD)
    print(f"Give an owner a new password here, once: {address}new_password/?token={word}")


if __name__ == "__main__":
    sys.exit(main())
