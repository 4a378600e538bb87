"""The owner's page of backups, and what the board says of them."""

import json
from datetime import timedelta
from pathlib import Path
from threading import Timer

import pytest
from django.conf import settings
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from jobs.models.people import DESK, OWNER, TECHNICIAN
from shopac import lock
from shopac.backups import known, sealed, tail, writing
from shopac.backups.trouble import BackupTrouble
from shopac.views import backups as page
from tests.factories import make_person

pytestmark = pytest.mark.django_db


@pytest.fixture
def data(tmp_path, settings):
    """A data folder of the test's own; the test's database lies elsewhere and is asked as ever."""
    settings.DATA = tmp_path / "data"
    settings.BACKUPS = settings.DATA / "backups"
    settings.DATA.mkdir()
    (settings.DATA / "secret_key").write_text("x" * 50)
    return settings.DATA


@pytest.fixture
def owner():
    return browser_of(OWNER)


def browser_of(role):
    browser = Client()
    browser.force_login(make_person(role))
    return browser


def text(response):
    return " ".join(response.content.decode().split())


def make_backup(data, days=0):
    """A whole backup file of so many days ago, as the page lists them."""
    (data / "backups").mkdir(exist_ok=True)
    at = timezone.now() - timedelta(days=days)
    told = tail.Tail(at.isoformat(), "0.1.0", tail.DAILY, "sqlite", True, {"jobs": 3, "entries": 9})
    path = data / "backups" / f"{at:%Y-%m-%d-%H%M%S}-daily.zip"
    path.write_bytes(tail.unsealed(told))
    return path


def test_without_a_backup_the_page_says_that_there_is_none(data, owner):
    said = text(owner.get("/backups/"))
    assert "There is none yet." in said
    assert "Not tried yet." in said
    assert str(data / "backups") in said


def test_the_page_tells_the_last_one_and_that_it_lies_on_the_same_disk(data, owner):
    make_backup(data, days=2)
    said = text(owner.get("/backups/"))
    assert "2 days ago. In it: 3 jobs, 9 entries; under 1 MB." in said
    assert "On the same disk as the shop’s data." in said


def test_a_drill_and_a_failure_are_told_in_their_own_words(data, owner):
    made = make_backup(data)
    now = timezone.now().isoformat()
    known.tell(
        data,
        drilled_at=now,
        drilled=made.name,
        drill=("The database is whole.",),
        drill_ok=True,
        failed_at=now,
        failed="The disk is full.",
    )
    said = text(owner.get("/backups/"))
    assert "Yes, as tried on" in said
    assert "The database is whole." in said
    assert "and not made: The disk is full." in said


def test_the_page_asks_the_database_as_often_however_many_backups_there_are(data, owner):
    make_backup(data)
    with CaptureQueriesContext(connection) as few:
        owner.get("/backups/")
    for days in range(1, 30):
        make_backup(data, days)
    with CaptureQueriesContext(connection) as many:
        owner.get("/backups/")
    assert len(many) == len(few) <= 2  # session and person


@pytest.mark.parametrize("role", [TECHNICIAN, DESK])
def test_only_an_owner_sees_the_page_and_makes_one(data, role, monkeypatch):
    begun: list[str] = []
    monkeypatch.setattr(page, "run", begun.append)
    browser = browser_of(role)
    assert browser.get("/backups/").status_code == 403
    assert browser.post("/backups/make/", {"make": "backup"}).status_code == 403
    assert browser.post("/backups/seal/", {"password": "x" * 20}).status_code == 403
    assert begun == []


def test_a_tap_begins_one_and_a_second_tap_no_second_one(data, owner, monkeypatch):
    begun: list[str] = []
    monkeypatch.setattr(page, "run", begun.append)
    assert owner.post("/backups/make/", {"make": "backup"}).status_code == 302
    said = text(owner.get("/backups/"))
    assert "Under way" in said
    assert "Make one now" not in said
    owner.post("/backups/make/", {"make": "backup"})
    end_threads(begun)
    assert begun == ["backup"]


def end_threads(begun):
    end = timezone.now() + timedelta(seconds=5)
    while not begun and timezone.now() < end:
        pass


def test_how_far_it_is_is_asked_for_as_a_part_until_it_has_ended(data, owner):
    with known.alone(data):
        known.tell_now(data, "Writing the file", 3, 4)
        part = owner.get("/backups/", headers={"HX-Request": "true"})
        assert "Writing the file" in text(part)
        assert 'value="75"' in text(part)
        assert "HX-Refresh" not in part.headers
    done = owner.get("/backups/", headers={"HX-Request": "true"})
    assert done.headers["HX-Refresh"] == "true"


def test_a_look_whether_one_is_under_way_keeps_none_from_beginning(data):
    (data / known.FOLDER).mkdir()
    looking = lock.take(data / known.FOLDER / "lock", "a look")
    assert looking
    Timer(0.2, looking.close).start()
    with known.alone(data):
        assert lock.take(data / known.FOLDER / "lock", "a look") is None


def test_one_that_was_cut_off_is_not_under_way(data):
    known.tell_now(data, "Writing the file", 3, 4)
    told = json.loads((data / "backing_up" / "now.json").read_text())
    told["at"] = (timezone.now() - timedelta(minutes=1)).isoformat()
    (data / "backing_up" / "now.json").write_text(json.dumps(told))
    assert known.under_way(data) is None


def test_two_at_once_are_refused(data):
    with known.alone(data), pytest.raises(BackupTrouble), known.alone(data):
        pass


def board(role=OWNER):
    return text(browser_of(role).get("/board/"))


def test_the_owners_board_warns_after_three_days_without_one(data):
    now = timezone.now()
    known.tell(data, since=(now - timedelta(days=9)).isoformat())
    assert "No backup for 9 days." in board()
    known.tell(data, made_at=(now - timedelta(days=2, hours=23)).isoformat())
    assert "No backup for" not in board()
    known.tell(data, made_at=(now - timedelta(days=3, hours=1)).isoformat())
    assert "No backup for 3 days." in board()
    assert "No backup for" not in board(TECHNICIAN)


def test_the_owners_board_warns_of_a_drill_that_found_something_wrong(data):
    known.tell(data, drilled_at=timezone.now().isoformat(), drill_ok=False, drill=("No.",))
    assert "The last drill found something wrong with a backup." in board()


def test_a_shop_that_no_start_has_prepared_warns_of_nothing(data):
    assert known.warnings(data, timezone.now()) == []


# The key of the certificate authority.


@pytest.fixture
def authority(data):
    (data / "certificates").mkdir()
    (data / "certificates" / "authority.pem").write_text("public")
    (data / "certificates" / "authority_key.pem").write_text("the key")
    (data / "certificates" / "server.pem").write_text("the server's key")
    return data


def test_without_a_passphrase_the_authoritys_key_is_in_no_backup(authority, owner):
    assert "It is in no backup yet." in text(owner.get("/backups/"))
    names = [name for name, _ in writing.keys(authority)]
    assert names == ["secret_key", "certificates/authority.pem"]


def test_with_a_passphrase_it_goes_in_sealed_and_opens_with_that_one_only(
    authority, owner, tmp_path
):
    typed = {"password": "seven wet umbrellas", "password_again": "seven wet umbrellas"}
    assert owner.post("/backups/seal/", typed).status_code == 302
    assert "sealed by your passphrase" in text(owner.get("/backups/"))
    into = tmp_path / "into"
    for name, path in writing.keys(authority):
        (into / name).parent.mkdir(parents=True, exist_ok=True)
        (into / name).write_bytes(path.read_bytes())
        assert b"the key" not in path.read_bytes()
    with pytest.raises(BackupTrouble, match="not the one that sealed"):
        sealed.open_into(into, "seven wet umbrella")
    assert sealed.open_into(into, "seven wet umbrellas")
    assert (into / "certificates" / "authority_key.pem").read_text() == "the key"


def test_a_restore_without_the_passphrase_brings_no_half_an_authority(authority, tmp_path):
    sealed.seal(authority, "seven wet umbrellas")
    assert not sealed.open_into(authority, "")
    assert not (authority / "certificates").exists()


def test_a_new_authority_asks_for_a_passphrase_anew(authority):
    sealed.seal(authority, "seven wet umbrellas")
    assert sealed.state(authority) == "sealed"
    (authority / "certificates" / "authority_key.pem").write_text("another")
    assert sealed.state(authority) == "old"


def test_a_short_passphrase_is_asked_for_again(authority, owner):
    typed = {"password": "ten letters", "password_again": "ten letters"}
    response = owner.post("/backups/seal/", typed)
    assert response.status_code == 422
    assert "Type 12 characters or more." in text(response)
    assert sealed.state(authority) == "open"


def test_everything_in_a_data_folder_is_either_backed_up_or_left_out_for_a_reason():
    """A new name has to be given its place, or it would be missing after a restore unseen."""
    from shopac.backups import contents
    from shopac.backups.unpacking import TOPS

    known_names = {*TOPS, *contents.LEFT_OUT}
    found = {path.name for path in Path(settings.DATA).iterdir() if ".test." not in path.name}
    assert found <= known_names
