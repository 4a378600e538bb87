"""Of a customer who was taken out no consent tells the name, the number or the hand."""

import json
from typing import Any

import pytest
from django.apps import apps

from jobs.entries import NAMED, REDACT
from jobs.logbook import enter
from jobs.models import Consent, Job, Named
from jobs.models.people import OWNER
from tests.factories import make_person, make_told, tell
from tests.jobs.agreeing import DRAWN, ago, ask, came_in, last, make_estimate

pytestmark = pytest.mark.django_db(transaction=True)
NUMBER, OTHER_NUMBER = "555 044 8181", "555 044 9292"
TRACES = ("marwell", "fennimore", "pellam", NUMBER, OTHER_NUMBER, "300,90")


def take_out(job: Job) -> None:
    told = {"customer": str(job.customer.key), "reason": "By letter.", "checked": "Papers."}
    assert enter(REDACT, make_told(told, make_person(OWNER))).stands


def traces() -> list[str]:
    """What is left in the database, the drawn points among it."""
    rows: list[Any] = [
        str(value)
        for model in apps.get_models()
        for row in model._base_manager.values_list()
        for value in row
    ]
    text = json.dumps(rows, ensure_ascii=False).lower()
    return [one for one in TRACES if one in text.replace(", ", ",").replace(",,", ",")]


def agreed_in_every_way() -> Job:
    job = came_in()
    key = tell(
        NAMED, job, named_name="Jo Pellam", named_phone=OTHER_NUMBER, speaks_for="customer"
    ).key
    ask(job, make_estimate(job), at=ago(9), consent_how="in_person", signature=DRAWN)
    told = {"consent_added": "1", "consent_amount": "700", "number_called": NUMBER}
    ask(job, "work", at=ago(8), work="Ida Marwell wants the hose too", **told)
    signed = {"consent_how": "in_person", "signed_name": "I. Fennimore"}
    work = {"work": "Hose", "consent_added": "1", "consent_amount": "701"}
    ask(job, "work", at=ago(7), consent_who=str(key), **work, **signed)
    return job


def test_name_number_and_hand_are_nowhere_afterwards():
    job = agreed_in_every_way()
    assert traces() == list(TRACES)
    take_out(job)
    assert traces() == []


def test_a_name_of_one_word_stands_on_no_estimate_afterwards():
    job = came_in()
    job.customer.name = "Fennimore"
    job.customer.save()
    make_estimate(job)
    take_out(job)
    assert "fennimore" not in traces()


def test_what_was_agreed_stays_with_its_amount_and_the_hash_of_the_text():
    job = agreed_in_every_way()
    before = [(one.amount, one.text_sha256) for one in Consent.objects.all()]
    take_out(job)
    assert [(one.amount, one.text_sha256) for one in Consent.objects.all()] == before
    assert Consent.objects.get(number=2).text.startswith("Work: estimate 1 of job")
    assert "(taken out) wants the hose too" in Consent.objects.get(number=3).text


def test_what_a_tablet_brings_later_is_blanked_as_it_arrives():
    job = agreed_in_every_way()
    take_out(job)
    ask(job, "work", work="Hose", consent_added="1", consent_amount="702", number_called=NUMBER)
    tell(NAMED, job, named_name="Jo Pellam", speaks_for="customer")
    assert traces() == []
    assert last().given_by.startswith("name taken out")
    assert all(one.name.startswith("name taken out") for one in Named.objects.all())
