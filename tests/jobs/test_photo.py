"""Taking photos: the form, the entry, its rows; what is too much or wrong loses nothing."""

import uuid

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from diagnostics.entries import STEP
from jobs.entries import PHOTO, PHOTO_FILED
from jobs.logbook import AGAIN, RETURNED, enter
from jobs.models import Entry, Photo
from tests.diagnostics.test_record_steps import COIL
from tests.factories import make_job, make_person, make_told
from tests.pictures import jpeg, sent

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    settings.DATA = tmp_path


def take(job, *files, told=None, **fields):
    listed = [sent(data) for data in files]
    return enter(PHOTO, make_told(fields, job_key=job.key, photos=listed, **(told or {})))


def posted(client, job, *files, **fields):
    chosen = [SimpleUploadedFile(f"{at}.jpg", data, "image/jpeg") for at, data in enumerate(files)]
    address = f"{reverse('photo')}?job={job.key}"
    return client.post(address, {**fields, "photo": chosen})


def test_nobody_takes_photos_without_a_sign_in(client):
    assert client.get(reverse("photo")).status_code == 302


def test_several_photos_of_one_entry_are_filed_at_one_place_with_one_word():
    job = make_job()
    outcome = take(job, jpeg(1), jpeg(2), place="condenser", about="damage", note="Stone, left.")
    assert outcome.stands
    rows = Photo.objects.order_by("number")
    assert [(one.number, one.place, one.about, one.note) for one in rows] == [
        (1, "condenser", "damage", "Stone, left."),
        (2, "condenser", "damage", "Stone, left."),
    ]
    assert outcome.result["url"] == f"{reverse('photos')}?job={job.key}"


def test_the_same_entry_sent_twice_is_one(client):
    job, key = make_job(), uuid.uuid4()
    author = make_person()
    for state in ("accepted", AGAIN):
        told = make_told({"place": "fan"}, author, key=key, job_key=job.key, photos=[sent(jpeg())])
        assert enter(PHOTO, told).state == state
    assert Photo.objects.count() == 1


def test_place_and_word_may_wait():
    assert take(make_job(), jpeg()).stands
    photo = Photo.objects.get()
    assert (photo.place, photo.about_words) == ("", "")
    assert photo.place_words == "Not filed at a place"


def test_without_a_photo_it_goes_back_to_its_form():
    outcome = take(make_job(), place="fan")
    assert outcome.state == RETURNED
    assert "no photo in it yet" in str(outcome.form.errors["photo"])


def test_a_place_that_is_none_is_said_at_its_field():
    outcome = take(make_job(), jpeg(), place="moon")
    assert outcome.state == RETURNED
    assert list(outcome.form.errors) == ["place"]


def test_a_photo_can_tell_of_a_test_of_this_job_and_of_no_other():
    job, other = make_job(), make_job()
    step = enter(STEP, make_told(COIL, job_key=job.key))
    assert take(job, jpeg(), step=str(step.key)).stands
    assert Photo.objects.get().step_of == step.key
    for told in (str(step.key), "x"):
        outcome = take(other, jpeg(), step=told)
        assert outcome.form
        assert list(outcome.form.errors) == ["step"]


def test_a_correction_with_photos_takes_the_place_of_the_earlier_ones():
    job = make_job()
    first = take(job, jpeg(1), place="fan")
    second = take(job, jpeg(2), place="condenser", told={"corrects": first.key})
    assert second.stands
    old, new = Photo.objects.order_by("id")
    assert old.superseded_by
    assert old.superseded_by.key == second.key
    assert (old.place, new.place, new.superseded_by) == ("fan", "condenser", None)


def test_a_correction_without_photos_files_the_earlier_ones_anew():
    job = make_job()
    first = take(job, jpeg(1), jpeg(2), place="fan")
    assert take(job, place="condenser", told={"corrects": first.key}).stands
    assert [one.place for one in Photo.objects.all()] == ["condenser", "condenser"]


def test_a_photo_filed_anew_keeps_what_came_before_in_the_logbook():
    job = make_job()
    first = take(job, jpeg(1), jpeg(2), place="fan", about="before")
    told = {"of": str(first.key), "number": "2", "place": "clutch", "about": "after"}
    assert enter(PHOTO_FILED, make_told(told, job_key=job.key)).stands
    assert [one.place for one in Photo.objects.order_by("number")] == ["fan", "clutch"]
    assert Entry.objects.get(key=first.key).fields["place"] == ["fan"]


def test_what_was_filed_later_stands_whichever_arrives_first():
    job = make_job()
    first = take(job, jpeg(), place="fan")
    late = make_told({"of": str(first.key), "number": "1", "place": "drier"}, job_key=job.key)
    early = make_told({"of": str(first.key), "number": "1", "place": "clutch"}, job_key=job.key)
    assert enter(PHOTO_FILED, early).stands
    assert enter(PHOTO_FILED, late).stands  # typed before, arrived after
    assert Photo.objects.get().place == "clutch"


def test_a_photo_of_another_job_is_not_filed_here():
    job, other = make_job(), make_job()
    first = take(job, jpeg(), place="fan")
    told = {"of": str(first.key), "number": "1", "place": "clutch"}
    outcome = enter(PHOTO_FILED, make_told(told, job_key=other.key))
    assert outcome.form
    assert "no such photo" in str(outcome.form.errors)


def test_the_page_posts_without_a_script_and_goes_on_to_the_photos(client):
    job = make_job()
    client.force_login(make_person())
    response = posted(client, job, jpeg(1), jpeg(2), place="fan", about="before")
    assert response.status_code == 302
    assert response.url == f"{reverse('photos')}?job={job.key}"
    assert Photo.objects.count() == 2


@pytest.mark.parametrize("much", ["many", "large"])
def test_too_much_is_said_at_the_field_and_what_was_tapped_stays(client, settings, much):
    settings.PHOTOS_PER_ENTRY_MAX, settings.PHOTO_BYTES_MAX = (
        (1, 10**6) if much == "many" else (9, 9)
    )
    client.force_login(make_person())
    response = posted(client, make_job(), jpeg(1), jpeg(2), place="clutch", note="Oil.")
    page = response.content.decode()
    assert response.status_code == 422
    assert ("one entry takes 1" if much == "many" else "over 0 MB") in page
    assert 'value="clutch" id="id_place_clutch" checked' in page
    assert 'value="Oil."' in page
    assert not Photo.objects.exists()


def test_the_neutral_page_has_every_place_and_no_car(client):
    client.force_login(make_person())
    page = client.get(reverse("photo")).content.decode()
    for code in ("rear", "battery", "high_voltage", "clutch"):
        assert f'id="id_place_{code}"' in page


def test_a_link_may_name_the_place(client):
    client.force_login(make_person())
    page = client.get(reverse("photo"), {"job": str(make_job().key), "place": "drier"})
    assert 'id="id_place_drier" checked' in page.content.decode()
