"""Where the old parts went, and what is given back for them."""

import uuid

import pytest
from django.urls import reverse

from jobs.entries import CHANGE, OLD_PART, TAKEN_OUT
from jobs.logbook import Outcome, enter
from jobs.models import Job, TakenOut
from jobs.models.people import DESK
from jobs.models.taken_out import taken_out_of
from tests.diagnostics.jobs_told import CLUTCH, Told, stood
from tests.factories import make_job, make_person, make_told, tell

pytestmark = pytest.mark.django_db


def fitted(job: Job) -> str:
    """The key of a clutch that was fitted."""
    return str(tell(CHANGE, job, **CLUTCH).key)


def words(job: Job) -> list[str]:
    return [one.words for one in taken_out_of(job).values()]


def test_a_core_sent_back_has_its_price_in_the_smallest_unit():
    job = make_job()
    assert tell(TAKEN_OUT, job, change=fitted(job), went="core", core="45,50", note="van").stands
    row = TakenOut.objects.get()
    assert (row.core_minor, row.currency, row.note) == (4550, "EUR", "van")
    assert words(job) == ["Sent back as a core, core price 45.50\xa0EUR"]


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [("45.505", "two decimals"), ("-5", "zero or more"), ("forty", ""), ("9" * 30, "more money")],
)
def test_what_is_no_amount_comes_back_with_words(typed, sentence):
    job = make_job()
    outcome = tell(TAKEN_OUT, job, change=fitted(job), went="core", core=typed)
    assert outcome.form
    assert sentence in str(outcome.form.errors["core"])
    assert not TakenOut.objects.exists()


def test_the_last_that_was_told_of_a_part_counts():
    told = Told()
    key = str(told.change(**CLUTCH).key)
    for went in ("bay", "customer"):
        stood(told.tell(TAKEN_OUT, change=key, went=went))
    assert words(told.job) == ["Given to the customer"]


def test_what_corrects_a_telling_takes_its_place_though_it_happened_before():
    told = Told()
    key = str(told.change(**CLUTCH).key)
    first = stood(told.tell(TAKEN_OUT, change=key, went="disposed"))
    again = make_told(
        {"change": key, "went": "shop"},
        job_key=told.job.key,
        corrects=first.key,
        happened_at=told.again.opened_at,
    )
    assert enter(TAKEN_OUT, again).stands
    assert words(told.job) == ["Kept in the shop"]


def test_it_may_be_told_before_the_change_arrives():
    job, key = make_job(), uuid.uuid4()
    assert tell(TAKEN_OUT, job, change=str(key), went="shop").stands
    assert taken_out_of(job)[key].went == "shop"


def test_which_part_has_to_be_known():
    outcome = tell(TAKEN_OUT, make_job(), change="none", went="shop")
    assert outcome.form
    assert "Which part?" in str(outcome.form.errors)


def test_the_same_telling_sent_twice_is_one():
    job = make_job()
    told = make_told({"change": fitted(job), "went": "shop"}, job_key=job.key, key=uuid.uuid4())
    states: list[Outcome] = [enter(TAKEN_OUT, told), enter(TAKEN_OUT, told)]
    assert [one.state for one in states] == ["accepted", "again"]
    assert TakenOut.objects.count() == 1


def test_the_page_lists_what_was_fitted_and_asks_about_one(client):
    job = make_job()
    key = fitted(job)
    client.force_login(make_person(DESK))
    address = f"{reverse('taken_out')}?job={job.key}"
    assert f"change={key}" in client.get(address).content.decode()
    said = client.get(f"{address}&change={key}").content.decode()
    assert f'name="change" value="{key}"' in said
    answer = client.post(address, {"key": str(uuid.uuid4()), "change": key, "went": "shop"})
    assert answer.status_code == 302
    assert words(job) == ["Kept in the shop"]


def test_what_comes_back_still_says_which_part_it_is_about(client):
    job = make_job()
    key = fitted(job)
    client.force_login(make_person())
    address = f"{reverse('taken_out')}?job={job.key}"
    answer = client.post(address, {"key": str(uuid.uuid4()), "change": key, "went": ""})
    assert answer.status_code == 422
    assert "Clutch, complete (car state 1)" in answer.content.decode()


def test_the_page_shows_what_the_customer_chose_and_asks_only_where_nobody_did(client):
    job = make_job()
    key = fitted(job)
    client.force_login(make_person(DESK))
    address = f"{reverse('taken_out')}?job={job.key}&change={key}"
    assert "Ask the customer’s choice" in client.get(address).content.decode()
    tell(OLD_PART, job, choice="returned", how="in_person")
    said = client.get(address).content.decode()
    assert "Give them back to the customer" in said
    assert "Ask the customer’s choice" not in said
