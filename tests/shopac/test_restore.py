"""Backup and restore as commands, on real folders: what comes back, and what is refused."""

import json
import os
import shutil
import signal
import sqlite3
import stat
import subprocess
import sys
import time
import zipfile
from contextlib import closing

import pytest

from shopac import lock
from shopac.backups import tail
from shopac.backups.trouble import BackupTrouble
from tests.shopac import small_shop
from tests.shopac.small_shop import manage
from tests.shopac.starting import PROGRAM, environment

pytestmark = pytest.mark.sqlite


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A shop, and a backup of it."""
    folder = small_shop.make(tmp_path_factory.mktemp("made") / "data")
    backup = folder.parent / "made.zip"
    done = manage(folder, "backup", str(backup))
    assert not done.returncode, done.stderr
    return folder, backup


@pytest.fixture
def shop(made, tmp_path):
    """A copy of that shop to do what one likes with."""
    shutil.copytree(made[0], tmp_path / "data")
    return tmp_path / "data"


@pytest.fixture
def backup(made):
    return made[1]


def rows(folder, sql):
    with closing(sqlite3.connect(folder / "shop.sqlite3")) as file:
        return file.execute(sql).fetchall()


def everything(folder):
    """Each file of a folder with its bytes, but for the lock."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and path.name != "lock" and "backing_up" not in path.parts
    }


def test_all_of_a_shop_comes_back_in_an_empty_folder(made, backup, tmp_path):
    into = tmp_path / "other"
    done = manage(tmp_path / "unused", "restore", str(backup), "--into", str(into))
    assert not done.returncode, done.stderr
    assert "2 jobs" in done.stdout
    for table in ("jobs_entry", "jobs_job", "jobs_photo", "jobs_record", "jobs_person"):
        every = f"select * from {table} order by id"  # noqa: S608  a table of ours
        assert rows(into, every) == rows(made[0], every)
    kept = ("photos/", "records/", "secret_key")
    before = {name: one for name, one in everything(made[0]).items() if name.startswith(kept)}
    assert len(before) == 3
    assert before.items() <= everything(into).items()


def test_a_restore_begins_a_new_epoch_and_keeps_the_ones_before(made, backup, tmp_path):
    into = tmp_path / "other"
    manage(tmp_path / "unused", "restore", str(backup), "--into", str(into))
    every = "select key, why from jobs_epoch order by id"
    before, after = rows(made[0], every), rows(into, every)
    assert after[:-1] == before
    assert "Restored from a backup of 20" in after[-1][1]


def test_a_restore_says_that_a_tablet_revoked_since_is_let_in_again(shop, backup):
    key = "0" * 32
    with closing(sqlite3.connect(shop / "shop.sqlite3")) as file:
        file.execute(
            "insert into jobs_tablet (key, name, version, browser, pins, revoked_at, revoked_by_id)"
            " values (?, '', '', '', 1, '2026-11-30 10:00:00', (select min(id) from jobs_person))",
            (key,),
        )
        file.commit()
    done = manage(shop, "restore", str(backup))
    assert rows(shop, "select count(*) from jobs_tablet where revoked_at is not null") == [(0,)]
    assert "which tablet was revoked after the backup is let in again" in done.stdout


def test_who_was_signed_in_is_not_in_a_backup(made, backup, tmp_path):
    assert rows(made[0], "select count(*) from django_session") == [(1,)]
    [(key,)] = rows(made[0], "select session_key from django_session")
    with zipfile.ZipFile(backup) as archive:
        copied = archive.read("shop.sqlite3")
    assert key.encode() in (made[0] / "shop.sqlite3").read_bytes()
    assert key.encode() not in copied


def test_a_backup_is_its_owners_alone_and_says_what_it_is(backup):
    assert stat.S_IMODE(backup.stat().st_mode) == 0o600
    with zipfile.ZipFile(backup) as archive:
        assert archive.testzip() is None
        assert "Private: it holds names" in archive.read("README.txt").decode()
        told = json.loads(archive.read("manifest.json"))
    assert told["counts"]["jobs"] == 2
    assert {"shop.sqlite3", "secret_key"} <= set(told["files"])


def test_what_is_in_the_folder_is_moved_aside_and_not_deleted(shop, backup):
    with closing(sqlite3.connect(shop / "shop.sqlite3")) as file:
        file.execute("update jobs_shop set name = 'later'")
        file.commit()
    (shop / "photos" / "later.jpg").write_bytes(b"of later")
    before = everything(shop)
    done = manage(shop, "restore", str(backup))
    assert not done.returncode, done.stderr
    (aside,) = shop.glob("before-restore-*")
    moved = everything(aside)
    assert moved["photos/later.jpg"] == b"of later"
    assert moved["shop.sqlite3"] == before["shop.sqlite3"]
    assert rows(shop, "select count(*) from jobs_shop where name = 'later'") == [(0,)]
    assert not (shop / "photos" / "later.jpg").exists()
    assert not list(shop.glob(".restored-*"))
    assert str(aside) in done.stdout


def test_a_folder_in_use_is_not_restored_into(shop, backup):
    before = everything(shop)
    held = lock.take(shop / "lock", "http://127.0.0.1:8000/ (process 1)")
    assert held
    with held:
        done = manage(shop, "restore", str(backup))
    assert done.returncode == 1
    assert "shopac is running on" in done.stderr
    assert everything(shop) == before


def refused(shop, backup, words):
    """That a restore is refused with these words, and changes nothing."""
    before = everything(shop)
    done = manage(shop, "restore", str(backup))
    assert done.returncode == 1
    assert words in done.stderr
    assert "Traceback" not in done.stderr
    assert everything(shop) == before


def test_a_backup_that_was_cut_off_is_refused(shop, backup, tmp_path):
    cut = tmp_path / "cut.zip"
    whole = backup.read_bytes()
    for length in (0, 1, len(whole) // 2, len(whole) - 65, len(whole) - 1):
        cut.write_bytes(whole[:length])
        with pytest.raises(BackupTrouble, match="is no whole backup"):
            tail.check(cut, lambda _: None)
    refused(shop, cut, "is no whole backup")


def test_one_flipped_bit_anywhere_is_refused(shop, backup, tmp_path):
    """Each byte of the end, where the file says what it is, and some of all others."""
    flipped = tmp_path / "flipped.zip"
    whole = backup.read_bytes()
    anywhere = [len(whole) * share // 50 for share in range(50)]
    for place in [*range(len(whole) - 500, len(whole)), *anywhere]:
        bytes_ = bytearray(whole)
        bytes_[place] ^= 1
        flipped.write_bytes(bytes_)
        with pytest.raises(BackupTrouble):
            tail.check(flipped, lambda _: None)
    refused(shop, flipped, "is damaged: its bytes are not those that were written")


def test_a_file_that_leads_out_of_the_folder_is_refused(shop, tmp_path, backup):
    """Sealed like one of ours, so that only the names can tell."""
    made = tail.read(backup)
    evil = tmp_path / "evil.zip"
    with evil.open("w+b") as file:
        with zipfile.ZipFile(file, "w") as archive:
            archive.writestr("../out.txt", "x")
            told = {"files": {"../out.txt": [1, "0"]}, "damaged": []}
            archive.writestr("manifest.json", json.dumps(told))
            archive.comment = tail.unsealed(made)
        tail.seal(file, lambda _: None)
    refused(shop, evil, "holds other files than it says")
    assert not (tmp_path / "out.txt").exists()


def test_a_backup_of_a_newer_release_is_refused(shop, backup, tmp_path):
    newer = tmp_path / "newer.zip"
    made = tail.read(backup)
    with newer.open("w+b") as file:
        with zipfile.ZipFile(file, "w") as archive:
            archive.comment = tail.unsealed(tail.Tail(**{**vars(made), "version": "99.0.0"}))
        tail.seal(file, lambda _: None)
    refused(shop, newer, "was made by shopac 99.0.0, which is newer")


def test_a_file_that_is_no_backup_is_refused(shop, tmp_path):
    other = tmp_path / "other.zip"
    with zipfile.ZipFile(other, "w") as archive:
        archive.writestr("shop.sqlite3", "x")
    refused(shop, other, "is no whole backup")
    refused(shop, tmp_path / "none.zip", "cannot be read")


def test_a_killed_backup_leaves_nothing_that_a_restore_takes(shop, tmp_path):
    """Killed while it writes: the draft has no end, and the next backup removes it."""
    (shop / "photos" / "aa").mkdir(exist_ok=True)
    with (shop / "photos" / "aa" / f"{'a' * 64}.jpg").open("wb") as file:
        file.truncate(3_000_000_000)
    process = subprocess.Popen(
        [sys.executable, "manage.py", "backup"],
        cwd=PROGRAM,
        env={**environment(), "SHOPAC_DATA": str(shop)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    end = time.monotonic() + 60
    while not drafts(shop) and process.poll() is None and time.monotonic() < end:
        time.sleep(0.02)
    time.sleep(0.1)
    process.send_signal(signal.SIGKILL)
    process.wait()
    (draft,) = drafts(shop)
    assert not list((shop / "backups").glob("*.zip"))
    done = manage(shop, "restore", str(draft))
    assert done.returncode == 1
    assert "is no whole backup" in done.stderr
    (shop / "photos" / "aa" / f"{'a' * 64}.jpg").unlink()
    assert not manage(shop, "backup").returncode
    assert len(list((shop / "backups").iterdir())) == 1


def drafts(shop):
    return [one for one in (shop / "backups").glob("*.zip.part") if one.stat().st_size]


def test_a_full_disk_leaves_the_backups_before_and_says_so(shop):
    assert not manage(shop, "backup").returncode
    before = everything(shop / "backups")
    limited = "import resource, sys; resource.setrlimit(resource.RLIMIT_FSIZE, (3000000, 3000000));"
    limited += "import signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN);"
    limited += "from django.core.management import execute_from_command_line;"
    limited += "execute_from_command_line(['manage.py', 'backup'])"
    (shop / "photos" / "big.jpg").write_bytes(os.urandom(4_000_000))
    done = small_shop.run(shop, "-c", limited)
    assert done.returncode == 1
    assert "No backup was made; the backups before are as they were." in done.stderr
    assert "Traceback" not in done.stderr
    assert everything(shop / "backups") == before
    known = json.loads((shop / "backing_up" / "known.json").read_text())
    assert known["made_at"]
    assert "is full" in known["failed"]


def test_a_damaged_database_becomes_no_backup(shop):
    with (shop / "shop.sqlite3").open("r+b") as file:
        file.seek(4096 * 20)
        file.write(os.urandom(4096 * 10))
    done = manage(shop, "backup")
    assert done.returncode == 1
    assert not list((shop / "backups").glob("*"))


def test_a_backup_takes_what_still_lies_in_the_write_ahead_log(shop, tmp_path):
    with closing(sqlite3.connect(shop / "shop.sqlite3")) as open_elsewhere:
        open_elsewhere.execute("pragma journal_mode=wal")
        open_elsewhere.execute("update jobs_shop set name = 'in the log'")
        open_elsewhere.commit()
        assert not manage(shop, "backup", str(tmp_path / "one.zip")).returncode
    into = tmp_path / "other"
    assert not manage(shop, "restore", str(tmp_path / "one.zip"), "--into", str(into)).returncode
    assert rows(into, "select name from jobs_shop") == [("in the log",)]


def test_a_restore_that_was_cut_off_is_seen_by_a_start_and_done_by_the_next(shop, backup):
    (shop / "restoring").write_text("{}")
    (shop / "shop.sqlite3").rename(shop / "away")
    start = small_shop.run(shop, "-m", "shopac.prepare", "http://127.0.0.1:8000/", "--empty")
    assert start.returncode == 1
    assert "A restore into" in start.stderr
    assert not (shop / "shop.sqlite3").exists()
    assert not manage(shop, "restore", str(backup)).returncode
    assert not (shop / "restoring").exists()
    assert rows(shop, "select count(*) from jobs_job") == [(2,)]


def test_photos_stay_where_a_backup_from_before_an_update_is_restored(shop, tmp_path):
    assert not manage(shop, "migrate", "sessions", "zero").returncode
    done = small_shop.run(shop, "-m", "shopac.prepare", "http://127.0.0.1:8000/", "--empty")
    assert not done.returncode, done.stderr
    (copy,) = (shop / "backups").iterdir()
    before = {name: one for name, one in everything(shop).items() if name.startswith("photos/")}
    done = manage(shop, "restore", str(copy))
    assert not done.returncode, done.stderr
    assert before.items() <= everything(shop).items()
    done = manage(shop, "restore", str(copy), "--into", str(tmp_path / "other"))
    assert done.returncode == 1
    assert "holds the database only" in done.stderr
