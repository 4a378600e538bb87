"""A copy before the tables change, on PostgreSQL: shopac/backup.py through shopac/prepare.py."""

import os
import shutil
import subprocess
import sys
import uuid

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
    (copy,) = (tmp_path / "backups").iterdir()
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
    assert "pg_dump, which copies it first, is not on this machine" in done.stderr
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
    assert "(pg_dump: server version mismatch): nothing was changed" in done.stderr
    assert list((tmp_path / "backups").iterdir()) == []


def test_a_person_may_go_on_without_a_copy(waiting, tmp_path):
    done = prepare({**waiting, "PATH": str(tmp_path)}, "--without-backup")
    assert not done.returncode, done.stderr
    assert "No copy of the database is made, as asked." in done.stderr
