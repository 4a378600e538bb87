"""What is agreed on a job now, of several consents one after another."""

import pytest
from django.urls import reverse

from jobs.models.agreed import agreed_now, agreed_on
from tests.factories import make_person
from tests.jobs.agreeing import ago, ask, came_in, make_estimate

pytestmark = pytest.mark.django_db
DYE = {"work": "Dye into the loop", "consent_added": "20"}


def test_what_was_added_in_words_is_agreed_beside_the_estimate():
    job = came_in()
    estimate = make_estimate(job)
    ask(job, estimate, ago(20))
    ask(job, "work", ago(10), **DYE, consent_before="56000")
    assert agreed_on(job) == [("estimate 1, and Dye into the loop", "580.00\u00a0EUR")]
    assert agreed_now(job).estimate == estimate


def test_an_estimate_agreed_to_later_is_the_whole_of_it():
    job = came_in()
    ask(job, "work", ago(40), **DYE, consent_before="15000")
    ask(job, make_estimate(job), ago(20))
    assert agreed_on(job) == [("estimate 1", "560.00\u00a0EUR")]
    assert agreed_now(job).added == ()


def test_works_in_words_alone_are_all_agreed():
    job = came_in()
    ask(job, "work", ago(40), **DYE, consent_before="15000")
    ask(job, "work", ago(20), work="New cabin filter", consent_added="30", consent_before="17000")
    assert agreed_on(job) == [("Dye into the loop, and New cabin filter", "200.00\u00a0EUR")]
    assert agreed_now(job).estimate is None


def test_the_repair_page_says_the_estimate_and_what_was_added(client):
    job = came_in()
    ask(job, make_estimate(job), ago(20))
    ask(job, "work", ago(10), **DYE, consent_before="56000")
    client.force_login(make_person())
    said = client.get(reverse("repair"), {"job": job.key}).content.decode()
    assert "Agreed: <bdi>estimate 1, and Dye into the loop</bdi>, up to" in said


def test_the_consent_page_says_that_the_total_of_work_in_words_may_stay_empty(client):
    client.force_login(make_person())
    said = client.get(reverse("consent"), {"job": came_in().key}).content.decode()
    assert "Left empty: what was agreed before and the added cost, added up." in said
