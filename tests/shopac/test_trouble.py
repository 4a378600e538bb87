"""A locked database and a full disk: said plainly, nothing half, and taken when it is over."""

import errno
import hashlib
import io
import sqlite3
import subprocess
import sys
import uuid
from collections.abc import Iterator
from contextlib import closing, contextmanager

import pytest
from django.contrib.sessions.backends.db import SessionStore
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.files.uploadhandler import TemporaryFileUploadHandler
from django.db import OperationalError, connection
from django.http import HttpResponse
from django.urls import URLPattern, get_resolver
from PIL import Image

from jobs.models import Entry, Job, Photo, Reused
from jobs.pins import hash_pin
from shopac.middleware import BUSY, DISK, FULL, trouble_words
from tests.factories import make_person, make_shop
from tests.shopac.starting import PROGRAM, environment
from tests.shopac.tablet import FIELDS, Tablet

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.sqlite]

PAGES = [one for one in get_resolver().url_patterns if isinstance(one, URLPattern)]


@pytest.fixture
def tablet() -> Tablet:
    make_shop()
    return Tablet()


@pytest.fixture(autouse=True)
def patience() -> Iterator[None]:
    """Wait for a lock as long as a test can, not as long as a shop can."""
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA busy_timeout=100")
        yield
        cursor.execute("PRAGMA busy_timeout=5000")


@contextmanager
def locked() -> Iterator[None]:
    """Somebody else is writing, and does not end."""
    with closing(sqlite3.connect(connection.settings_dict["NAME"])) as other:
        other.execute("BEGIN IMMEDIATE")
        yield
        other.rollback()


@contextmanager
def full() -> Iterator[None]:
    """The database can grow by no page."""
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA page_count")
        pages = cursor.fetchone()[0]
        cursor.execute(f"PRAGMA max_page_count={pages}")
        yield
        cursor.execute("PRAGMA max_page_count=1073741823")


def nothing_stored() -> bool:
    return not any(model.objects.exists() for model in (Entry, Reused, Job, Photo))


def a_picture() -> bytes:
    out = io.BytesIO()
    Image.effect_noise((400, 400), 100).save(out, "PNG")
    return out.getvalue()


def test_a_locked_database_tells_a_tablet_to_come_back_and_then_takes_the_entry(tablet):
    said = tablet.said()
    with locked():
        response = tablet.send(said)
        assert response.status_code == 503
        assert response.json() == {"state": "later", "why": BUSY}
        assert response.headers["Retry-After"] == "5"
        assert nothing_stored()
    assert tablet.send(said).status_code == 201


def test_a_full_database_tells_a_tablet_to_come_back_and_then_takes_the_entry(tablet):
    said = tablet.said(fields={**FIELDS, "complaint": ["Blows warm. " * 150]})
    with full():
        codes = {tablet.send(fields=said["fields"]).status_code for _ in range(20)}
        assert codes <= {201, 507}
        assert 507 in codes
        taken = Entry.objects.count()
        assert Job.objects.count() == taken
    assert tablet.send(said).status_code == 201
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA integrity_check")
        assert cursor.fetchone()[0] == "ok"


@pytest.mark.skipif(sys.platform == "win32", reason="Windows limits no file’s size")
def test_a_disk_with_no_room_for_a_photo_takes_neither_photo_nor_entry(tablet):
    import resource

    data = a_picture()
    line = {"field": "photo", "name": "a.png", "sha256": hashlib.sha256(data).hexdigest()}
    said = tablet.said(photos=[line])
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, hard))
    try:
        file = SimpleUploadedFile("a.png", data, "image/png")
        response = tablet.send(said, {"photo": file})
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert (response.status_code, response.json()["why"]) == (507, FULL)
    assert nothing_stored()
    again = tablet.send(said, {"photo": SimpleUploadedFile("a.png", data, "image/png")})
    assert again.status_code == 201
    assert Photo.objects.get().stored_sha256


def test_a_page_shows_what_was_typed_and_sends_it_again(tablet, client):
    client.force_login(tablet.author)
    typed = {"key": tablet.said()["key"], **{name: text[0] for name, text in FIELDS.items()}}
    with locked():
        response = client.post("/intake/", typed)
        assert response.status_code == 503
        shown = response.content.decode()
        assert BUSY in shown
        assert "KX.4731D" in shown
        assert f'name="key" value="{typed["key"]}"' in shown
        assert nothing_stored()
    assert client.post("/intake/", typed).status_code == 302


def test_pages_are_still_shown_while_the_database_is_locked(tablet, client):
    client.force_login(tablet.author)
    with locked():
        assert client.get("/board/").status_code == 200
        assert client.get("/ping/").json()["shopac"] == "here"


def test_a_sign_in_while_the_database_is_locked_is_told_so_and_counts_for_nothing(client):
    person = make_person(pin=hash_pin("40718253", uuid.uuid4()))
    with locked():
        response = client.post("/sign_in/", {"person": str(person.key), "pin": "40718253"})
        assert response.status_code == 503
        assert "40718253" not in response.content.decode()
    person.refresh_from_db()
    assert person.pin_misses == 0


@pytest.mark.parametrize("trouble", [locked, full])
def test_signing_out_works_in_this_browser_whatever_the_database_takes(tablet, client, trouble):
    client.force_login(tablet.author)
    with trouble():
        assert client.post("/sign_in/leave/").url == "/sign_in/"
        assert client.cookies["shopac_sign_in"].value == ""
        assert client.get("/ping/").json()["person"] is None
    assert client.get("/people/").status_code == 302


# A server on a disk that takes not one byte more; asked after the last connection was closed.
ON_A_FULL_DISK = """
import resource, sys
import django
django.setup()
from django.core.management import call_command
from django.db import connection
from django.test import Client
call_command("migrate", verbosity=0)
connection.close()
if sys.argv[1] == "as served":
    from shopac import wsgi
resource.setrlimit(resource.RLIMIT_FSIZE, (0, resource.RLIM_INFINITY))
print(Client(HTTP_HOST="127.0.0.1").get("/sign_in/").status_code)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="Windows limits no file’s size")
@pytest.mark.parametrize(("how", "status"), [("as served", "200"), ("nothing held open", "507")])
def test_pages_are_still_read_on_a_full_disk_because_the_log_is_held_open(tmp_path, how, status):
    told = {"DJANGO_SETTINGS_MODULE": "shopac.settings", "SHOPAC_DATA": str(tmp_path)}
    told["SHOPAC_DEBUG"] = "1"  # plain names of the pages’ files
    done = subprocess.run(
        [sys.executable, "-c", ON_A_FULL_DISK, how],
        cwd=PROGRAM,
        env=environment() | told,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.stdout.split() == [status], done.stderr


def test_a_session_that_ended_is_told_so_when_the_lock_is_over(tablet, client):
    client.force_login(tablet.author)
    tablet.author.pin = "other"
    tablet.author.save()
    with locked():
        assert client.get("/").status_code == 503
    assert client.get("/").status_code == 302


def test_a_session_that_cannot_be_written_after_the_page_was_made_is_told_so(client, monkeypatch):
    """A page that leaves the saving to the end of the request: signing in saves at once."""
    client.force_login(make_person())

    def remark(request, *args, **kwargs):
        request.session["remark"] = "x"
        monkeypatch.setattr(SessionStore, "save", fail)
        return HttpResponse("made")

    def fail(self, must_create=False):
        raise OperationalError("database is locked")

    pattern = next(one for one in PAGES if one.name == "ping")
    monkeypatch.setattr(pattern, "callback", remark)
    response = client.get("/ping/")
    assert response.status_code == 503
    assert BUSY in response.content.decode()


@pytest.mark.parametrize(
    ("error", "told"),
    [
        (OperationalError("database is locked"), (503, BUSY)),
        (OperationalError("could not connect to server"), (503, BUSY)),
        (OperationalError("database or disk is full"), (507, FULL)),
        (OperationalError("could not extend file: No space left on device"), (507, FULL)),
        (OperationalError("disk I/O error"), (507, DISK)),
        (OSError(28, "No space left on device"), (507, FULL)),
        (OSError(13, "Permission denied"), (0, "")),
        (OperationalError("no such column: x"), (0, "")),
        (ValueError("full"), (0, "")),
    ],
    ids=str,
)
def test_only_what_passes_by_itself_or_by_the_owner_is_called_trouble(error, told):
    assert trouble_words(error) == told


def test_more_text_than_the_server_takes_at_once_is_said_in_the_doors_own_words(client, db):
    answer = client.post("/entries/", {"entry": "x" * 3_000_000})
    assert answer.status_code == 413
    assert answer.json()["state"] == "too_large"


def test_a_photo_for_which_the_disk_has_no_room_is_taken_later(client, db, monkeypatch):
    def no_room(*_args):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(TemporaryFileUploadHandler, "receive_data_chunk", no_room)
    photo = SimpleUploadedFile("a.jpg", b"x" * 3_000_000, "image/jpeg")
    answer = client.post("/entries/", {"entry": "{}", "photo": photo})
    assert answer.status_code == 507
    assert answer.json()["state"] == "later"
