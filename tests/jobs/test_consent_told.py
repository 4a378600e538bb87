"""A consent says who gave it, in which money, and nothing that its outcome speaks against."""

import pytest
from django.urls import reverse

from jobs.entries import NAMED
from jobs.logbook import enter
from jobs.models import Shop
from jobs.models.people import OWNER
from tests.factories import make_person, make_told
from tests.jobs.agreeing import DRAWN, ago, ask, came_in, last, make_estimate, wrong

pytestmark = pytest.mark.django_db


def test_who_is_not_named_on_this_job_is_not_taken_for_the_customer():
    job = came_in()
    other = enter(
        NAMED,
        make_told({"named_name": "Ulla Wren", "speaks_for": "customer"}, job_key=came_in().key),
    )
    outcome = ask(job, make_estimate(job), consent_who=str(other.key))
    assert "noted on this job" in wrong(outcome, "consent_who")
    assert job.consents.count() == 1


def test_who_may_not_say_yes_any_more_is_somebody_else():
    job = came_in()
    fields = {"named_name": "Ulla Wren", "speaks_for": "customer"}
    named = enter(NAMED, make_told(fields, job_key=job.key, happened_at=ago(60)))
    ended = fields | {"ended": "on"}
    enter(NAMED, make_told(ended, job_key=job.key, corrects=named.key, happened_at=ago(20)))
    estimate = make_estimate(job)
    ask(job, estimate, consent_who=str(named.key), at=ago(25))
    assert (last().giver, last().given_by) == ("named", "Ulla Wren")
    ask(job, estimate, consent_who=str(named.key), at=ago(5))
    assert (last().giver, last().given_by) == ("other", "Ulla Wren")


@pytest.mark.parametrize(
    ("outcome", "more"),
    [
        ("not_reached", {"signature": DRAWN}),
        ("not_reached", {"signed_name": "Ida Marwell"}),
        ("not_reached", {"old_parts": "shop"}),
        ("refused_to_sign", {"signature": DRAWN}),
    ],
)
def test_what_came_of_it_and_what_was_signed_or_chosen_go_together(outcome, more):
    job = came_in()
    told = ask(job, make_estimate(job), consent_outcome=outcome, **more)
    assert wrong(told, "consent_outcome")
    assert not job.old_part_choices.exists()


def test_a_total_beyond_all_money_is_asked_about():
    job = came_in()
    most = {"consent_before": str(2**53 - 1), "consent_added": "90071992547409.91"}
    outcome = ask(job, "work", work="Hose", **most)
    assert "more money" in wrong(outcome, "consent_added")


def test_what_was_agreed_in_another_currency_is_not_told_in_this_one(client):
    job = came_in()  # up to 150 EUR
    estimate = make_estimate(job)
    job.estimates.update(currency="JPY")
    Shop.objects.update(currency="JPY")
    client.force_login(make_person())
    page = client.get(f"{reverse('consent')}?job={job.key}").content.decode()
    assert "Agreed before" not in page
    assert "Added cost: not told" in page
    ask(job, estimate)
    assert (last().before, last().added, last().amount) == (None, None, 56000)
    assert "Agreed before" not in last().text
    assert "Revised total: 56\xa0000\xa0JPY" in last().text


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ({"source": "new"}, "1. Clutch, complete, new (new): 504.00"),
        ({"quantity": "2"}, "1. Clutch, complete, new, 2: 504.00"),
        (
            {"sort": "fluid", "quantity": "620", "unit": "g"},
            "1. Clutch, complete, new, 620\u00a0g: ",
        ),
    ],
)
def test_the_text_says_how_much_and_whether_new_as_the_estimate_does(line, said):
    job = came_in()
    estimate = make_estimate(job)
    estimate.lines[0] |= line
    estimate.save()
    ask(job, estimate)
    assert said in last().text


def test_the_number_called_stands_with_the_consent_on_its_page_and_on_the_job_s(client):
    """An agreement by phone can be checked only by when, by whom and by which number."""
    job = came_in()
    ask(job, make_estimate(job), number_called="555 010 4242")
    client.force_login(make_person(OWNER))
    for page in ("consent", "job"):
        shown = client.get(reverse(page), {"job": str(job.key)}).content.decode()
        assert "by phone <span" in shown.lower()
        assert '<bdi>555 010 4242</bdi></span>, <span class="nowrap">' in shown
