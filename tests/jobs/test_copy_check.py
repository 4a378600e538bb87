"""A copy that somebody brings: what page and command say of it, and what they never say."""

import json
import re
import zlib
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs.forms import copy_check as form_module
from jobs.kept_bytes import place
from jobs.models import Job, Record
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.paper import attached
from jobs.paper.copies import check_file, check_hash
from jobs.paper.frozen import exact_text, sha256
from jobs.paper.shelf import FOLDER
from jobs.paper.typeset import typeset
from tests.factories import make_job, make_person
from tests.jobs.records import record_data
from tests.jobs.test_record import make_record

pytestmark = pytest.mark.django_db


def issued(job: Job, issue: int = 1, **told: Any) -> tuple[Record, bytes]:
    """An issue with the paper that is really set of its data."""
    data = record_data(
        lambda data: (
            data["record"].update(number=job.number, issue=issue, job=str(job.key)),
            data["said"].update(told),
        )
    )
    frozen = exact_text(data)
    pdf = typeset(frozen).pdf
    row = make_record(job, issue, pdf, data=frozen, data_sha256=sha256(frozen))
    return row, pdf


@pytest.fixture
def job() -> Job:
    return make_job()


def holding(content: bytes, head: bytes = b"/Filter/FlateDecode") -> bytes:
    """A file made by hand with one thing attached."""
    packed = zlib.compress(content) if b"Flate" in head else content
    length = f"/Length {len(packed)}".encode()
    told = b"<<" + length + b"/Type/EmbeddedFile" + head + b">>"
    return b"%PDF-1.7\n1 0 obj\n" + told + b"\nstream\n" + packed + b"\nendstream\nendobj\n%%EOF"


def test_the_file_as_issued_is_unchanged_and_names_its_issue(job: Job):
    _, pdf = issued(job)
    said = check_file(pdf)
    assert said.head == "Unchanged"
    assert said.words[0].startswith(f"This file is issue 1 of record {job.number}, byte for byte")
    assert "No later issue supersedes it." in said.words


def test_the_data_attached_to_it_are_held_to_their_hash(job: Job):
    row, pdf = issued(job)
    assert f"The data attached to it have the SHA-256 {row.data_sha256}" in " ".join(
        check_file(pdf).words
    )


def test_an_earlier_issue_names_the_one_that_supersedes_it(job: Job):
    _, pdf = issued(job)
    make_record(job, 2, b"%PDF-1.7 two")
    make_record(job, 3, b"%PDF-1.7 three")
    assert "Superseded: issue 3, frozen " in " ".join(check_file(pdf).words)


def test_one_changed_byte_of_the_print_is_told_and_the_data_are_told_apart_from_it(job: Job):
    _, pdf = issued(job)
    said = check_file(pdf + b"\n")
    assert said.head == "The data are unchanged, the file is not"
    assert "bytes do not tell which" in " ".join(said.words)


def test_a_copy_with_another_reading_is_altered_and_the_part_is_named(job: Job):
    row, _ = issued(job)
    data = json.loads(row.data)
    data["steps"][0]["readings"][0]["text"] = "13.38 V"
    said = check_file(holding(exact_text(data).encode()))
    assert (said.head, said.issue) == ("Altered", row)
    assert "They differ in: the findings." in said.words


def test_a_copy_whose_data_were_only_written_anew_is_altered_and_says_so(job: Job):
    row, _ = issued(job)
    said = check_file(holding(json.dumps(json.loads(row.data)).encode()))
    assert said.head == "Altered"
    assert "They say the same in other signs: the text was written anew." in said.words


def test_a_part_that_no_record_has_is_an_alteration_too(job: Job):
    row, _ = issued(job)
    data = json.loads(row.data) | {"thanks": "none"}
    assert "parts that no record has" in " ".join(
        check_file(holding(json.dumps(data).encode())).words
    )


@pytest.mark.parametrize(
    "heading",
    [
        {"job": "00000000-0000-4000-8000-00000000ffff", "issue": 1},
        {"job": "no key", "issue": 1},
        {"issue": True},
        {"job": ["x"], "issue": 10**30},
    ],
)
def test_data_of_an_issue_that_nobody_froze_here_are_not_ours(job: Job, heading: dict[str, Any]):
    row, _ = issued(job)
    data = json.loads(row.data)
    data["record"] |= heading
    assert check_file(holding(json.dumps(data).encode())).head == "Not a file that we issued"


@pytest.mark.parametrize(
    "file",
    [
        b"%PDF-1.7 nothing in it",
        holding(b"no json"),
        holding(b"[1]"),
        holding(b'{"record": 1}'),
        holding(b"[" * 100_000),
        holding(b"x", b"/Filter/FlateDecode/DecodeParms<</Predictor 12>>"),
        holding(b"x", b"/Filter/LZWDecode"),
        b"%PDF-1.7\n1 0 obj\n<</Type/EmbeddedFile/Filter/FlateDecode>>\nstream\nnot deflated",
        b"%PDF-1.7\n<</Type/EmbeddedFile" + b" " * 5000 + b">>stream\nx",
    ],
)
def test_a_file_in_which_nothing_can_be_read_is_not_ours_and_harms_nobody(file: bytes):
    assert check_file(file).head == "Not a file that we issued"


def test_what_unpacks_to_more_than_any_record_is_not_read(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(attached, "DATA_BYTES_MAX", 1000)
    assert list(attached.attached(holding(b"x" * 2000))) == []
    assert list(attached.attached(holding(b"x" * 900))) == [b"x" * 900]


def test_what_is_attached_without_packing_is_read_by_its_length():
    assert list(attached.attached(holding(b"ends: endstream, no", b""))) == [b"ends: endstream, no"]


@pytest.mark.parametrize("column", ["pdf_sha256", "data_sha256"])
def test_either_hash_names_the_issue(job: Job, column: str):
    row, _ = issued(job)
    said = check_hash(getattr(row, column))
    assert (said.code, said.issue) == ("hash", row)


def test_a_hash_alone_vouches_for_no_paper(job: Job):
    row, _ = issued(job)
    assert "A hash alone does not say that the rest of the paper is as it was" in " ".join(
        check_hash(row.data_sha256).words
    )


def test_a_hash_that_is_none_of_ours_says_so():
    assert check_hash("0" * 64).code == "not_ours"


def test_where_the_row_was_changed_the_logbook_still_knows_the_copy(job: Job):
    row, pdf = issued(job)
    Record.objects.filter(pk=row.pk).update(pdf_sha256="0" * 64, data_sha256="1" * 64)
    said = check_file(pdf)
    assert said.code == "unchanged"
    assert "as frozen; the shop’s own row of them is not" in " ".join(said.words)


def test_a_good_copy_is_worth_keeping_where_the_shop_s_own_file_is_damaged(job: Job):
    row, pdf = issued(job)
    place(FOLDER, row.pdf_sha256, ".pdf").write_bytes(b"%PDF- burnt")
    assert "Keep this copy: it is as it was frozen." in " ".join(check_file(pdf).words)


def test_what_differs_cannot_be_told_where_the_shop_s_own_data_are_not_as_frozen(job: Job):
    row, _ = issued(job)
    data = json.loads(row.data)
    data["said"]["complaint"] = "Blows cold."
    Record.objects.filter(pk=row.pk).update(data="{}")
    assert "cannot be told any more" in " ".join(
        check_file(holding(json.dumps(data).encode())).words
    )


def test_a_copy_of_an_issue_that_was_let_go_is_still_known_by_its_hash(job: Job):
    row, pdf = issued(job)
    Record.objects.filter(pk=row.pk).update(data="", let_go_at=timezone.now())
    said = " ".join(check_file(pdf).words)
    assert "The shop’s own file of it was taken out on" in said
    assert "Keep this copy" not in said


# ---- the page ------------------------------------------------------------------------------------


def browser(role: str = DESK) -> Client:
    client = Client()
    client.force_login(make_person(role))
    return client


def post(client: Client, **told: Any) -> Any:
    return client.post(reverse("copy_check"), told)


def file(content: bytes, name: str = "copy.pdf") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, content, content_type="application/pdf")


@pytest.mark.parametrize("role", [TECHNICIAN, DESK, OWNER])
def test_anybody_who_works_here_may_check_a_copy(job: Job, role: str):
    _, pdf = issued(job)
    said = post(browser(role), copy=file(pdf)).content.decode()
    assert "byte for byte as it was frozen" in said
    assert "Open issue 1 of record" in said


def test_nobody_checks_one_without_a_sign_in(job: Job):
    _, pdf = issued(job)
    said = post(Client(), copy=file(pdf)).content.decode()
    assert job.number not in said


def test_the_answer_names_no_person_no_car_and_nothing_of_the_file(job: Job):
    row, pdf = issued(job)
    for told in ({"copy": file(pdf)}, {"copy": file(pdf + b"x")}, {"digits": row.data_sha256}):
        said = post(browser(), **told).content.decode()
        for private in ("Marwell", "KX.4731D", "XZ9BR1L67HT004182", "555 010", "Blows warm"):
            assert private not in said


def test_a_hash_is_taken_with_gaps_and_capitals_as_it_is_printed(job: Job):
    row, _ = issued(job)
    printed = " ".join(re.findall(".{8}", row.data_sha256.upper()))
    assert "A hash of an issue" in post(browser(), digits=printed).content.decode()


@pytest.mark.parametrize(
    ("told", "sentence"),
    [
        ({}, "Choose a file, or type a hash."),
        ({"digits": "abc"}, "A hash has 64 digits; 3 are typed."),
        ({"digits": "x" * 64}, "“x” is none of them"),
        ({"copy": b""}, "There is nothing in this file."),
        ({"copy": b"GIF89a"}, "That is no PDF."),
        ({"copy": b"%PDF-1.7", "digits": "0" * 64}, "Check one at a time"),
    ],
)
def test_what_cannot_be_checked_comes_back_with_the_sentence_why(
    told: dict[str, Any], sentence: str
):
    if "copy" in told:
        told = told | {"copy": file(told["copy"])}
    response = post(browser(), **told)
    assert response.status_code == 422
    assert sentence in response.content.decode()


def test_a_file_that_is_larger_than_any_record_is_not_read(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(form_module, "FILE_BYTES_MAX", 10)
    response = post(browser(), copy=file(b"%PDF-1.7 and more"))
    assert response.status_code == 422
    assert "larger than any record" in response.content.decode()


def test_the_record_s_page_leads_there(job: Job):
    said = browser().get(reverse("record"), {"job": str(job.key)}).content.decode()
    assert reverse("copy_check") in said


# ---- the command ---------------------------------------------------------------------------------


def test_the_command_tells_of_an_unchanged_copy(
    job: Job, tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    _, pdf = issued(job)
    path = tmp_path / "copy.pdf"
    path.write_bytes(pdf)
    call_command("copy_check", str(path))
    assert capsys.readouterr().out.startswith("Unchanged.\nThis file is issue 1 of record")


def test_the_command_ends_with_one_for_a_copy_that_is_not_as_issued(job: Job, tmp_path: Path):
    _, pdf = issued(job)
    path = tmp_path / "copy.pdf"
    path.write_bytes(pdf + b"x")
    with pytest.raises(CommandError) as ended:
        call_command("copy_check", str(path))
    assert ended.value.returncode == 1


def test_the_command_takes_a_hash(job: Job, capsys: pytest.CaptureFixture[str]):
    row, _ = issued(job)
    call_command("copy_check", hash=row.pdf_sha256)
    assert capsys.readouterr().out.startswith("A hash of an issue.")


@pytest.mark.parametrize("told", [{"file": "nowhere.pdf"}, {}, {"hash": "12"}, {"file": __file__}])
def test_the_command_says_what_it_cannot_check(told: dict[str, str]):
    with pytest.raises(CommandError) as ended:
        call_command("copy_check", **told)
    assert ended.value.returncode == 2
