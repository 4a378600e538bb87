"""Making a data folder ready: shopac/prepare.py, on SQLite files of the test."""

import os
import shutil
import sqlite3
import subprocess
import sys
import zipfile
from contextlib import closing, contextmanager
from tempfile import TemporaryDirectory

import pytest

from tests.shopac.starting import PROGRAM, environment

pytestmark = pytest.mark.sqlite


@pytest.fixture
def data(tmp_path):
    folder = tmp_path / "data"
    folder.mkdir()
    return folder


def run(data, *command, **more):
    return subprocess.run(
        [sys.executable, *command],
        cwd=PROGRAM,
        env={**environment(), "SHOPAC_DATA": str(data), **more},
        capture_output=True,
        text=True,
        check=False,
    )


def prepare(data, *options, **more):
    return run(data, "-m", "shopac.prepare", "http://127.0.0.1:8000/", "--empty", *options, **more)


def take_back_one_migration(data):
    """Leave the database as an older release would have: one change of the tables waits."""
    done = run(data, "manage.py", "migrate", "sessions", "zero")
    assert not done.returncode, done.stderr


def test_tables_are_copied_before_they_are_changed(data):
    prepare(data)
    take_back_one_migration(data)
    done = prepare(data)
    assert not done.returncode, done.stderr
    (backup,) = (data / "backups").iterdir()
    has_sessions = "select count(*) from sqlite_master where name = 'django_session'"
    with copied(backup) as old, closing(sqlite3.connect(data / "shop.sqlite3")) as new:
        assert old.execute("pragma integrity_check").fetchone() == ("ok",)
        assert old.execute(has_sessions).fetchone() == (0,)
        assert new.execute(has_sessions).fetchone() == (1,)
    assert "Backed up the database to" in done.stderr


@contextmanager
def copied(backup):
    """The database in a backup."""
    with (
        zipfile.ZipFile(backup) as archive,
        TemporaryDirectory() as folder,
        closing(sqlite3.connect(archive.extract("shop.sqlite3", folder))) as file,
    ):
        yield file


def test_a_copy_holds_rows_that_still_lie_in_the_write_ahead_log(data):
    prepare(data)
    take_back_one_migration(data)
    with closing(sqlite3.connect(data / "shop.sqlite3")) as open_elsewhere:
        open_elsewhere.execute("create table kept (words text)")
        open_elsewhere.execute("insert into kept values ('in the log')")
        open_elsewhere.commit()
        prepare(data)
    (backup,) = (data / "backups").iterdir()
    with copied(backup) as old:
        assert old.execute("select words from kept").fetchone() == ("in the log",)


def test_a_first_start_and_one_without_changes_copy_nothing(data):
    prepare(data)
    prepare(data)
    assert not (data / "backups").exists()


def test_without_room_for_the_copy_nothing_is_changed(data):
    prepare(data)
    take_back_one_migration(data)
    (data / "backups").write_text("a file where the folder should be")
    before = (data / "shop.sqlite3").read_bytes()
    done = prepare(data)
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert (data / "shop.sqlite3").read_bytes() == before


def garble(path):
    with path.open("r+b") as file:
        file.seek(4096)
        file.write(os.urandom(8192))


def overwrite(path):
    path.write_bytes(b"not a database at all " * 500)


def cut(path):
    path.write_bytes(path.read_bytes()[:6000])


@pytest.mark.parametrize("damage", [garble, overwrite, cut])
def test_a_damaged_database_is_one_sentence_and_left_as_it_is(data, damage):
    prepare(data)
    damage(data / "shop.sqlite3")
    before = (data / "shop.sqlite3").read_bytes()
    done = prepare(data)
    assert done.returncode == 1
    assert done.stderr.startswith(f"The shop's database {data / 'shop.sqlite3'} is damaged (")
    assert done.stderr.count("\n") == 1
    assert (data / "shop.sqlite3").read_bytes() == before


@pytest.mark.parametrize(("left", "word"), [(None, "not there"), (b"", "empty")])
def test_a_used_folder_whose_database_is_gone_is_not_begun_anew(data, left, word):
    prepare(data)
    (data / "shop.sqlite3").unlink()
    if left is not None:
        (data / "shop.sqlite3").write_bytes(left)
    done = prepare(data)
    assert done.returncode == 1
    assert f"is {word}, although this folder has been in use" in done.stderr


def test_a_wrong_database_address_is_one_sentence(data):
    done = prepare(data, SHOPAC_DATABASE="mysql://nobody@nowhere/nothing")
    assert done.returncode == 1
    assert "neither sqlite nor postgresql" in done.stderr
    assert done.stderr.count("\n") == 1


def test_a_database_server_that_is_not_there_is_said_without_a_traceback(data):
    done = prepare(data, SHOPAC_DATABASE="postgresql://nobody@127.0.0.1:1/nothing")
    assert done.returncode == 1
    assert done.stderr.startswith("The database cannot be used: ")
    assert "Traceback" not in done.stderr


def test_changed_page_files_are_collected_again(data):
    prepare(data)
    (data / "static_seen").write_text("what an older release had")
    assert "Collecting the pages' files" in prepare(data).stderr
    assert "Collecting" not in prepare(data).stderr


def test_data_inside_the_program_are_refused_before_anything_is_made_there():
    inside = PROGRAM / ".data-of-a-test"
    try:
        done = prepare(inside)
        assert done.returncode == 1
        assert "lie inside the program" in done.stderr
        assert not (inside / "shop.sqlite3").exists()
    finally:
        shutil.rmtree(inside, ignore_errors=True)


def test_a_secret_key_that_others_can_read_is_remarked_and_the_shop_opens(data):
    (data / "secret_key").write_text("x" * 60)
    (data / "secret_key").chmod(0o644)
    done = prepare(data)
    assert not done.returncode
    assert "can read the secret key" in done.stderr
