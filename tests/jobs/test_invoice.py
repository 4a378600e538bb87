"""Invoices: numbered by year, beside what was agreed and done, never billed twice."""

import uuid
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from jobs.entries import CHANGE, CONSENT, INVOICE, OLD_PART, TAKEN_OUT
from jobs.logbook import AGAIN, FORBIDDEN, REFUSED, Outcome, enter
from jobs.models import Estimate, Invoice, Job, Move
from jobs.models.people import DESK, TECHNICIAN
from tests.factories import make_job, make_person, make_told, tell
from tests.jobs.agreeing import ask
from tests.jobs.test_estimate import GAS, LABOR, LONG, PART, taxed, typed, write

pytestmark = pytest.mark.django_db


def bill(job: Job, *lines: dict[str, str], **fields: str) -> Outcome:
    return enter(INVOICE, make_told(typed(*lines, **fields), make_person(DESK), job_key=job.key))


def billed(job: Job, *lines: dict[str, str], **fields: str) -> Invoice:
    outcome = bill(job, *lines, **fields)
    assert outcome.stands, (outcome.why, outcome.form and outcome.form.errors)
    return Invoice.objects.get(key=outcome.key)


def errors(job: Job, *lines: dict[str, str], **fields: str) -> dict[str, str]:
    outcome = bill(job, *lines, **fields)
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, texts)) for name, texts in outcome.form.errors.items()}


@pytest.fixture
def desk(client: Client) -> Client:
    client.force_login(make_person(DESK, name="Noor Abanti"))
    return client


def page_of(client: Client, job: Job, **asked: Any) -> str:
    response = client.get(reverse("invoice"), {"job": job.key, **asked})
    assert response.status_code == 200
    return response.content.decode()


def moved(
    job: Job, amount: int, *, into: bool, substance: str = "refrigerant", **more: Any
) -> Move:
    places = ("stock", "car") if into else ("car", "lost")
    return Move.objects.create(
        entry=job.entry, number=Move.objects.count(), job=job, substance=substance, amount=amount,
        from_place=places[0], to_place=places[1], happened_at=timezone.now(), **more,
    )  # fmt: skip


def test_invoices_are_numbered_by_the_year_of_the_shop_without_a_gap():
    year = timezone.localdate().year % 100
    first, second = make_job(), make_job(plate="MB.2207K")
    assert [billed(one, PART).label for one in (first, second)] == [
        f"INV-{year}-0001",
        f"INV-{year}-0002",
    ]


def test_a_form_that_comes_back_takes_no_number():
    job = make_job()
    errors(job, PART | {"price": "1.234"})
    assert billed(job, PART).number == 1


def test_the_page_begins_with_the_lines_of_the_estimate_in_force(desk):
    job = make_job()
    write(job, LABOR, PART | {"words": "Drier"})
    shown = page_of(desk, job)
    assert "the lines of estimate 1; nobody agreed to it." in shown
    assert 'value="Air gap set"' in shown
    assert 'value="Drier"' in shown


def test_it_begins_with_what_was_agreed_and_not_with_a_version_nobody_agreed_to(desk):
    job = make_job()
    first = write(job, LABOR)
    ask(job, first)
    write(job, PART | {"words": "Drier"}, on=str(first.key))
    shown = page_of(desk, job)
    assert 'value="Air gap set"' in shown
    assert 'value="Drier"' not in shown
    assert "Agreed: estimate 1, up to 216.00\u00a0EUR" in shown


def test_what_the_customer_chose_of_the_old_parts_stands_there_already(desk):
    job = make_job()
    tell(OLD_PART, job, choice="returned", how="in_person")
    changed = tell(CHANGE, job, what="fitted", part="clutch", source="new")
    tell(TAKEN_OUT, job, change=str(changed.key), went="customer")
    told = "Give them back to the customer. Clutch, complete: given to the customer."
    assert f"Chosen by the customer: {told}" in page_of(desk, job)


def test_refrigerant_begins_with_the_grams_that_were_booked_into_the_car(desk):
    job = make_job()
    write(job, GAS | {"code": "refrigerant"})
    moved(job, 410_000, into=False)
    wrong = moved(job, 300_000, into=True)
    Move.objects.create(
        entry=job.entry, number=9, job=job, substance="refrigerant", amount=300_000,
        from_place="car", to_place="stock", happened_at=timezone.now(), undoes=wrong,
    )  # fmt: skip
    moved(job, 645_000, into=True)
    shown = page_of(desk, job)
    assert 'value="645 g"' in shown
    assert "Refrigerant: 410\u00a0g" in shown
    assert "300\u00a0g" not in shown


def test_what_was_done_and_used_and_agreed_is_frozen_with_it():
    job = make_job()
    estimate = write(job, LABOR, PART)
    ask(job, estimate)
    tell(CHANGE, job, what="fitted", part="clutch", source="new", serial="8812-B")
    moved(job, 60_000, into=True, substance="oil")
    row = billed(job, LABOR, PART | {"price": "290"}, old_parts="Given back.")
    assert row.done[0] == "Clutch, complete: fitted or swapped, new (serial 8812-B)."
    assert row.done[1] == "Oil: 60\u00a0mL in."
    tell(CHANGE, job, what="fitted", part="drier", source="new")
    tell(CONSENT, job, consent_amount="900", consent_how="phone")
    row.refresh_from_db()
    assert len(row.done) == 2
    assert (row.agreed, row.old_parts) == (50_200, "Given back.")
    assert row.estimate == estimate
    assert row.agreed_words.startswith("Agreed: estimate 1, up to 502.00\u00a0EUR")
    assert "286.00\u00a0EUR → 290.00\u00a0EUR" in row.changed[0]


def test_an_invoice_changes_no_estimate():
    job = make_job()
    estimate = write(job, LABOR)
    before = Estimate.objects.filter(pk=estimate.pk).values().get()
    billed(job, LABOR, PART)
    assert Estimate.objects.filter(pk=estimate.pk).values().get() == before


def points(client: Client, job: Job) -> str:
    return client.get(f"{reverse('job')}?job={job.key}").content.decode()


def test_more_than_was_agreed_is_recorded_printed_and_an_open_point_until_it_is_agreed(desk):
    """150.00 are agreed by make_job; 216.00 are billed, which is 66.00 more."""
    job = make_job()
    row = billed(job, LABOR)
    assert row.over_words == "66.00\u00a0EUR"
    assert "66.00\u00a0EUR more than was agreed." in page_of(desk, job, version=row.key)
    assert f"Invoice {row.label} is more than was agreed" in points(desk, job)
    tell(CONSENT, job, consent_amount="216", consent_how="phone")
    assert "is more than was agreed" not in points(desk, job)


def test_within_what_was_agreed_nothing_is_open(desk):
    job = make_job()
    row = billed(job, LABOR | {"quantity": "1.5"})
    assert row.over == 0
    assert "more than was agreed" not in points(desk, job)


def test_without_any_consent_all_of_it_is_open(desk):
    job = make_job(consent_amount=None, consent_how=None)
    row = billed(job, LABOR)
    assert (row.agreed, row.over, row.agreed_words) == (None, 21_600, "Nothing was agreed.")
    assert "has nothing agreed beside it" in points(desk, job)


def test_a_second_invoice_for_the_same_job_is_refused_and_what_was_typed_is_shown(desk):
    job = make_job()
    first = billed(job, LABOR)
    assert bill(job, PART).state == REFUSED
    fields = typed(PART | {"words": "Seventh seal"})
    response = desk.post(f"{reverse('invoice')}?job={job.key}", fields)
    shown = response.content.decode()
    assert response.status_code == 409
    assert f"Invoice {first.label} was written for this job meanwhile" in shown
    assert "Seventh seal" in shown
    assert Invoice.objects.count() == 1


def test_a_wrong_invoice_is_replaced_by_another_with_its_own_number_and_the_reason(desk):
    job = make_job()
    first = billed(job, LABOR)
    assert "wrong" in errors(job, PART, on=str(first.key))["corrected_why"]
    second = billed(job, PART, on=str(first.key), corrected_why="Labor was free.")
    first.refresh_from_db()
    assert (first.superseded_by, second.number, first.total) == (second, 2, 21_600)
    sheet = page_of(desk, job, version=first.key)
    assert f"Replaced by invoice {second.label}: this one counts no more." in sheet
    assert "Labor was free." in page_of(desk, job, version=second.key)
    assert bill(job, GAS, on=str(first.key), corrected_why="Once more.").state == REFUSED


def test_to_put_one_right_the_page_begins_with_its_own_lines(desk):
    job = make_job()
    row = billed(job, LABOR | {"words": "Only this"}, old_parts="Given back.")
    assert "Only this" not in page_of(desk, job)
    shown = page_of(desk, job, anew=1)
    for text in ('value="Only this"', f'value="{row.key}"', "Given back."):
        assert text in shown


def test_the_same_entry_sent_twice_is_one_invoice():
    job = make_job()
    told = make_told(typed(LABOR), make_person(DESK), job_key=job.key)
    assert enter(INVOICE, told).stands
    assert enter(INVOICE, told).state == AGAIN
    assert Invoice.objects.count() == 1


@pytest.mark.parametrize(
    ("line", "field"),
    [
        (PART | {"price": ""}, "price_1"),
        (LABOR | {"quantity": ""}, "quantity_1"),
        (GAS | {"quantity": ""}, "quantity_1"),
        ({"sort": "discount", "words": "All off", "price": "1", "taxed": "parts"}, "__all__"),
    ],
)
def test_an_invoice_has_a_total(line, field):
    assert field in errors(make_job(), line)


def test_nothing_at_all_is_no_invoice():
    assert "at least one line" in errors(make_job())["__all__"]


def test_who_repairs_may_read_invoices_and_write_none():
    job = make_job()
    row = billed(job, LABOR)
    browser = Client()
    browser.force_login(make_person(TECHNICIAN))
    assert row.label in page_of(browser, job)
    assert "by the front desk or an owner" in page_of(browser, make_job(plate="ZZ.1111A"))
    told = make_told(typed(LABOR), make_person(TECHNICIAN), job_key=job.key)
    assert enter(INVOICE, told).state == FORBIDDEN


def test_nobody_sees_an_invoice_without_a_sign_in(client):
    assert client.get(reverse("invoice"), {"job": make_job().key}).status_code == 302


def test_another_jobs_invoice_is_not_shown(desk):
    row = billed(make_job(), LABOR)
    asked = {"job": make_job(plate="ZZ.1111A").key, "version": row.key}
    assert desk.get(reverse("invoice"), asked).status_code == 404


def test_the_sums_say_by_how_much_they_are_more_than_is_agreed(desk):
    job = make_job()
    taxed()
    address = f"{reverse('invoice_sums')}?job={job.key}"
    shown = desk.post(address, typed(PART)).content.decode()
    assert "309.60\u00a0EUR" in shown  # 286.00 and 23.595 of tax
    assert "159.60\u00a0EUR more than is agreed" in shown
    within = desk.post(address, typed(PART | {"price": "20"})).content.decode()
    assert "more than is agreed" not in within
    assert not Invoice.objects.exists()


def test_the_sheet_says_what_was_done_and_keeps_long_words_of_any_script(desk):
    job = make_job()
    ask(job, write(job, PART))
    tell(CHANGE, job, what="fitted", part="clutch", source="new")
    row = billed(job, PART | {"words": LONG.strip()}, note="Danke", old_parts="Dem Kunden gezeigt")
    shown = page_of(desk, job, version=row.key)
    sheet = shown[shown.index("<article") : shown.index("</article>")]
    for text in (
        f"Invoice {row.label}", LONG.strip(), "Done and used", "Otherwise than on estimate 1",
        "Old parts: Dem Kunden gezeigt", "Danke", "Agreed: estimate 1, up to",
        f"End of Invoice {row.label}",
    ):  # fmt: skip
        assert text in sheet


def queries(client: Client, job: Job, **asked: Any) -> int:
    with CaptureQueriesContext(connection) as found:
        page_of(client, job, **asked)
    return len(found)


def test_the_page_asks_the_database_as_often_with_many_invoices_and_changes(desk):
    few, many = make_job(), make_job(plate="MB.2207K")
    for job in (few, many):
        write(job, LABOR)
    one, last = billed(few, LABOR), billed(many, LABOR)
    for _ in range(3):
        on = {"on": str(last.key), "corrected_why": "Again."}
        last = billed(many, *[PART] * 20, **on)
        tell(CHANGE, many, what="fitted", part="drier", source="new")
        moved(many, 1_000, into=True)
    assert queries(desk, few) == queries(desk, many)
    assert queries(desk, few, anew=1) == queries(desk, many, anew=1)
    assert queries(desk, few, version=one.key) == queries(desk, many, version=last.key)


def test_a_key_that_is_none_is_said_and_stores_nothing():
    assert "on" in errors(make_job(), PART, on="x")
    told = bill(make_job(plate="ZZ.1111A"), PART, on=str(uuid.uuid4()), corrected_why="x")
    assert told.state == REFUSED


def test_work_added_in_words_leaves_the_estimate_agreed_to(desk):
    job = make_job()
    ask(job, write(job, LABOR))
    ask(job, "work", work="Dye into the loop", consent_added="20", consent_before="21600")
    shown = page_of(desk, job)
    assert "the lines of estimate 1, which was agreed." in shown
    assert "Agreed since and no line yet: Dye into the loop (added 20.00\u00a0EUR)." in shown
    assert "Agreed: estimate 1, and Dye into the loop, up to 236.00\u00a0EUR, consent" in shown
    row = billed(job, LABOR)
    assert (row.agreed, row.estimate and row.estimate.number) == (23600, 1)
