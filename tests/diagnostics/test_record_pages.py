"""How many pages a record has, and that a long one still reads well; page 1 is the customer's."""

import functools
import io
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from diagnostics.record.build import Heading, record_data
from jobs.models import Shop
from jobs.models.people import DESK
from jobs.paper.frozen import exact_text, sha256
from jobs.paper.typeset import typeset
from tests.diagnostics.full_job import full_job, owner
from tests.factories import make_job, make_person, make_shop
from tests.jobs.records import (
    pages,
    paper_of,
    printed,
    squeezed,
    step_data,
)
from tests.jobs.records import (
    record_data as told_data,
)
from tests.jobs.test_record import make_record
from tests.pictures import jpeg

pytestmark = pytest.mark.django_db

LONG = {
    "latin": "Wolfeschlegelsteinhausenbergerdorff, Bartholomäus Featherstonehaugh-Höll the Third ",
    "cyrillic": "Константинопольская-Вознесенская, Прасковья Аполлинариевна ",
    "greek": "Παπαχριστοδουλοπούλου-Ασημακόπουλος Θεμιστοκλής ",
    "arabic": "عبد الرحمن بن محمد الكركي العجلوني ",
    "thai": "ศรีสุวรรณรัตนโกสินทร์ พงษ์พิพัฒน์ ",
    "chinese": "空调不制冷离合器不吸合",
}


@functools.cache
def built(paper: str = "a4") -> tuple[Any, bytes]:
    """The record of the whole job and its paper, built once for each size."""
    make_shop(paper=paper, address="14 Hollow Lane, Eastmere")
    Shop.objects.update(paper=paper)
    heading = Heading(1, owner(), timezone.now(), address="https://shop.example/job/?job=x")
    data = record_data(full_job().again, heading, None)
    return data, typeset(exact_text(data)).pdf


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_sixteen_tests_with_repair_amounts_and_consents_take_four_pages(paper: str):
    data, pdf = built(paper)
    assert len(data["steps"]) == 16
    assert len(pages(pdf)) == 4


def test_page_1_is_the_customer_s_and_the_parts_begin_on_the_next():
    first, second, *_ = pages(built()[1])
    for words in ("What you told us", "What we found", "What we did", "What remains"):
        assert words in first
    assert "What you could choose from" in first
    assert "1 Car, system, arrival" not in first
    assert "1 Car, system, arrival" in second


def lengthen(text: str) -> Any:
    """Everything that somebody writes, made long."""

    def change(data: Any) -> None:
        data["said"]["complaint"] = text * 60
        page = data["customer"]
        page["found"] = [{**page["found"][0], "text": text * 20}] * 3
        page["did"] = [text * 3] * 30
        page["remains"] = [text * 3] * 6
        way = {"plan": "x", "text": text, "amount": "514.00 USD", "total": 51400, "mark": ""}
        decided: dict[str, Any] = {
            "text": text,
            "plan": "x",
            "decider": "customer",
            "who": text,
            "why": text,
        }
        decided |= {"ways": [{**way, "chosen": not at, "leaves": [text * 3]} for at in range(9)]}
        decided |= {"rested_on": [], "reasons": [], "entries": 3, "counts": True, "by": "R. Sand"}
        data["decisions"] = [decided]
        data["facts"][0]["lines"] = [text, *([text] * 5)]
        data["people"][0]["name"] = text
        data["consents"][0]["given_by"] = text

    return change


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("script", LONG)
def test_however_long_what_was_written_is_page_1_stays_one_page(script: str, paper: str):
    data: Any = told_data(lengthen(LONG[script]))
    data["record"]["paper"] = paper
    first, second, *_ = pages(paper_of(data).pdf)
    assert "What remains" in first
    assert "1 Car, system, arrival" in second
    assert "page 1 of" in first


def test_what_is_cut_on_page_1_stands_whole_behind_it():
    text = " ".join(f"word{number}" for number in range(900))
    found = pages(paper_of(told_data(lambda data: data["said"].update(complaint=text))).pdf)
    assert squeezed("(whole in part 1)") in squeezed(found[0])
    assert "word899" not in found[0]
    assert squeezed("word898 word899") in squeezed("".join(found[1:]))


def test_what_was_found_is_cut_between_sentences_and_its_conclusion_stays_whole():
    read = "".join(f"Reading {number} of 0.80 mm was taken here. " for number in range(60))
    ends = "We conclude: Tightness: leaks at a place that can be searched, shown by test."

    def found(data: Any) -> None:
        first = data["customer"]["found"][0]
        data["customer"]["found"] = [{**first, "text": read + ends}]

    first, *_ = pages(paper_of(told_data(found)).pdf)
    assert squeezed(ends) in squeezed(first)
    assert squeezed("mm was taken here. … (whole in part 2) We conclude") in squeezed(first)


def test_a_change_that_was_corrected_stands_once_in_part_5_and_short_with_the_states():
    def twice(data: Any) -> None:
        told = data["states"][1]["told"]
        one = {**told[-1], "text": "Compressor: fitted; with it drier", "lines": ["Number: K-30"]}
        seller = {"lines": ["Number: K-30", "Bought from: Corley"], "corrected": "at noon"}
        data["states"][1]["told"] = [{**one, "counts": False}, {**one, "counts": True, **seller}]

    text = squeezed(printed(paper_of(told_data(twice)).pdf))
    assert text.count(squeezed("Number: K-30")) == 1
    assert squeezed("as it stands, with less of it, corrected by a later entry") in text
    assert squeezed("corrected at noon") in text


def test_a_way_that_does_not_fit_on_page_1_stands_in_part_4():
    found = pages(paper_of(told_data(lengthen(LONG["latin"]))).pdf)
    assert squeezed("Further ways, in part 4: ") in squeezed(found[0])
    assert squeezed("Offered then, too:") in squeezed("".join(found[1:]))


def many_photos(count: int, monkeypatch: pytest.MonkeyPatch, folder: Path) -> list[Any]:
    """Photos as frozen, with a picture of theirs in the folder of the kept ones."""
    for number in range(1, count + 1):
        (folder / f"{number:064x}").write_bytes(jpeg(number))
    monkeypatch.setattr("jobs.paper.pictures.place", lambda _, digest, __: folder / digest)
    first = {
        "of": "step 1", "entry": "x", "step": 1, "personal": False, "place": "compressor",
        "place_text": "Compressor", "about": "leak", "about_text": "Where it leaks", "why": "",
        "by": "R. Sand", "at": "2026-08-25T14:29:00-04:00", "when": "25 Aug 2026, 14:29",
    }  # fmt: skip
    return [
        first | {"number": number, "sha256": f"{number:064x}", "shown": f"{number:064x}"}
        for number in range(1, count + 1)
    ]


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_sixty_tests_and_forty_photos_still_read_well(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, paper: str
):
    def much(data: Any) -> None:
        data["steps"] = [step_data(number + 1) for number in range(60)]
        data["photos"] = many_photos(40, monkeypatch, tmp_path)
        data["record"]["paper"] = paper

    pdf = paper_of(told_data(much)).pdf
    found = pages(pdf)
    with_steps = [text for text in found if "Power straight at the coil" in text]
    assert all("Test: result; readings" in text for text in with_steps[:-1])  # heads on every page
    with pikepdf.open(io.BytesIO(pdf)) as file:
        counts = [len(page.get_images()) for page in file.pages]
    first, *others, last = [count for count in counts if count]
    assert (first + sum(others) + last, {*others}) == (40, {6})
    assert 0 < first <= 6
    assert 0 < last <= 6
    assert squeezed("End of record 26-0001, issue 1") in squeezed(found[-1])
    assert counts[-1] > 0  # never a lone end mark
    assert len(found) <= 16


def test_no_page_is_next_to_empty():
    """A heading or a mark alone on a page was left over by what stands before it."""
    with pypdfium2.PdfDocument(built()[1]) as document:
        for page in document:
            assert len(page.get_textpage().get_text_range()) > 600


def test_nothing_condemns_or_tells_a_chance():
    found = printed(built()[1]).lower()
    for word in ("%", "defective", "leak-free", "leakfree"):
        assert word not in found


def test_a_job_without_amounts_says_so_and_draws_nothing():
    make_shop()
    data = record_data(make_job(), Heading(1, owner(), timezone.now()), None)
    assert (data["amounts"]["rows"], data["amounts"]["works"]) == ([], [])
    found = printed(typeset(exact_text(data)).pdf)
    assert squeezed("No refrigerant was moved in this job, as far as is noted.") in found
    assert squeezed("No oil is noted that came out or went in.") in found


# ---- the customer's page alone -----------------------------------------------------------------


def alone(job: Any, **asked: Any) -> Any:
    client = Client()
    client.force_login(make_person(DESK))
    return client.get(reverse("record_customer"), {"job": str(job.key), **asked})


def test_the_customer_s_page_alone_is_one_page_and_bears_the_hash_of_its_data():
    data, _ = built()
    frozen = exact_text(data)
    pdf = typeset(frozen, part="customer").pdf
    (page,) = pages(pdf)
    assert squeezed(sha256(frozen)) in squeezed(page)
    assert squeezed(f"Customer’s page of record {data['record']['number']}, issue 1") in squeezed(
        page
    )
    with pikepdf.open(io.BytesIO(pdf)) as file:
        assert not file.attachments
        assert file.Root.MarkInfo.Marked


def test_the_page_s_button_gives_it():
    job = make_job()
    make_record(job, schema=2)
    response = alone(job)
    assert response["Content-Type"] == "application/pdf"
    assert len(pages(response.content)) == 1


def test_who_prints_while_it_is_amended_prints_the_issue_that_was_asked_for():
    job = make_job()
    make_record(job, 1, schema=2)
    before = alone(job, issue="1").content
    make_record(job, 2, b"%PDF-1.7 two", schema=2)
    assert alone(job, issue="1").content == before
    (page,) = pages(alone(job).content)
    assert squeezed("issue 2") in squeezed(page)


def test_an_issue_of_before_there_was_such_a_page_says_so():
    job = make_job()
    make_record(job, schema=1)
    response = alone(job)
    assert response.status_code == 503
    assert "before records had a page for the customer" in response.content.decode()


def test_a_job_without_a_record_has_none():
    assert alone(make_job()).status_code == 404
