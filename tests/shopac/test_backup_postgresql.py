"""Backups of a PostgreSQL shop: before its tables change, and restored into an empty database."""

import os
import shutil
import subprocess
import sys
import uuid
import zipfile

import pytest
from django.db import connection

from tests import postgres
from tests.shopac.starting import PROGRAM, environment

pytestmark = [pytest.mark.postgresql, pytest.mark.django_db]


@pytest.fixture
def programs():
    """Where pg_dump and pg_restore of the running server are."""
    return f"{postgres.find()}{os.pathsep}{os.environ['PATH']}"


@pytest.fixture
def shop(tmp_path):
    """The environment of a shop with a fresh database of its own in the tests' cluster."""
    name = f"shop_{uuid.uuid4().hex}"
    told = connection.settings_dict
    place = f"{told['USER']}@{told['HOST']}:{told['PORT']}"
    run_sql(f"CREATE DATABASE {name}")
    yield {
        **environment(),
        "SHOPAC_DATA": str(tmp_path),
        "SHOPAC_DATABASE": f"postgresql://{place}/{name}",
    }
    run_sql(f"DROP DATABASE {name} WITH (FORCE)")


def run_sql(statement):
    """On a connection of its own: databases are not made inside a transaction."""
    other = connection.copy()
    with other.cursor() as cursor:
        cursor.execute(statement)
    other.close()


def run(shop, *command):
    return subprocess.run(
        [sys.executable, *command],
        cwd=PROGRAM,
        env=shop,
        capture_output=True,
        text=True,
        check=False,
    )


def prepare(shop, *options):
    return run(shop, "-m", "shopac.prepare", "http://127.0.0.1:8000/", "--empty", *options)


@pytest.fixture
def waiting(shop, programs):
    """A prepared shop whose tables are as an older release would have left them."""
    first = prepare({**shop, "PATH": programs})
    assert not first.returncode, first.stderr
    done = run(shop, "manage.py", "migrate", "sessions", "zero")
    assert not done.returncode, done.stderr
    return shop


def test_the_tables_are_dumped_before_they_are_changed(waiting, programs, tmp_path):
    done = prepare({**waiting, "PATH": programs})
    assert not done.returncode, done.stderr
    (backup,) = (tmp_path / "backups").iterdir()
    with zipfile.ZipFile(backup) as archive:
        copy = archive.extract("shop.pgdump", tmp_path)
    listed = subprocess.run(
        [str(shutil.which("pg_restore", path=programs)), "--list", str(copy)],
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert "TABLE public jobs_entry " in listed
    assert "TABLE public django_session " not in listed


def test_without_pg_dump_nothing_is_changed(waiting, tmp_path):
    done = prepare({**waiting, "PATH": str(tmp_path)})
    assert done.returncode == 1
    assert "pg_dump is not on this machine" in done.stderr
    assert "[ ] 0001_initial" in run(waiting, "manage.py", "showmigrations", "sessions").stdout


def test_a_dump_that_fails_changes_nothing_and_leaves_no_half_copy(waiting, tmp_path):
    fake = tmp_path / "programs"
    fake.mkdir()
    (fake / "pg_dump").write_text(
        "#!/bin/sh\necho 'pg_dump: server version mismatch' >&2\nexit 1\n"
    )
    (fake / "pg_dump").chmod(0o755)
    done = prepare({**waiting, "PATH": f"{fake}{os.pathsep}/usr/bin{os.pathsep}/bin"})
    assert done.returncode == 1
    assert "pg_dump did not finish (pg_dump: server version mismatch)" in done.stderr
    assert "Nothing was changed." in done.stderr
    assert list((tmp_path / "backups").iterdir()) == []


def test_a_person_may_go_on_without_a_copy(waiting, tmp_path):
    done = prepare({**waiting, "PATH": str(tmp_path)}, "--without-backup")
    assert not done.returncode, done.stderr
    assert "No backup of the database is made, as asked." in done.stderr


@pytest.fixture
def empty(shop):
    """The environment of another folder, with an empty database of its own."""
    name = f"shop_{uuid.uuid4().hex}"
    run_sql(f"CREATE DATABASE {name}")
    place = shop["SHOPAC_DATABASE"].rpartition("/")[0]
    yield {**shop, "SHOPAC_DATABASE": f"{place}/{name}"}
    run_sql(f"DROP DATABASE {name} WITH (FORCE)")


MAKE = """
import django
django.setup()
from tests.factories import make_job, make_shop
make_shop()
make_job()
"""
LOOK = """
import django
django.setup()
from jobs.models import Entry, Epoch, Job
print(Job.objects.count(), Entry.objects.count(), Epoch.objects.last().why)
"""


def test_a_backup_comes_back_in_an_empty_database_and_in_no_other(shop, empty, programs, tmp_path):
    there = {**shop, "PATH": programs, "DJANGO_SETTINGS_MODULE": "shopac.settings"}
    first = prepare(there)
    assert not first.returncode, first.stderr
    assert not run(there, "-c", MAKE).returncode
    backup = str(tmp_path / "one.zip")
    made = run(there, "manage.py", "backup", backup)
    assert not made.returncode, made.stderr
    assert "1 job, 1 entry, 0 photos" in made.stdout

    tried = run(there, "manage.py", "drill", backup)
    assert not tried.returncode, tried.stderr
    assert "Whether it can be read in was not tried." in tried.stdout

    used = run(there, "manage.py", "restore", backup)
    assert used.returncode == 1
    assert "is in use. A backup is restored into an empty one only" in used.stderr

    other = {**empty, "PATH": programs, "DJANGO_SETTINGS_MODULE": "shopac.settings"}
    other["SHOPAC_DATA"] = str(tmp_path / "other")
    done = run(other, "manage.py", "restore", backup)
    assert not done.returncode, done.stderr
    assert run(other, "-c", LOOK).stdout.startswith("1 1 Restored from a backup of ")
    assert not (tmp_path / "other" / "shop.pgdump").exists()
