"""What becomes of old parts: asked before they leave the bay, the last answer counts."""

import uuid
from datetime import timedelta

import pytest
from django.urls import reverse

from jobs.entries import OLD_PART
from jobs.logbook import enter
from jobs.models import Job, OldPartChoice
from jobs.models.old_parts import chosen
from tests.factories import make_person, make_told, tell
from tests.jobs.agreeing import ago, ask, came_in
from tests.jobs.test_consent_points import WORK, change, points

pytestmark = pytest.mark.django_db


def answer_now(job: Job) -> str:
    last = chosen(job.old_part_choices.all())
    return last.choice if last else ""


def test_a_part_that_came_in_asks_what_becomes_of_the_old_one():
    job = came_in()
    ask(job, "work", at=ago(20), **WORK)
    change(job)
    assert list(points(job)) == ["old_part"]
    tell(OLD_PART, job, choice="returned", how="phone")
    assert points(job) == {}


def test_it_can_be_asked_with_the_consent_before_any_part_is_out():
    job = came_in()
    ask(job, "work", at=ago(20), **WORK, old_parts="seller")
    change(job)
    assert points(job) == {}
    assert answer_now(job) == "seller"


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_of_two_answers_the_last_to_happen_counts_whichever_arrives_first(order):
    job = came_in()
    for at in order:
        told = {"choice": ("returned", "shop")[at]}
        moment = ago(10 - at)
        assert enter(OLD_PART, make_told(told, job_key=job.key, happened_at=moment)).stands
    assert answer_now(job) == "shop"


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_an_answer_that_is_corrected_takes_the_place_of_the_one_before(order):
    job, keys = came_in(), [uuid.uuid4(), uuid.uuid4()]
    for at in order:
        corrects = keys[0] if at else None
        told = make_told(
            {"choice": ("returned", "shop")[at]},
            key=keys[at],
            job_key=job.key,
            corrects=corrects,
            happened_at=ago(10) - timedelta(minutes=at),
        )
        assert enter(OLD_PART, told).stands
    assert answer_now(job) == "shop"
    assert OldPartChoice.objects.exclude(superseded_by=None).count() == 1


def test_the_page_begins_with_what_counts_now(client):
    job = came_in()
    tell(OLD_PART, job, choice="shown", where="The hub goes back.")
    client.force_login(make_person())
    page = client.get(f"{reverse('old_part')}?job={job.key}").content.decode()
    assert "The hub goes back." in page


def test_the_page_is_for_signed_in_people(client):
    assert client.get(f"{reverse('old_part')}?job={came_in().key}").status_code == 302
