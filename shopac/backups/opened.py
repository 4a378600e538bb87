"""Open a restored data folder with this release and look whether a shop is in it.

Settings are read once, so another folder takes another process: `open_folder` starts one, and in it
`look` runs. What is wrong with the folder is told in words, and is no error of this program.
"""

import json
import os
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

from django.apps import apps
from django.conf import settings
from django.core.management import call_command
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor

from jobs.actions.epoch import begin
from jobs.forget import PHOTO_GONE
from jobs.kept_bytes import place
from jobs.models import Photo, Record
from jobs.paper.shelf import NotAsFrozen, data_of, file_of
from shopac.backups.contents import COUNTED
from shopac.backups.trouble import BackupTrouble

OPEN_SECONDS = 3600


@dataclass
class Opened:
    """What was found.

    `wrong` are sentences on a database that cannot be used, `doubts` those on a record that is not
    as it was frozen; `migrated` how many steps brought the tables up to this release; `named` and
    `missing` how many photos and records the database names and how many of them are not there;
    `opened` what was opened and held to its hash.
    """

    counts: dict[str, int] = field(default_factory=dict)
    migrated: int = 0
    named: int = 0
    missing: int = 0
    opened: str = ""
    epoch: str = ""
    wrong: list[str] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)


def open_folder(folder: Path, why: str = "") -> Opened:
    """Look into a restored folder from outside.

    Raises:
        BackupTrouble: the program that looks did not come to its end.

    """
    told = {name: one for name, one in os.environ.items() if name != "SHOPAC_DATABASE"}
    done = subprocess.run(
        [sys.executable, "manage.py", "drill", "--here", *(["--why", why] if why else [])],
        cwd=settings.BASE_DIR,
        env={**told, "SHOPAC_DATA": str(folder), "DJANGO_SETTINGS_MODULE": "shopac.settings"},
        capture_output=True,
        encoding="utf-8",
        timeout=OPEN_SECONDS,
        check=False,
    )
    if done.returncode:
        reason = (done.stderr.strip().splitlines() or ["no reason given"])[-1]
        raise BackupTrouble(f"The restored shop could not be opened ({reason}).")
    return Opened(**json.loads(done.stdout))


def look(why: str) -> Opened:
    """Check, bring up to this release, begin the epoch, count, open one thing."""
    found = Opened()
    try:
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA integrity_check(1)")
            whole = str(cursor.fetchone()[0])
        if whole != "ok":
            found.wrong.append(f"The database is damaged ({whole.splitlines()[-1]}).")
            return found
        executor = MigrationExecutor(connection)
        found.migrated = len(executor.migration_plan(executor.loader.graph.leaf_nodes()))
        call_command("migrate", interactive=False, verbosity=0)
        if why:
            found.epoch = str(begin(why).key)
        found.counts = {name: counted(table) for name, table in COUNTED.items()}
        look_for_files(found)
        found.opened = open_one(found)
    except (DatabaseError, OSError) as wrong:
        found.wrong.append(f"The database cannot be used ({' '.join(str(wrong).split())}).")
    return found


def counted(table: str) -> int:
    """How many rows a table has."""
    room, _, model = table.partition("_")
    many: int = apps.get_model(room, model)._default_manager.count()  # noqa: SLF001
    return many


def look_for_files(found: Opened) -> None:
    """Whether each photo and each record that the database names is in the folder."""
    photos, records = Photo.objects.all(), Record.objects.filter(let_go_at=None)
    named = {
        ("photos", one, ".jpg")
        for both in photos.values_list("stored_sha256", "small_sha256")
        for one in both
        if one
    }
    unread = photos.filter(stored_sha256="").exclude(why__startswith=PHOTO_GONE)
    named |= {("originals", one, "") for one in unread.values_list("sent_sha256", flat=True)}
    named |= {("records", one, ".pdf") for one in records.values_list("pdf_sha256", flat=True)}
    found.named = len(named)
    found.missing = sum(not place(*one).exists() for one in named)


def open_one(found: Opened) -> str:
    """Open the record issued last and hold it to its hash; without one nothing is opened."""
    last = Record.objects.filter(let_go_at=None).order_by("id").last()
    if last is None:
        return ""
    try:
        data_of(last)
        file_of(last)
    except NotAsFrozen as wrong:
        found.doubts.append(str(wrong))
        return ""
    return f"record {last.job.number}, issue {last.issue}"


def lacking(opened: Opened) -> list[str]:
    """What of photos and records is not there, or not as it was frozen."""
    if not opened.missing:
        return opened.doubts
    missing = f"Of {opened.named} photos and records that it names {opened.missing} are not there."
    return [missing, *opened.doubts]
