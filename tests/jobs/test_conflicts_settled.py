"""A conflict waits as an open point until a person has chosen; its mark stays in the history."""

import uuid

import pytest
from django.urls import reverse

from jobs.entries import CUSTOMER, VEHICLE
from jobs.models import Entry, Job
from jobs.models.conflicts import named
from tests.diagnostics.test_record import data_of
from tests.factories import make_job, make_person, said_of
from tests.jobs.test_conflicts import now, opened, record

pytestmark = pytest.mark.django_db
QUESTION = "Which is right?"


@pytest.fixture
def job() -> Job:
    return make_job()


@pytest.fixture
def late(client, job) -> Entry:
    """The second of two who changed the plate: theirs did not become the row's."""
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, plate="KX.4781D")
    return Entry.objects.get(key=record(VEHICLE, job, form, plate="KX.4137D").key)


def page(client, name: str, job: Job) -> str:
    return client.get(f"{reverse(name)}?job={job.key}").content.decode()


def points(client, job: Job) -> list[str]:
    client.force_login(make_person())
    response = client.get(f"{reverse('job')}?job={job.key}")
    return [point.page for point in response.context["points"] if point.code == "conflict"]


def test_two_values_wait_as_an_open_point_of_their_page_and_are_no_remark(client, job, late):
    assert points(client, job) == ["vehicle"]
    assert page(client, "job", job).count(QUESTION) == 1


@pytest.mark.parametrize("plate", ["KX.4137D", "KX.1137D"])
def test_telling_the_field_anew_settles_it_whichever_it_is(client, job, late, plate):
    record(VEHICLE, job, opened(client, VEHICLE, job), plate=plate)
    assert now(job).vehicle.plate == plate
    assert points(client, job) == []


def test_a_tap_says_that_what_stands_is_right_and_changes_no_row(client, job, late):
    shown = page(client, "vehicle", job)
    assert QUESTION in shown
    assert "Plate: right as it stands" in shown
    record(VEHICLE, job, opened(client, VEHICLE, job), settled=named(late, "plate"))
    assert now(job).vehicle.plate == "KX.4781D"
    assert points(client, job) == []
    assert QUESTION not in page(client, "vehicle", job)


def test_the_mark_stays_in_the_history_with_who_settled_it(client, job, late):
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, author=make_person(name="M. Oyelaran"), settled=named(late, "plate"))
    [mark] = said_of(late)
    assert "“KX.4781D” stood since" in mark
    assert "here “KX.4137D” was told. Settled" in mark
    assert mark.endswith("(M. Oyelaran).")
    assert "Settled" in page(client, "job", job)


@pytest.mark.parametrize("typed", [{"make_model": "Brenloh Ilex 1.8"}, {}])
def test_an_entry_about_something_else_settles_nothing(client, job, late, typed):
    record(VEHICLE, job, opened(client, VEHICLE, job), **typed)
    record(CUSTOMER, job, opened(client, CUSTOMER, job), phone="555 010 0177")
    assert points(client, job) == ["vehicle"]


def test_a_third_who_did_not_see_it_settles_nothing(client, job):
    form = opened(client, VEHICLE, job)
    for plate in ("KX.4781D", "KX.4137D", "KX.1137D"):
        record(VEHICLE, job, form, plate=plate)
    assert points(client, job) == ["vehicle", "vehicle"]


@pytest.mark.parametrize("told", ["", "x", f"{uuid.UUID(int=7)}:plate"])
def test_a_tap_for_what_is_no_conflict_is_taken_and_settles_nothing(client, job, late, told):
    record(VEHICLE, job, opened(client, VEHICLE, job), settled=told)
    assert points(client, job) == ["vehicle"]


def test_a_tap_for_what_was_settled_meanwhile_is_no_error(client, job, late):
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, settled=named(late, "plate"))
    record(VEHICLE, job, form, settled=named(late, "plate"))
    assert points(client, job) == []


def test_a_record_prints_it_as_open_until_then_and_afterwards_as_settled(client, job, late):
    def printed() -> tuple[bool, bool]:
        data = data_of(job)
        told = str(data["corrections"])
        return QUESTION in str(data["open_points"]), "Settled" in told

    assert printed() == (True, False)
    record(VEHICLE, job, opened(client, VEHICLE, job), settled=named(late, "plate"))
    assert printed() == (False, True)


@pytest.mark.parametrize("name", ["job_json", "jobs_json"])
def test_a_tablet_is_told_of_it_without_either_value(client, job, name):
    form = opened(client, CUSTOMER, job)
    for phone in ("555 010 7711", "555 010 8822"):
        late = record(CUSTOMER, job, form, phone=phone)
    told = client.get(reverse(name), {"job": job.key}).content.decode()
    assert "Phone: two told it differently. Which is right?" in told
    assert "010 7711" not in told
    assert "010 8822" not in told
    record(CUSTOMER, job, opened(client, CUSTOMER, job), settled=f"{late.key}:phone")
    assert "two told" not in client.get(reverse(name), {"job": job.key}).content.decode()


def test_a_form_that_comes_back_still_asks(client, job, late):
    client.force_login(make_person())
    typed = opened(client, VEHICLE, job) | {"model_year": "soon", "key": str(uuid.uuid4())}
    response = client.post(f"{reverse('vehicle')}?job={job.key}", typed)
    assert response.status_code == 422
    assert "Plate: right as it stands" in response.content.decode()
