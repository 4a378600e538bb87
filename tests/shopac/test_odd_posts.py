"""What a form of ours never posts, and is answered in words all the same."""

import uuid

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from jobs.models import Entry, Photo
from tests.factories import make_job, make_person

pytestmark = pytest.mark.django_db


@pytest.fixture
def post(client, settings, tmp_path):
    settings.DATA = tmp_path
    job = make_job()
    client.force_login(make_person())

    def send(**fields):
        first = {"key": str(uuid.uuid4()), "seen": "A click.", "engine": "off", "holds": "no"}
        return client.post(f"/step/coil_power/?job={job.key}", first | fields)

    return send


@pytest.mark.parametrize("name", ["x", "", "hub_turn"])
def test_a_steps_page_records_its_own_kind_whatever_the_form_says(post, name):
    assert post(test_kind=name, test_version="1").status_code in (302, 422)
    assert not Entry.objects.filter(kind="step").exclude(fields__test_kind=["coil_power"]).exists()


def test_a_file_field_of_any_name_is_kept(post):
    odd = SimpleUploadedFile("a.jpg", b"no picture", "image/jpeg")
    answer = post(test_kind="coil_power", test_version="1", **{"a\x00b": odd})
    assert answer.status_code == 302
    assert Photo.objects.get().field == "a\ufffdb"


def test_more_photos_than_an_entry_takes_are_told_and_nothing_typed_is_lost(post):
    photos = [SimpleUploadedFile(f"{n}.jpg", b"x", "image/jpeg") for n in range(13)]
    answer = post(test_kind="coil_power", test_version="1", photo=photos)
    assert answer.status_code == 400
    assert "13 photos: one entry takes 12." in answer.content.decode()
    assert "A click." in answer.content.decode()


def test_a_photo_larger_than_the_server_keeps_is_told(post, settings):
    settings.PHOTO_BYTES_MAX = 10
    photo = SimpleUploadedFile("a.jpg", b"x" * 11, "image/jpeg")
    answer = post(test_kind="coil_power", test_version="1", photo=photo)
    assert answer.status_code == 400
    assert "too large" in answer.content.decode()


def test_more_files_than_any_form_sends_are_turned_away_in_words(client, db):
    client.force_login(make_person())
    files = [SimpleUploadedFile(f"{n}.jpg", b"x", "image/jpeg") for n in range(101)]
    assert client.post(reverse("intake"), {"photo": files}).status_code == 413
