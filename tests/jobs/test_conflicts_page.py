"""Every conflict in one place, with both values, who and when, and a tap that settles it."""

import uuid
from html import unescape

import pytest
from django.test import Client

from jobs.entries import CUSTOMER, FAILING_NOW, SYSTEM, VEHICLE
from jobs.logbook import REUSED, enter
from jobs.models import Entry, Job, Person
from jobs.models.conflicts import named, open_copies
from jobs.models.people import OWNER
from tests.factories import make_job, make_person, make_told
from tests.jobs.test_conflicts import now, opened, record

pytestmark = pytest.mark.django_db
ADDRESS = "/conflicts/"


@pytest.fixture
def job() -> Job:
    return make_job()


def who(name: str) -> Person:
    return Person.objects.filter(name=name).first() or make_person(name=name)


def twice(client: Client, kind, job: Job, **told: tuple[str, str]) -> Entry:
    """Two people fill the same form; returns the entry of the second."""
    form = opened(client, kind, job)
    sides = [{name: value[side] for name, value in told.items()} for side in (0, 1)]
    record(kind, job, form, author=who("M. Oyelaran"), **sides[0])
    late = record(kind, job, form, author=who("E. Quist"), **sides[1])
    return Entry.objects.get(key=late.key)


def shown(client: Client) -> str:
    client.force_login(make_person())
    return unescape(client.get(ADDRESS).content.decode())


def tap(client: Client, **told: str) -> str:
    client.force_login(who("T. Amberg"))
    answer = client.post("/conflicts/settle/", {"key": str(uuid.uuid4()), **told})
    assert answer.status_code == 302
    return str(answer.headers["Location"])


def copy_of(job: Job) -> None:
    """One key, two contents."""
    first = make_told({"failing": ["yes"]}, job_key=job.key)
    enter(FAILING_NOW, first)
    second = make_told({"failing": ["no"]}, job_key=job.key, key=first.key)
    assert enter(FAILING_NOW, second).state == REUSED


def test_both_values_stand_with_who_told_each(client, job):
    twice(client, VEHICLE, job, plate=("KX.4781D", "KX.4137D"))
    page = shown(client)
    for words in ("KX.4781D", "KX.4137D", "M. Oyelaran", "E. Quist", "Plate"):
        assert words in page


def test_a_conflict_on_a_closed_job_is_listed_too(client, job):
    twice(client, VEHICLE, job, plate=("KX.4781D", "KX.4137D"))
    Job.objects.filter(pk=job.pk).update(stage="closed")
    assert "KX.4137D" in shown(client)


def test_the_tap_for_what_stands_changes_no_row_and_takes_it_off_the_page(client, job):
    late = twice(client, VEHICLE, job, plate=("KX.4781D", "KX.4137D"))
    assert tap(client, conflict=named(late, "plate"), right="stands") == ADDRESS
    assert now(job).vehicle.plate == "KX.4781D"
    assert "KX.4137D" not in shown(client)


@pytest.mark.parametrize(
    ("kind", "told", "row"),
    [
        (VEHICLE, {"plate": ("KX.4781D", "KX.4137D")}, "plate"),
        (VEHICLE, {"odometer": ("84300", "84900"), "odometer_unit": ("mi", "km")}, "odometer"),
        (CUSTOMER, {"phone": ("555 010 7711", "555 010 8822")}, "phone"),
        (SYSTEM, {"refrigerant": ("R-1234yf", "R-744")}, "refrigerant"),
    ],
)
def test_the_tap_for_the_other_writes_it_as_it_was_typed(client, job, kind, told, row):
    late = twice(client, kind, job, **told)
    [mark] = [one for one in late.marks if one["code"] == "conflict"]
    tap(client, conflict=named(late, mark["field"]), right="told")
    stands = now(job)
    found = {
        "plate": stands.vehicle.plate,
        "odometer": stands.odometer_words,
        "phone": stands.customer.phone,
        "refrigerant": stands.vehicle.system.refrigerant,
    }
    wanted = {"odometer": "84\u00a0900\u00a0km"}.get(row, told[row][1] if row in told else "")
    assert found[row] == wanted
    assert "Told as well" not in shown(client)


def test_a_second_tap_for_the_same_settles_nothing_and_says_so(client, job):
    late = twice(client, VEHICLE, job, plate=("KX.4781D", "KX.4137D"))
    tap(client, conflict=named(late, "plate"), right="stands")
    assert tap(client, conflict=named(late, "plate"), right="told") == f"{ADDRESS}?settled"
    assert now(job).vehicle.plate == "KX.4781D"


@pytest.mark.parametrize("name", ["", "x", f"{uuid.UUID(int=7)}:plate", "a:b:c"])
def test_a_tap_for_what_is_no_conflict_writes_nothing(client, job, name):
    entries = Entry.objects.count()
    tap(client, conflict=name, right="told")
    assert Entry.objects.count() == entries


def test_a_copy_under_one_key_is_shown_until_somebody_looked_at_it(client, job):
    copy_of(job)
    assert "Two contents of one entry" in shown(client)
    [copy] = open_copies()
    tap(client, copy=f"{copy.key}:{copy.fingerprint}")
    assert open_copies() == []
    assert "Two contents of one entry" not in shown(client)


def test_a_tap_for_a_copy_that_never_came_writes_nothing(client, job):
    entries = Entry.objects.count()
    assert tap(client, copy=f"{uuid.uuid4()}:x") == f"{ADDRESS}?settled"
    assert Entry.objects.count() == entries


def test_many_conflicts_take_no_more_queries_than_one(client, job, django_assert_max_num_queries):
    def made(car: Job) -> None:
        twice(client, VEHICLE, car, plate=("KX.4781D", "KX.4137D"), vin=("A1", "B2"))
        copy_of(car)

    for car in (job, make_job(plate="PW.5504K"), make_job(plate="RV.4736A")):
        made(car)
    client.force_login(make_person())
    with django_assert_max_num_queries(11):
        client.get(ADDRESS)


def test_nobody_sees_it_without_a_sign_in(client):
    assert client.get(ADDRESS).headers["Location"].startswith("/sign_in/")


def test_what_people_sign_in_with_is_shown_to_nobody_not_even_as_a_hash(client):
    client.force_login(make_person(OWNER))
    new = {"key": str(uuid.uuid4()), "name": "B. Lind", "role": "technician"}
    for pin in ("4719", "4718"):
        client.post("/people/add/", {**new, "pin": pin})
    hashes = [one.fields["pin_hash"][0] for one in (*Entry.objects.all(), *open_copies())]
    page = shown(client)
    assert len(set(hashes)) == 2
    assert "Not shown: another" in page
    assert not any(one in page for one in hashes)
