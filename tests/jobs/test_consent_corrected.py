"""A consent that was put right: the one before stays to be seen and counts no more."""

import uuid
from datetime import timedelta
from itertools import permutations

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.entries import CONSENT, INTAKE
from jobs.logbook import enter
from jobs.models import Consent, Job
from jobs.models.points import open_points
from tests.diagnostics.test_record_steps import data_of
from tests.factories import INTAKE_FIELDS, LEAST, make_job, make_person, make_told, tell

pytestmark = pytest.mark.django_db
BY_PHONE = {"consent_how": "phone"}


def agree(job: Job, amount: str, key=None, corrects=None, minutes_ago: int = 0):
    moment = timezone.now() - timedelta(minutes=minutes_ago)
    fields = {"consent_amount": amount, **BY_PHONE}
    key = key or uuid.uuid4()
    told = make_told(fields, key=key, job_key=job.key, corrects=corrects, happened_at=moment)
    assert enter(CONSENT, told).stands
    return key


def counting() -> list[int]:
    return [one.amount or 0 for one in Consent.objects.all() if one.counts]


def correct_intake(job: Job, **fields):
    key = uuid.uuid4()
    told = {name: text for name, text in (INTAKE_FIELDS | fields).items() if text is not None}
    assert enter(INTAKE, make_told(told, key=key, job_key=key, corrects=job.key)).stands


def page_of(client, job: Job) -> str:
    client.force_login(make_person())
    return client.get(f"{reverse('job')}?job={job.key}").content.decode()


def test_a_corrected_amount_is_what_counts_and_the_job_page_says_so(client):
    job = make_job(**LEAST)
    first = agree(job, "9000")
    agree(job, "90", corrects=first)
    assert counting() == [9000]
    page = page_of(client, job)
    assert "Superseded by consent no. 2; it counts no more." in page
    assert page.count("counts no more") == 1


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_whichever_arrives_first_the_last_to_happen_counts(order):
    job = make_job(**LEAST)
    keys = [uuid.uuid4() for _ in range(3)]
    for at in order:
        corrects = keys[at - 1] if at else None
        agree(job, ("9000", "90", "9000")[at], keys[at], corrects, minutes_ago=30 - at)
    assert counting() == [900000]
    assert Consent.objects.get(superseded_by=None).entry.key == keys[2]


def test_the_paper_says_which_consent_was_superseded_and_by_which():
    job = make_job(**LEAST)
    first = agree(job, "9000")
    agree(job, "90", corrects=first)
    data = data_of(job)
    told = [(one["counts"], one["superseded_by"], one["gone"]) for one in data["consents"]]
    gone = "Superseded by consent no. 2; it counts no more."
    assert told == [(False, 2, gone), (True, None, "")]
    [line] = [one["what"] for one in data["corrections"] if one["code"] == "replaces"]
    assert line == "Consent no. 2 replaces consent no. 1."


def test_another_consent_that_corrects_none_leaves_the_first_as_it_was():
    job = make_job()
    tell(CONSENT, job, consent_amount="400", **BY_PHONE)
    assert counting() == [15000, 40000]


def test_a_consent_that_is_not_in_the_corrected_intake_any_more_does_not_count(client):
    job = make_job()
    correct_intake(job, consent_amount=None, consent_how=None)
    assert counting() == []
    assert "Not in the corrected intake of" in page_of(client, job)
    points = [one.sentence for one in open_points(job, list(job.consents.all()))]
    assert "Consent to find the fault: none counts any more" in points


def test_an_amount_put_right_in_the_intake_supersedes_the_one_before():
    job = make_job()
    correct_intake(job, consent_amount="90")
    assert counting() == [9000]


def test_a_corrected_intake_with_the_same_consent_leaves_it_counting():
    job = make_job()
    correct_intake(job, complaint="Warm when idling.")
    assert (Consent.objects.count(), counting()) == (1, [15000])
