"""The photos of a record: put on paper from the kept bytes, six a page, at its end."""

import io

import pikepdf
import pytest
from PIL import Image

from diagnostics.entries import STEP
from jobs.entries import PHOTO
from jobs.kept_bytes import place
from jobs.logbook import enter
from jobs.models import Photo
from jobs.paper.frozen import exact_text
from jobs.paper.typeset import typeset
from tests.diagnostics.test_record_steps import COIL, data_of
from tests.factories import make_job, make_told
from tests.jobs.records import pages, printed, squeezed
from tests.pictures import jpeg, noisy, sent

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    settings.DATA = tmp_path


def take(job, *files, **fields):
    photos = [sent(data) for data in files]
    told = {"place": "compressor", "about": "leak", "note": "Oil at the hub.", **fields}
    outcome = enter(PHOTO, make_told(told, job_key=job.key, photos=photos))
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome


def pictures_on(pdf: bytes) -> list[int]:
    """How many pictures each page shows."""
    with pikepdf.open(io.BytesIO(pdf)) as file:
        return [len(page.get_images()) for page in file.pages]


def test_seven_photos_are_put_six_on_a_page_and_one_on_the_next():
    job = make_job()
    take(job, *[jpeg(number) for number in range(7)])
    pdf = typeset(exact_text(data_of(job))).pdf
    assert [count for count in pictures_on(pdf) if count] == [6, 1]


def test_a_photo_stands_with_place_word_step_person_time_and_the_start_of_its_hash():
    job = make_job()
    step = enter(STEP, make_told(COIL, job_key=job.key))
    take(job, jpeg(), step=str(step.key))
    data = data_of(job)
    (photo,) = data["photos"]
    page = next(text for text in pages(typeset(exact_text(data)).pdf) if "Oil at the hub" in text)
    for words in ("1 Compressor: Where it leaks. Oil at the hub., step 1", photo["sha256"][:12]):
        assert squeezed(words) in squeezed(page)
    assert squeezed(f"{photo['by']}, {photo['when']}") in squeezed(page)


def test_a_photo_of_a_person_is_left_out_and_the_paper_says_so():
    job = make_job()
    take(job, jpeg(), personal="on")
    data = data_of(job)
    assert data["photos"][0]["shown"] == ""
    pdf = typeset(exact_text(data)).pdf
    assert sum(pictures_on(pdf)) == 0
    assert squeezed("left out: it shows a person or something private") in printed(pdf)


def test_a_photo_whose_file_is_gone_is_named_and_stops_nothing():
    job = make_job()
    take(job, jpeg(1), jpeg(2))
    photo = Photo.objects.get(number=1)
    place("photos", photo.stored_sha256, ".jpg").unlink()
    pdf = typeset(exact_text(data_of(job))).pdf
    assert sum(pictures_on(pdf)) == 1
    assert squeezed("its file is not on the shop server’s disk any more") in printed(pdf)


def test_a_large_photo_is_made_smaller_for_the_paper():
    job = make_job()
    take(job, noisy(2400, 1800))
    with pikepdf.open(io.BytesIO(typeset(exact_text(data_of(job))).pdf)) as file:
        (image,) = [one for page in file.pages for one in page.get_images().values()]
        shown = pikepdf.PdfImage(image).as_pil_image()  # type: ignore[arg-type]
    assert max(shown.size) == 1000
    assert isinstance(shown, Image.Image)


def test_the_same_frozen_data_make_the_same_file():
    job = make_job()
    take(job, jpeg(1), jpeg(2))
    frozen = exact_text(data_of(job))
    assert typeset(frozen).pdf == typeset(frozen).pdf


def test_beyond_so_many_they_are_listed_only(monkeypatch):
    monkeypatch.setattr("jobs.paper.pictures.MOST", 2)
    monkeypatch.setattr("jobs.paper.pictures.TOO_MANY", "listed only")
    job = make_job()
    take(job, jpeg(1), jpeg(2), jpeg(3))
    pdf = typeset(exact_text(data_of(job))).pdf
    assert sum(pictures_on(pdf)) == 2
    assert squeezed("; listed only") in printed(pdf)
