"""The issues of a job's record: what the page says, and that the file is what was frozen."""

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs.entries import FAILING_NOW
from jobs.kept_bytes import place
from jobs.logbook import enter
from jobs.models import Entry, Job, Record
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.paper.frozen import exact_text, sha256
from jobs.paper.shelf import FOLDER, put_away
from tests.factories import make_job, make_person, make_told
from tests.jobs.records import record_data

pytestmark = pytest.mark.django_db


def make_record(
    job: Job, issue: int = 1, pdf: bytes = b"%PDF-1.7 of a test", **columns: Any
) -> Record:
    """An issue of this job, with its file on the shelf."""
    frozen = exact_text(record_data(lambda data: data["record"].update(issue=issue)))
    told = make_told(
        {"failing": "yes"}, make_person(OWNER, name=f"Q. Issuer {issue}"), job_key=job.key
    )
    enter(FAILING_NOW, told)
    entry = Entry.objects.get(key=told.key)
    first = {
        "entry": entry,
        "schema": 1,
        "data": frozen,
        "data_sha256": sha256(frozen),
        "pdf_sha256": put_away(pdf),
        "pdf_bytes": len(pdf),
        "changed": "First issue.",
        "issued_by": told.author,
        "frozen_at": timezone.now(),
    }
    record = Record.objects.create(job=job, issue=issue, **{**first, **columns})
    entry.result |= {"data_sha256": record.data_sha256, "pdf_sha256": record.pdf_sha256}
    entry.save()
    return record


@pytest.fixture
def client() -> Client:
    signed_in = Client()
    signed_in.force_login(make_person(DESK))
    return signed_in


def page(client: Client, job: Job, route: str = "record", **asked: Any) -> Any:
    return client.get(reverse(route), {"job": str(job.key), **asked})


def test_a_job_without_a_record_says_so(client: Client):
    assert "No record of this job was issued yet." in page(client, make_job()).content.decode()


def test_the_page_lists_the_issues_and_reads_the_newest(client: Client):
    job = make_job()
    make_record(job, 1)
    make_record(job, 2, b"%PDF-1.7 another", changed="Step 2 was added.")
    said = page(client, job).content.decode()
    assert "superseded by issue 2" in said
    assert "Step 2 was added." in said
    assert "Issue 2: " in said
    assert "Blows warm since last week." in said


def test_an_earlier_issue_can_still_be_read(client: Client):
    job = make_job()
    make_record(job, 1)
    make_record(job, 2, b"%PDF-1.7 another")
    assert "Issue 1: " in page(client, job, issue="1").content.decode()


def test_the_page_shows_both_hashes(client: Client):
    job = make_job()
    record = make_record(job)
    said = page(client, job).content.decode()
    assert record.data_sha256 in said
    assert record.pdf_sha256 in said


def test_the_paper_is_the_stored_bytes_shown_in_place(client: Client):
    job = make_job()
    make_record(job, pdf=b"%PDF-1.7 exactly this")
    response = page(client, job, "record_paper", issue="1")
    assert response.content == b"%PDF-1.7 exactly this"
    assert response["Content-Type"] == "application/pdf"
    assert response["X-Content-Type-Options"] == "nosniff"
    assert response["Content-Disposition"] == f'inline; filename="record-{job.number}-1.pdf"'


def test_each_issue_has_its_own_paper(client: Client):
    job = make_job()
    make_record(job, 1, b"%PDF-1.7 one")
    make_record(job, 2, b"%PDF-1.7 two")
    assert page(client, job, "record_paper", issue="1").content == b"%PDF-1.7 one"
    assert page(client, job, "record_paper", issue="2").content == b"%PDF-1.7 two"


def test_a_damaged_file_is_not_handed_out(client: Client):
    job = make_job()
    record = make_record(job)
    path = place(FOLDER, record.pdf_sha256, ".pdf")
    path.write_bytes(path.read_bytes().replace(b"test", b"tost"))
    response = page(client, job, "record_paper")
    assert response.status_code == 410
    assert "is damaged: its bytes are not those that were frozen" in response.content.decode()
    assert b"tost" not in response.content


def test_a_missing_file_is_said(client: Client):
    job = make_job()
    record = make_record(job, pdf=b"%PDF-1.7 that goes away")
    place(FOLDER, record.pdf_sha256, ".pdf").unlink()
    response = page(client, job, "record_paper")
    assert response.status_code == 410
    assert "is not on the shop server’s disk any more" in response.content.decode()


def test_a_file_that_cannot_be_read_is_said(client: Client):
    job = make_job()
    record = make_record(job, pdf=b"%PDF-1.7 that became a folder")
    path = place(FOLDER, record.pdf_sha256, ".pdf")
    path.unlink()
    path.mkdir()
    response = page(client, job, "record_paper")
    path.rmdir()
    assert response.status_code == 410
    assert "cannot be read" in response.content.decode()


def test_the_page_says_that_a_byte_on_disk_was_changed_before_anybody_opens_the_file(
    client: Client,
):
    job = make_job()
    record = make_record(job)
    path = place(FOLDER, record.pdf_sha256, ".pdf")
    assert "Open the PDF" in page(client, job).content.decode()
    path.write_bytes(path.read_bytes().replace(b"test", b"tesu"))
    said = page(client, job).content.decode()
    assert "is damaged: its bytes are not those that were frozen" in said
    assert "Open the PDF" not in said
    assert "Blows warm since last week." in said  # the data are as they were


COLD = exact_text(record_data(lambda data: data["said"].update(complaint="Blows cold.")))
CHANGES = {
    "the data": {"data": COLD},
    "the hash of the data": {"data_sha256": "0" * 64},
    "the data with their hash": {"data": COLD, "data_sha256": sha256(COLD)},
}


@pytest.mark.parametrize("what", CHANGES)
def test_data_are_not_shown_when_their_row_was_changed(client: Client, what: str):
    job = make_job()
    record = make_record(job)
    Record.objects.filter(pk=record.pk).update(**CHANGES[what])
    said = page(client, job).content.decode()
    assert "The frozen data of this issue are not as they were" in said
    assert "Blows" not in said
    assert "The paper has its own copy of them." in said  # the file is as it was
    assert "Open the PDF" in said


def test_where_file_and_data_were_changed_no_copy_is_promised(client: Client):
    job = make_job()
    record = make_record(job, pdf=b"%PDF-1.7 of a fire")
    place(FOLDER, record.pdf_sha256, ".pdf").write_bytes(b"%PDF-1.7 of a flood")
    Record.objects.filter(pk=record.pk).update(data=COLD)
    said = page(client, job).content.decode()
    assert "is damaged" in said
    assert "The frozen data of this issue are not as they were" in said
    assert "own copy" not in said


def test_another_file_put_in_the_place_of_the_frozen_one_is_not_handed_out(client: Client):
    job = make_job()
    record = make_record(job)
    other = put_away(b"%PDF-1.7 of somebody else")
    Record.objects.filter(pk=record.pk).update(pdf_sha256=other)
    response = page(client, job, "record_paper")
    assert response.status_code == 410
    assert "is not the one that the logbook has as frozen" in response.content.decode()


def test_markup_in_frozen_data_stays_a_text(client: Client):
    job = make_job()
    frozen = exact_text(
        record_data(lambda data: data["said"].update(complaint="<script>x()</script>"))
    )
    make_record(job, data=frozen, data_sha256=sha256(frozen))
    assert "&lt;script&gt;x()" in page(client, job).content.decode()


@pytest.mark.parametrize("asked", ["3", "0", "x", "1 or 1"])
def test_an_issue_that_is_not_there_is_not_found(client: Client, asked: str):
    job = make_job()
    make_record(job)
    assert page(client, job, "record_paper", issue=asked).status_code == 404


def test_a_job_without_a_record_has_no_paper(client: Client):
    assert page(client, make_job(), "record_paper").status_code == 404


@pytest.mark.parametrize("role", [TECHNICIAN, DESK, OWNER])
def test_everybody_who_signs_in_may_read_and_print(role: str):
    client, job = Client(), make_job()
    client.force_login(make_person(role))
    make_record(job)
    assert page(client, job).status_code == 200
    assert page(client, job, "record_paper").status_code == 200


@pytest.mark.parametrize("route", ["record", "record_paper"])
def test_nobody_reads_a_record_without_a_sign_in(route: str):
    job = make_job()
    make_record(job)
    response = page(Client(), job, route)
    assert response.status_code == 302
    assert reverse("sign_in") in response["Location"]


def test_a_file_lies_under_its_own_hash_with_no_draft_beside_it():
    digest = put_away(b"%PDF-1.7 where it lies")
    path = place(FOLDER, digest, ".pdf")
    assert sha256(path.read_bytes()) == digest
    assert list(path.parent.glob(".*")) == []


def test_a_damaged_file_is_written_anew_when_its_bytes_come_again():
    path = place(FOLDER, put_away(b"%PDF-1.7 twice"), ".pdf")
    path.write_bytes(b"%PDF-1.7 tvice")
    put_away(b"%PDF-1.7 twice")
    assert path.read_bytes() == b"%PDF-1.7 twice"
