"""Refrigerant and high-voltage work by somebody without the paper; who may issue its record."""

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from diagnostics.assess import steps_of
from diagnostics.entries import STEP
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.read_with import NEEDS
from diagnostics.points import step_points
from diagnostics.price_sheet import ShopPrices
from diagnostics.shop_told import ShopTold
from jobs.logbook import REFUSED, enter
from jobs.models import Job, Person, Record
from jobs.models.people import OWNER
from shopac.views.job_json import rows, told
from tests.diagnostics.test_issue import freeze
from tests.factories import make_job, make_person, make_told, qualify

pytestmark = pytest.mark.django_db
GRAMS = {"recovered": "480", "recovered_unit": "g", "machine": "newer"}


@pytest.fixture
def sand() -> Person:
    return make_person(name="R. Sand")


def recover(job: Job, author: Person, kind: str = "recovered_share", **fields: Any) -> None:
    first = {"test_kind": kind, "test_version": "1"}
    said = fields or GRAMS
    more = {"happened_at": said.pop("at")} if "at" in said else {}
    told_entry = make_told({**first, **(said or GRAMS)}, author, job_key=job.key, **more)
    assert enter(STEP, told_entry).stands


def points(job: Job) -> list[str]:
    found = [one for one in step_points(steps_of(job)) if one.code.startswith("not_qualified")]
    return [one.sentence.replace("\u00a0", " ") for one in found]


def day_words(days_ago: int) -> str:
    day = timezone.localdate() - timedelta(days=days_ago)
    return f"{day.day} {day:%b %Y}"


def test_the_kinds_that_need_a_paper_are_kinds():
    assert set(NEEDS) <= set(KINDS)


def test_a_recovery_by_somebody_without_the_paper_names_them_and_the_day(sand):
    job = make_job()
    recover(job, sand)
    title = KINDS["recovered_share"].title.lower()
    paper = "no certificate for refrigerant work of R. Sand that was valid"
    assert points(job) == [f"Step 1, {title}: {paper} on {day_words(0)} is entered."]


def test_with_a_paper_that_held_that_day_there_is_no_such_point(sand):
    job = make_job()
    qualify(sand)
    recover(job, sand)
    assert points(job) == []


def test_what_counts_is_the_day_of_the_work_not_today(sand):
    job = make_job()
    today = timezone.localdate()
    begun, ended = (today - timedelta(days=days) for days in (400, 2))
    qualify(sand, valid_from=begun.isoformat(), valid_to=ended.isoformat())
    recover(job, sand, **GRAMS, at=timezone.now() - timedelta(days=3))
    assert points(job) == []
    recover(job, sand)
    assert len(points(job)) == 1


def test_a_card_of_somebody_else_or_for_something_else_does_not_help(sand):
    job = make_job()
    qualify(make_person())
    qualify(sand, "high_voltage")
    qualify(sand, "other", own_words="Forklift")
    recover(job, sand)
    assert len(points(job)) == 1


def test_one_that_was_entered_later_counts_and_a_mistake_does_not(sand):
    """Papers are entered when somebody has time; what is on them is what counts."""
    job = make_job()
    recover(job, sand)
    card = qualify(sand)
    assert points(job) == []
    card.mistake = True
    card.save(update_fields=["mistake"])
    assert len(points(job)) == 1


def test_high_voltage_work_needs_its_own_paper(sand):
    job = make_job(drive="electric_hv", displacement=None, switched_side=None, voltage=None)
    qualify(sand)
    told_step = {"commanded": "3000", "commanded_unit": "rpm", "actual": "2900"}
    recover(job, sand, "hv_command", **told_step)
    assert "certificate for high-voltage work of R. Sand" in points(job)[0]
    qualify(sand, "high_voltage")
    assert points(job) == []


def test_a_test_that_could_not_be_done_moved_nothing(sand):
    job = make_job()
    recover(job, sand, not_done="not_qualified")
    assert points(job) == []


def test_a_tablet_is_told_of_it_at_the_same_number_of_queries(sand, django_assert_num_queries):
    job, prices = make_job(), ShopPrices("", (), (), ())
    recover(job, sand)
    with django_assert_num_queries(21):
        kept = told(rows().get(pk=job.pk), {}, ShopTold(), prices)
    assert any(one["code"] == "not_qualified_refrigerant" for one in kept["points"])
    for _ in range(4):
        recover(job, make_person())
    with django_assert_num_queries(21):
        told(rows().get(pk=job.pk), {}, ShopTold(), prices)


# Who issues.


def issue_page(person: Person, job: Job) -> str:
    browser = Client()
    browser.force_login(person)
    shown = browser.get(reverse("issue"), {"job": str(job.key)})
    return shown.content.decode().replace("\u00a0", " ")


def test_a_technician_without_what_the_moves_needed_does_not_issue_and_is_told_who_can(sand):
    job = make_job()
    qualify(quist := make_person(name="E. Quist"))
    make_person(OWNER, name="T. Okafor")
    recover(job, quist)
    outcome = freeze(job, sand)
    assert outcome.state == REFUSED
    assert "needs a certificate for refrigerant work" in outcome.why
    assert not Record.objects.exists()
    page = issue_page(sand, job)
    assert "Not for you to issue." in page
    assert "E. Quist" in page.partition("These can:")[2]
    assert "T. Okafor" in page.partition("These can:")[2]
    assert "Issue the record" not in page


def test_one_who_holds_it_today_does(sand):
    job = make_job()
    qualify(sand)
    recover(job, sand)
    assert "Issue the record" in issue_page(sand, job)
    assert freeze(job, sand).stands


def test_one_whose_paper_ran_out_since_does_not(sand):
    job = make_job()
    ended = timezone.localdate() - timedelta(days=1)
    qualify(sand, valid_to=ended.isoformat())
    recover(job, sand, **GRAMS, at=timezone.now() - timedelta(days=2))
    assert freeze(job, sand).state == REFUSED


def test_an_owner_issues_whatever_was_done(sand):
    job = make_job()
    recover(job, sand)
    assert freeze(job, make_person(OWNER)).stands


def test_a_job_without_such_work_is_issued_by_any_technician(sand):
    assert freeze(make_job(), sand).stands
