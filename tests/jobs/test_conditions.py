"""Conditions are asked once an hour, and begin the tests that ask for the same."""

import re
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.entries import CONDITIONS
from jobs.logbook import AGAIN, enter
from jobs.models import Conditions, Shop
from jobs.models.entries import Entry
from tests.factories import make_job, make_person, make_shop, make_told, said_of, tell

pytestmark = pytest.mark.django_db
HOT = {"ambient": "31,5", "air": "muggy", "rpm": "2000", "doors": "open"}
WORDS = "31.5\u00a0°C, muggy air, 2000\u00a0rpm, doors open"


@pytest.fixture
def signed_in(client):
    client.force_login(make_person())
    return client


def fahrenheit() -> None:
    make_shop()
    Shop.objects.update(units={"temperature": "°F"})


def page_of(client, job, page="job", *args):
    response = client.get(reverse(page, args=args), {"job": job.key})
    assert response.status_code == 200
    return response.content.decode()


def told_ago(job, minutes, **fields):
    at = timezone.now() - timedelta(minutes=minutes)
    assert enter(CONDITIONS, make_told(fields, job_key=job.key, happened_at=at)).stands


def test_nobody_tells_conditions_without_a_sign_in(client):
    assert client.get(reverse("conditions"), {"job": make_job().key}).status_code == 302


def test_the_job_shows_what_was_told_with_its_time(signed_in):
    job = make_job()
    assert "not told yet" in page_of(signed_in, job)
    response = signed_in.post(f"{reverse('conditions')}?job={job.key}", HOT)
    assert response["Location"] == f"/job/?job={job.key}"
    shown = page_of(signed_in, job)
    assert WORDS in shown
    assert "ask again" not in shown


def test_after_an_hour_the_job_asks_again(signed_in):
    job = make_job()
    told_ago(job, 61, **HOT)
    shown = page_of(signed_in, job)
    assert WORDS in shown
    assert "over an hour ago: ask again" in shown


def test_the_last_to_happen_counts_whichever_arrives_first(signed_in):
    job = make_job()
    told_ago(job, 5, air="dry")
    told_ago(job, 30, air="muggy")
    assert "dry air" in page_of(signed_in, job)


def test_a_test_begins_with_the_hours_conditions_it_asks_for_and_no_others(signed_in):
    job = make_job()
    told_ago(job, 20, **HOT)
    shown = page_of(signed_in, job, "step", "running_pressures")
    assert "Begins with what was told at" in shown
    assert 'name="ambient" value="31.5"' in shown
    assert 'name="rpm" value="2000"' in shown
    assert "Begins with" not in page_of(signed_in, job, "step", "coil_power")


def test_how_the_air_feels_begins_no_test_and_the_form_says_so(signed_in):
    job = make_job()
    told_ago(job, 20, air="muggy")
    assert "Begins with" not in page_of(signed_in, job, "step", "running_pressures")
    assert "no test begins with it" in page_of(signed_in, job, "conditions")


def test_what_is_over_an_hour_old_begins_no_test(signed_in):
    job = make_job()
    told_ago(job, 61, **HOT)
    shown = page_of(signed_in, job, "step", "running_pressures")
    assert "Begins with" not in shown
    assert "31.5" not in shown


def test_fahrenheit_stays_as_typed_and_begins_a_test_in_its_unit(signed_in):
    job = make_job()
    told_ago(job, 1, ambient="88 f")
    row = Conditions.objects.get()
    assert (row.ambient, row.ambient_unit) == ("88", "°F")
    assert 'name="ambient_unit" value="°F"' in page_of(signed_in, job, "step", "running_pressures")


def test_a_shop_in_fahrenheit_is_asked_in_it_and_sends_it_along(signed_in):
    fahrenheit()
    shown = page_of(signed_in, job := make_job(), "conditions")
    assert 'id="id_ambient_unit">°F<' in shown
    assert "14 to 122" in shown
    assert "°C behind it, too." in shown
    [sent] = re.findall(r'name="ambient_unit" value="([^"]+)"', shown)
    assert tell(CONDITIONS, job, ambient="88", ambient_unit=sent).stands
    assert Conditions.objects.get().text == "88\u00a0°F"


def test_a_bare_number_from_a_page_kept_before_is_in_the_unit_that_page_showed():
    fahrenheit()
    assert tell(CONDITIONS, make_job(), ambient="31").stands
    assert tell(CONDITIONS, make_job(plate="QV.2210"), ambient="30", ambient_unit="°C").stands
    assert [one.text for one in Conditions.objects.all()] == ["31\u00a0°C", "30\u00a0°C"]


def test_a_form_that_comes_back_shows_the_unit_it_was_typed_in(signed_in):
    fahrenheit()
    fields = {"ambient": "310", "ambient_unit": "°C"}
    response = signed_in.post(f"{reverse('conditions')}?job={make_job().key}", fields)
    assert 'id="id_ambient_unit">°C<' in response.content.decode()


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({}, "Tap or type at least one"),
        ({"ambient": "warm"}, "warm"),
        ({"ambient": "3 bar"}, "is not in °C or °F"),
        ({"rpm": "2000 km"}, "is not in rpm"),
        ({"ambient": "310"}, "A bay has −10 to 50 °C. Type it again, or keep it and say why."),
        ({"rpm": "9000"}, "A usual test speed is 500 to 4000 rpm."),
    ],
)
def test_what_cannot_be_read_comes_back_as_it_was_typed(signed_in, fields, sentence):
    response = signed_in.post(f"{reverse('conditions')}?job={make_job().key}", fields)
    assert response.status_code == 422
    shown = response.content.decode()
    assert sentence in shown
    assert all(value in shown for value in fields.values())


def test_an_odd_value_stays_with_its_reason():
    told = tell(CONDITIONS, make_job(), ambient="-20", ambient_why="winter yard")
    assert told.stands
    [said] = said_of(Entry.objects.get(key=told.key))
    assert "winter yard" in said


def test_the_same_told_twice_stands_once():
    told = make_told(HOT, job_key=make_job().key)
    assert enter(CONDITIONS, told).stands
    assert enter(CONDITIONS, told).state == AGAIN
    assert Conditions.objects.count() == 1
