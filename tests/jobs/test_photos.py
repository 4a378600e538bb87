"""The page of a job's photos, and their bytes."""

import hashlib
import io

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from PIL import Image

from diagnostics.entries import STEP
from jobs.entries import PHOTO
from jobs.kept_bytes import store
from jobs.logbook import enter
from jobs.models import Photo
from jobs.models.people import DESK
from tests.diagnostics.test_record_steps import COIL
from tests.factories import make_job, make_person, make_told
from tests.pictures import jpeg, sent


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


# By place, one by one, and small for lists.


def take(job, count=1, **fields):
    photos = [sent(jpeg(seed)) for seed in range(count)]
    outcome = enter(PHOTO, make_told(fields, job_key=job.key, photos=photos))
    assert outcome.stands
    return list(Photo.objects.filter(entry__key=outcome.key).order_by("number"))


@pytest.fixture
def desk(client, db, settings, tmp_path):
    settings.DATA = tmp_path
    client.force_login(make_person(DESK))
    return client


def page_of(client, job, **asked):
    response = client.get(reverse("photos"), {"job": str(job.key), **asked})
    return response.content.decode()


def test_photos_stand_under_their_place_with_who_when_what_and_step(desk):
    job = make_job()
    step = enter(STEP, make_told(COIL, job_key=job.key))
    (photo,) = take(job, place="clutch", about="leak", note="Oil.", step=str(step.key))
    page = page_of(desk, job)
    assert "<h2>Clutch and belt</h2>" in page
    assert "Where it leaks. Oil." in page
    assert "Step 1, Power straight at the coil" in page
    assert photo.entry.author.name in page


def test_the_drawing_counts_the_photos_at_each_place_and_links_to_them(desk):
    job = make_job()
    take(job, 3, place="condenser")
    page = " ".join(page_of(desk, job).split())
    assert f'href="/photos/?job={job.key}&amp;place=condenser"' in page
    assert 'nowrap">3<span class="unseen"> photos</span>' in page
    assert "place=drier" not in page


def test_a_place_that_was_tapped_shows_its_photos_only(desk):
    job = make_job()
    (fan,) = take(job, place="fan")
    (drier,) = take(job, place="drier")
    page = page_of(desk, job, place="fan")
    assert reverse("photos_view", args=[fan.entry.key, 1]) in page
    assert reverse("photos_view", args=[drier.entry.key, 1]) not in page


def test_those_not_filed_have_a_list_of_their_own(desk):
    job = make_job()
    take(job, place="fan")
    (loose,) = take(job)
    page = page_of(desk, job, place="none")
    assert reverse("photos_view", args=[loose.entry.key, 1]) in page
    assert page.count("<figure>") == 1


def test_the_list_shows_the_small_copy_and_one_photo_the_whole(desk):
    job = make_job()
    (photo,) = take(job, place="fan")
    small = reverse("photos_shown", args=[photo.small_sha256])
    whole = reverse("photos_shown", args=[photo.stored_sha256])
    page = page_of(desk, job)
    assert small in page
    assert whole not in page
    assert whole in desk.get(reverse("photos_view", args=[photo.entry.key, 1])).content.decode()
    shown = Image.open(io.BytesIO(b"".join(desk.get(small).streaming_content)))
    assert max(shown.size) == 320


def test_queries_do_not_grow_with_the_photos(desk, django_assert_max_num_queries):
    few, many = make_job(), make_job()
    take(few, place="fan")
    for place in ("fan", "drier", "clutch", ""):
        take(many, 5, place=place)
    with CaptureQueriesContext(connection) as first:
        page_of(desk, few)
    with django_assert_max_num_queries(len(first)):
        page_of(desk, many)


def test_one_photo_leads_to_the_one_before_and_the_next(desk):
    job = make_job()
    rows = take(job, 3, place="fan")
    page = desk.get(reverse("photos_view", args=[rows[1].entry.key, 2])).content.decode()
    for number in (1, 3):
        assert reverse("photos_view", args=[rows[0].entry.key, number]) in page
    assert "Photo 2 of 3" in page


def test_filing_anew_is_an_entry_and_what_stood_before_is_listed(desk):
    job = make_job()
    (photo,) = take(job, place="fan", about="before")
    address = reverse("photos_view", args=[photo.entry.key, 1])
    told = {"of": str(photo.entry.key), "number": "1", "place": "drier", "about": "after"}
    assert desk.post(address, told).status_code == 302
    page = " ".join(desk.get(address).content.decode().split())
    assert "Condenser fan. Before" in page
    assert "Drier or accumulator. After" in page
    assert Photo.objects.filter(filed_by__kind="photo_filed").count() == 1


def test_a_wrong_place_goes_back_with_its_words_kept(desk):
    (photo,) = take(make_job(), place="fan")
    address = reverse("photos_view", args=[photo.entry.key, 1])
    told = {"of": str(photo.entry.key), "number": "1", "place": "moon", "note": "Behind it."}
    response = desk.post(address, told)
    assert response.status_code == 422
    assert 'value="Behind it."' in response.content.decode()


def test_a_corrected_photo_says_so_and_is_listed_no_more(desk):
    job = make_job()
    (photo,) = take(job, place="fan")
    fields = {"place": "drier"}
    again = make_told(fields, job_key=job.key, corrects=photo.entry.key, photos=[sent(jpeg(9))])
    assert enter(PHOTO, again).stands
    assert reverse("photos_view", args=[photo.entry.key, 1]) not in page_of(desk, job)
    shown = desk.get(reverse("photos_view", args=[photo.entry.key, 1])).content.decode()
    assert "Another photo took its place since" in shown


def test_pictures_are_private_to_the_browser_and_never_guessed_at(desk):
    (photo,) = take(make_job(), place="fan")
    response = desk.get(reverse("photos_shown", args=[photo.stored_sha256]))
    assert response["Cache-Control"].startswith("private")
    assert response["X-Content-Type-Options"] == "nosniff"
    assert response["Content-Type"] == "image/jpeg"
    response.close()


def test_the_job_page_leads_to_taking_photos_and_to_those_there_are(desk):
    job = make_job()
    page = desk.get(reverse("job"), {"job": str(job.key)}).content.decode()
    assert f'href="/photo/?job={job.key}"' in page
    assert f'href="/photos/?job={job.key}"' in page
