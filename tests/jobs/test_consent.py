"""A consent given after intake."""

import uuid

import pytest
from django.urls import reverse

from jobs.entries import CONSENT
from jobs.models import Consent, Entry
from jobs.models.wordings import CONSENT_NOW, CONSENT_TEXTS
from tests.factories import LEAST, make_job, make_person, tell

pytestmark = pytest.mark.django_db


def test_a_consent_given_later_gets_the_next_number():
    job = make_job()
    tell(CONSENT, job, consent_amount="400", consent_how="phone", consent_by="Pell")
    kept = [(one.number, one.amount, one.given_by) for one in Consent.objects.all()]
    assert kept == [(1, 15000, "Ida Marwell"), (2, 40000, "Pell")]


def test_the_page_shows_the_exact_text(client):
    job = make_job(**LEAST)
    client.force_login(make_person())
    page = client.get(f"{reverse('consent')}?job={job.key}").content.decode()
    assert CONSENT_TEXTS[CONSENT_NOW] in page


def test_without_an_amount_it_asks_for_one():
    outcome = tell(CONSENT, make_job(), consent_how="phone")
    assert outcome.form
    assert "needs its amount" in str(outcome.form.errors["consent_amount"])


def test_the_page_is_for_signed_in_people(client):
    job = make_job()
    assert client.get(f"{reverse('consent')}?job={job.key}").status_code == 302


def test_the_page_posts_without_script(client):
    job = make_job(**LEAST)
    client.force_login(make_person())
    fields = {"consent_amount": "90", "key": str(uuid.uuid4())}
    response = client.post(f"{reverse('consent')}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    assert Entry.objects.filter(kind="consent", job_key=job.key).count() == 1
