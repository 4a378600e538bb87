"""Who else may say yes: named by the customer or by who pays, put right, ended."""

import pytest
from django.urls import reverse

from jobs.entries import NAMED
from jobs.logbook import enter
from jobs.models import Named
from tests.factories import make_person, make_told, tell
from tests.jobs.agreeing import came_in

pytestmark = pytest.mark.django_db
PELL = {"named_name": "J. Pell", "named_phone": "555 010 2222", "speaks_for": "payer"}


def test_a_name_that_is_corrected_takes_the_place_of_the_one_before_and_may_end():
    job = came_in()
    told = {"named_name": "J. Pell", "speaks_for": "payer"}
    key = tell(NAMED, job, **told).key
    again = make_told(told | {"ended": "on"}, job_key=job.key, corrects=key)
    assert enter(NAMED, again).stands
    assert [one.may for one in Named.objects.all()] == [False, False]


def test_without_a_name_it_is_asked_for():
    outcome = tell(NAMED, came_in(), speaks_for="payer")
    assert outcome.form
    assert "name" in outcome.form.errors["named_name"][0]


def test_the_consent_page_offers_who_was_named_and_the_number_to_call(client):
    job = came_in()
    key = tell(NAMED, job, **PELL).key
    client.force_login(make_person())
    page = client.get(f"{reverse('consent')}?job={job.key}").content.decode()
    assert f'value="{key}"' in page
    assert f'"{key}": "555 010 2222"' in page


def test_the_page_posts_without_script_and_goes_back_to_the_consent(client):
    job = came_in()
    client.force_login(make_person())
    response = client.post(f"{reverse('named')}?job={job.key}", PELL)
    assert response["Location"] == f"/consent/?job={job.key}"
    assert Named.objects.get().name == "J. Pell"


def test_somebody_of_another_job_cannot_be_corrected_from_here(client):
    key = tell(NAMED, came_in(plate="KX.1111B"), **PELL).key
    client.force_login(make_person())
    response = client.get(f"{reverse('named')}?job={came_in().key}&corrects={key}")
    assert response.status_code == 404


def test_the_page_is_for_signed_in_people(client):
    assert client.get(f"{reverse('named')}?job={came_in().key}").status_code == 302
