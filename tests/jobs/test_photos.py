"""The page of a job's photos, and their bytes."""

import hashlib
import io

from django.urls import reverse
from PIL import Image

from jobs.kept_bytes import store
from jobs.models import Photo
from tests.factories import make_job, make_person


def drawn() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (30, 20), "navy").save(out, "JPEG")
    return out.getvalue()


def photo_of(job, **columns):
    data = drawn()
    shown = {"stored_sha256": store("photos", data, ".jpg"), "width": 30, "height": 20}
    row = {"number": 1, "field": "photo", "sent_sha256": hashlib.sha256(data).hexdigest()}
    row |= {"sent_bytes": len(data), **(columns or shown)}
    return Photo.objects.create(entry=job.entry, job_key=job.key, **row)


def test_nobody_sees_photos_without_a_sign_in(client, db):
    photo = photo_of(make_job())
    assert client.get(reverse("photos"), {"job": str(photo.job_key)}).status_code == 302
    assert client.get(reverse("photos_shown", args=[photo.stored_sha256])).status_code == 302


def test_a_photo_stands_on_the_page_and_its_bytes_are_those_stored(client, db):
    photo = photo_of(make_job())
    client.force_login(make_person())
    page = client.get(reverse("photos"), {"job": str(photo.job_key)}).content.decode()
    address = reverse("photos_shown", args=[photo.stored_sha256])
    assert address in page
    assert b"".join(client.get(address).streaming_content) == drawn()


def test_a_file_that_is_no_picture_says_why_on_the_page(client, db):
    photo = photo_of(make_job(), why="This file is not a picture.")
    client.force_login(make_person())
    page = client.get(reverse("photos"), {"job": str(photo.job_key)}).content.decode()
    assert "This file is not a picture." in page


def test_an_address_that_is_no_photo_of_ours_is_not_found(client, db):
    client.force_login(make_person())
    for name in ("../../secret_key", "f" * 64):
        path = f"/photos/{name}.jpg"
        assert client.get(path).status_code == 404
