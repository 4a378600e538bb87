"""The customer of a job, told later."""

import uuid

import pytest
from django.urls import reverse

from jobs.entries import CUSTOMER
from jobs.logbook import ACCEPTED
from jobs.models import Entry, Job
from jobs.search import asked_words, find
from tests.factories import LEAST, make_job, make_person, said_of, tell

pytestmark = pytest.mark.django_db


def test_the_customer_told_later_is_on_the_job_and_found():
    job = make_job(**LEAST)
    assert tell(CUSTOMER, job, phone="555 777 0101", payer="fleet").state == ACCEPTED
    job = Job.objects.select_related("customer").get()
    assert (job.customer.name, job.customer.phone, job.payer) == ("Ida", "555 777 0101", "fleet")
    assert find(asked_words("777 0101")).jobs == [job]


def test_another_name_is_found_and_the_old_one_is_told():
    job = make_job()
    tell(CUSTOMER, job, customer_name="Ida Quill")
    assert find(asked_words("quill")).jobs == [job]
    assert find(asked_words("marwell")).jobs == []
    assert said_of(Entry.objects.get(kind="customer")) == ["Name changed; before: Ida Marwell."]


def test_the_page_is_for_signed_in_people(client):
    job = make_job()
    assert client.get(f"{reverse('customer')}?job={job.key}").status_code == 302


def test_the_page_posts_without_script(client):
    job = make_job(**LEAST)
    client.force_login(make_person())
    fields = {"phone": "555 777 0101", "key": str(uuid.uuid4())}
    response = client.post(f"{reverse('customer')}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    assert Entry.objects.filter(kind="customer", job_key=job.key).count() == 1


def test_what_was_not_asked_at_the_counter_is_told_later_and_a_changed_answer_is_named():
    job = make_job(since=None)
    tell(CUSTOMER, job, since="days", topped_up="yes", topped_up_with="a can, in May")
    answers = Job.objects.get().complaint_answers
    assert (answers["since"], answers["topped_up"]) == ("days", "yes")
    assert answers["warm_when"] == ["always"]
    assert said_of(Entry.objects.get(kind="customer")) == ["Topped up before changed; before: No."]


def test_the_page_shows_what_was_answered_at_the_counter(client):
    job = make_job()
    client.force_login(make_person())
    page = client.get(f"{reverse('customer')}?job={job.key}").content.decode()
    assert page.count("checked") == 6  # since, warm when, topped up, accident, other work, payer
