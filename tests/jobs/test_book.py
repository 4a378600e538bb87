"""The refrigerant book: lines, sums by month and year, filters, the table for a spreadsheet."""

import csv
import io
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs.actions.amounts import book
from jobs.entries import RECOVERY
from jobs.models import Entry, Move
from jobs.models.book import cell, months_and_years
from jobs.models.people import DESK, TECHNICIAN
from jobs.told import Moved
from tests.factories import make_job, make_person, tell
from tests.jobs.cylinders import buy, make_cylinder, stood

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk() -> Client:
    browser = Client()
    browser.force_login(make_person(DESK))
    return browser


def months(year):
    return months_and_years(year, year, year)[0]


def years(first, last):
    return months_and_years(last, first, last)[1]


def booked(at, *moved, job=None):
    """Moves as of a moment."""
    entry = make_job().entry if job is None else job.entry
    entry.happened_at = entry.done_at = at
    book(Entry(**{f.attname: getattr(entry, f.attname) for f in Entry._meta.fields}), job, moved)


def bought(cylinder, mg, at, gas="R-134a"):
    booked(at, Moved("refrigerant", mg, "supplier", "cylinder", gas, None, cylinder.key))


def test_a_month_begins_at_midnight_in_the_shops_zone():
    one = make_cylinder()
    with timezone.override(ZoneInfo("America/Chicago")):
        bought(one, 1_000, datetime(2026, 3, 1, 5, 59, tzinfo=UTC))  # 28 Feb, 23:59
        bought(one, 2_000, datetime(2026, 3, 1, 6, 0, tzinfo=UTC))
        told = {span.since.month: span.sums for span in months(2026)}
        assert told[2]["R-134a"].bought == 1_000
        assert (told[3]["R-134a"].bought, told[3]["R-134a"].stock) == (2_000, 3_000)
        assert 12 not in told or timezone.localdate() >= date(2026, 12, 1)
        assert "R-134a" not in told[1]


def test_a_year_is_the_sum_of_its_months_and_carries_its_stock_on():
    one, at = make_cylinder(), datetime(2025, 12, 31, 12, tzinfo=UTC)
    bought(one, 5_000, at)
    job = make_job()
    booked(
        datetime(2026, 6, 1, tzinfo=UTC),
        Moved("refrigerant", 400, "car", "cylinder", "R-134a", None, one.key),
        Moved("refrigerant", 650, "cylinder", "car", "R-134a", one.key),
        Moved("refrigerant", 1_000, "cylinder", "reclaim", "R-134a", one.key),
        Moved("refrigerant", 20, "cylinder", "unexplained", "R-134a", one.key),
        Moved("refrigerant", 9, "cylinder", "lost", "R-134a", one.key),
        Moved("refrigerant", 30, "cylinder", "hose", "R-134a", one.key),
        Moved("oil", 99, "stock", "car", "PAG 46"),
        job=job,
    )
    first, second = years(2025, 2026)
    assert first.sums["R-134a"].stock == 5_000
    told = second.sums["R-134a"]
    assert (told.recovered, told.charged, told.reclaimed) == (400, 650, 1_000)
    assert (told.unexplained, told.lost, told.hoses) == (-20, 9, 30)
    assert told.stock == 5_000 + 400 - 650 - 1_000 - 20 - 9 - 30


def test_what_was_taken_back_counts_in_no_sum_and_shows_when_asked_for(desk):
    one = make_cylinder()
    first = stood(buy(one, "5 kg"))
    stood(buy(one, "4 kg", corrects=first.key))
    this = timezone.localdate()
    assert months(this.year)[this.month - 1].sums["R-134a"].bought == 4_000_000
    assert "1 line," in desk.get(reverse("book")).content.decode()
    shown = desk.get(reverse("book"), {"taken_back": "on"}).content.decode()
    assert "3 lines" in shown
    assert "Taken back since." in shown


def test_the_book_is_narrowed_by_cylinder_job_person_sort_and_days(desk):
    one, two = make_cylinder(), make_cylinder()
    job = make_job()
    stood(buy(one, "5 kg"))
    fields = {"grams_out": "410 g", "gas": "label", "is_done": "done"}
    outcome = stood(tell(RECOVERY, job, cylinder=two.key.hex, **fields))
    person = Entry.objects.get(key=outcome.key).author

    def lines(**asked):
        return desk.get(reverse("book"), asked).context["count"]

    assert lines() == 2
    assert lines(cylinder=two.key.hex) == 1
    assert lines(job=job.number) == 1
    assert lines(person=person.key.hex) == 1
    assert lines(sort="bought") == 1
    assert lines(gas="R-12") == 0
    assert lines(until="2020-01-01") == 0
    assert lines(since=timezone.localdate().isoformat()) == 2


def test_what_cannot_be_read_of_a_question_narrows_nothing_and_is_said(desk):
    answer = desk.get(reverse("book"), {"job": "99-9999", "since": "soon", "from": "x"})
    assert answer.status_code == 200
    assert "No job has this number." in answer.content.decode()


def test_fifty_lines_a_page_at_a_fixed_number_of_queries(desk, django_assert_max_num_queries):
    one, job = make_cylinder(), make_job()
    moved = Moved("refrigerant", 1_000, "car", "cylinder", "R-134a", None, one.key)
    book(job.entry, job, [moved] * 3)
    with django_assert_max_num_queries(16) as few:
        desk.get(reverse("book"))
    book(job.entry, job, [moved] * 57)
    with django_assert_max_num_queries(16) as many:
        answer = desk.get(reverse("book"))
    assert len(many) == len(few)
    assert (len(answer.context["lines"]), answer.context["after"]) == (50, 50)
    assert len(desk.get(reverse("book"), {"from": "50"}).context["lines"]) == 10


def test_the_table_has_whole_milligrams_and_no_formulas(desk):
    one = make_cylinder(name="=HYPERLINK(1)")
    stood(buy(one, "1 lb"))
    answer = desk.get(reverse("book_csv"))
    text = b"".join(answer.streaming_content).decode()
    assert text.startswith("\ufeff")
    head, row = csv.reader(io.StringIO(text.removeprefix("\ufeff")))
    told = dict(zip(head, row, strict=True))
    assert (told["amount"], told["unit"], told["shown"]) == ("453592", "mg", "454\u00a0g")
    assert told["to"] == "'=HYPERLINK(1)"
    assert datetime.fromisoformat(told["time"]).tzinfo is not None
    assert told["work"] == "Bought"


def test_the_table_names_an_oil_as_the_page_does(desk):
    job = make_job()
    book(job.entry, job, [Moved("oil", 15_000, "stock", "car", "pag46")])
    text = b"".join(desk.get(reverse("book_csv")).streaming_content).decode()
    assert [row[2] for row in csv.reader(io.StringIO(text))][1:] == ["PAG 46"]


@pytest.mark.parametrize("text", ["=1", "+1", "-1", "@x", "\t=1", "\r=1", "＝1"])
def test_what_a_spreadsheet_would_work_out_becomes_text(text):
    assert cell(text) == f"'{text}"
    assert cell("Cylinder -1") == "Cylinder -1"


def test_a_technician_works_with_cylinders_and_does_not_read_the_book():
    browser = Client()
    browser.force_login(make_person(TECHNICIAN))
    assert browser.get(reverse("book")).status_code == 403
    assert browser.get(reverse("cylinders")).status_code == 200


def test_a_sheet_to_print_has_the_shops_paper_and_all_lines(desk):
    one, job = make_cylinder(), make_job()
    moved = Moved("refrigerant", 1_000, "car", "cylinder", "R-134a", None, one.key)
    book(job.entry, job, [moved] * 60)
    answer = desk.get(reverse("book"), {"sheet": "1"})
    assert len(answer.context["lines"]) == 60
    assert "book_a4" in answer.content.decode()


def test_a_book_of_many_moves_is_summed_by_the_database(desk, django_assert_max_num_queries):
    """Sums over many rows come as few rows."""
    one, job = make_cylinder(), make_job()
    moves = [
        Move(
            entry=job.entry,
            number=number % 30_000,
            job=job,
            substance="refrigerant",
            gas="R-134a",
            amount=1 + number,
            from_place="car",
            to_place="cylinder",
            to_cylinder=one,
            happened_at=job.opened_at,
        )
        for number in range(5_000)
    ]
    Move.objects.bulk_create(moves)
    with django_assert_max_num_queries(16):
        answer = desk.get(reverse("book"))
    assert answer.context["count"] == 5_000
    year = years(timezone.localdate().year, timezone.localdate().year)[0]
    assert year.sums["R-134a"].recovered == 5_000 * 5_001 // 2
