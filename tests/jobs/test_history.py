"""What the shop did for a customer and on a car."""

import uuid
from typing import Any

import pytest
from django.urls import reverse

from jobs.entries import CHANGE
from jobs.models import Customer, Job, Vehicle
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.views import history
from tests.diagnostics.step_forms import tell as tell_step
from tests.factories import make_job, make_person, tell

pytestmark = pytest.mark.django_db


def page(client: Any, role: str = TECHNICIAN, **asked: object) -> str:
    client.force_login(make_person(role))
    response = client.get(reverse("history"), asked)
    assert response.status_code == 200
    return response.content.decode()


def again(job: Job, **fields: Any) -> Job:
    """The same car on another visit, about something else."""
    return make_job(follows=str(job.key), before="other_matter", **fields)


def test_nobody_sees_a_history_without_a_sign_in(client):
    job = make_job()
    response = client.get(reverse("history"), {"vehicle": job.vehicle.key})
    assert response.status_code == 302


def test_a_car_s_page_has_all_its_jobs_with_what_was_said_found_and_changed(client):
    job = make_job(complaint="Blows warm.\nSince Monday.")
    tell_step(job)
    tell(CHANGE, job, what="fitted", part="clutch", source="new", serial="7")
    last = again(job, odometer="91000")
    shown = page(client, vehicle=job.vehicle.key)
    for words in ("Blows warm.", "84\u202f200", "Clutch, complete: fitted or swapped, new"):
        assert words in shown.replace("\xa0", "\u202f")
    assert "Since Monday" not in shown
    assert "Found:" in shown
    assert shown.index(last.number) < shown.index(job.number)


def test_a_customer_s_page_has_the_cars_and_the_jobs_of_all_of_them(client):
    job = make_job()
    other = make_job(plate="RV.4736A", vin="ZZ9AB2CD1RT000123", customer_name="Ida Marwell")
    Job.objects.filter(pk=other.pk).update(customer=job.customer)
    shown = page(client, customer=job.customer.key)
    assert shown.count("KX.4731D") == 2  # among the cars and at its job
    assert shown.count("RV.4736A") == 2
    assert "555 010 0199" in shown


def test_both_are_one_tap_from_the_job_and_from_the_pages_that_correct_them(client):
    job = make_job()
    client.force_login(make_person())
    for route, kinds in (
        ("job", ("customer", "vehicle")),
        ("customer", ("customer",)),
        ("vehicle", ("vehicle",)),
    ):
        shown = client.get(f"{reverse(route)}?job={job.key}").content.decode()
        for kind in kinds:
            assert f"{reverse('history')}?{kind}={getattr(job, kind).key}" in shown


def test_fifty_stand_there_and_the_older_ones_are_one_link_away(client, monkeypatch):
    monkeypatch.setattr(history, "PAGE", 2)
    job = make_job()
    more = [again(job), again(job)]
    shown = page(client, vehicle=job.vehicle.key)
    assert job.number not in shown
    assert f"older={more[0].key}" in shown
    older = page(client, vehicle=job.vehicle.key, older=more[0].key)
    assert job.number in older
    assert "Older jobs, newest first" in older


@pytest.mark.parametrize("about", ["vehicle", "customer"])
def test_it_asks_the_database_the_same_however_many_jobs_there_are(
    client, django_assert_max_num_queries, about
):
    job = make_job()
    for _ in range(6):
        one = again(job)
        tell_step(one)
        tell(CHANGE, one, what="opened")
    client.force_login(make_person())
    # Session, person, row, jobs, cars, who was put together with it, states, steps, changes.
    with django_assert_max_num_queries(11):
        client.get(reverse("history"), {about: getattr(job, about).key})


@pytest.mark.parametrize("about", [Customer, Vehicle])
def test_one_that_was_merged_leads_to_the_one_that_stays(client, about):
    first, second = make_job(), make_job()
    name = "customer" if about is Customer else "vehicle"
    stays, goes = getattr(first, name), getattr(second, name)
    about.objects.filter(pk=goes.pk).update(merged_into=stays)
    client.force_login(make_person())
    response = client.get(reverse("history"), {name: goes.key})
    assert response["Location"] == f"{reverse('history')}?{name}={stays.key}"


@pytest.mark.parametrize(
    "asked", [{}, {"customer": uuid.UUID(int=7)}, {"vehicle": uuid.UUID(int=7)}, {"customer": "x"}]
)
def test_what_is_not_here_is_said(client, asked):
    client.force_login(make_person())
    assert client.get(reverse("history"), asked).status_code == 404


@pytest.mark.parametrize(
    ("role", "merges", "redacts"),
    [(TECHNICIAN, False, False), (DESK, True, False), (OWNER, True, True)],
)
def test_putting_together_is_offered_to_desk_and_owner_and_taking_out_to_the_owner(
    client, role, merges, redacts
):
    shown = page(client, role, customer=make_job().customer.key)
    assert (f'href="{reverse("merge")}' in shown) == merges
    assert (f'href="{reverse("redact")}' in shown) == redacts
