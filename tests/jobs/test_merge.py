"""Two rows that are one: found, looked at beside each other, put together."""

import uuid
from typing import Any

import pytest
from django.urls import reverse

from jobs.entries import CUSTOMER, MERGE
from jobs.logbook import ACCEPTED, REFUSED, RETURNED, Outcome, enter
from jobs.models import Customer, Entry, Job, Vehicle
from jobs.models.people import DESK
from jobs.search import asked_words, find
from tests.factories import make_job, make_person, make_told, said_of, tell
from tests.jobs.test_conflicts import opened, record

pytestmark = pytest.mark.django_db


def pair(about: str, **other: Any) -> tuple[Any, Any]:
    """Two rows of two jobs."""
    first, second = make_job(), make_job(**other)
    return getattr(first, about), getattr(second, about)


def put_together(about: str, stays: Any, goes: Any, /, **fields: str) -> Outcome:
    """Tell the logbook, as the front desk."""
    job = Job.objects.filter(**{f"{about}__in": [stays, goes]}).order_by("-id").first()
    told = {"about": about, "one": str(stays.key), "other": str(goes.key), "stays": str(stays.key)}
    author = make_person(DESK)
    return enter(MERGE, make_told(told | fields, author, job_key=job.key if job else None))


@pytest.fixture
def desk(client):
    client.force_login(make_person(DESK))
    return client


def page(client: Any, **asked: object) -> str:
    response = client.get(reverse("merge"), asked)
    assert response.status_code == 200
    return response.content.decode()


# The page.


def test_those_that_are_alike_are_offered_without_being_looked_for(desk):
    stays, goes = pair("customer")
    shown = page(desk, customer=stays.key)
    assert f"other={goes.key}" in shown
    assert f"other={stays.key}" not in shown


def test_who_brought_the_same_plate_is_alike_whatever_the_name(desk):
    stays, goes = pair("customer", customer_name="Ida Marwel", phone=None, plate="kx 4731 d")
    assert f"other={goes.key}" in page(desk, customer=stays.key)


def test_afterwards_the_page_says_who_was_put_together_and_that_a_plate_stands_there_twice(desk):
    stays, goes = pair("customer", customer_name="Ida Marwel", plate="kx 4731 d")
    cars = list(Vehicle.objects.order_by("pk"))
    assert put_together("customer", stays, goes).state == ACCEPTED
    shown = desk.get(reverse("history"), {"customer": stays.key}).content.decode()
    assert "Put together with this one: <bdi>Ida Marwel</bdi>" in shown
    assert f"vehicle={cars[0].key}&amp;other={cars[1].key}" in shown
    assert put_together("vehicle", *cars).state == ACCEPTED
    shown = desk.get(reverse("history"), {"customer": stays.key}).content.decode()
    assert "stands here twice" not in shown


def test_the_other_one_is_found_by_what_is_typed(desk):
    stays, goes = pair("customer", customer_name="Ida Marwel", phone=None, plate="RV.4736A")
    assert f"other={goes.key}" in page(desk, customer=stays.key, words="4736")


def test_both_stand_beside_each_other_with_what_differs(desk):
    stays, goes = pair("vehicle", vin="ZZ9AB2CD1RT000123")
    shown = page(desk, vehicle=stays.key, other=goes.key)
    assert shown.count('class="differs"') == 1
    for words in ("ZZ9HB1PA2ST000789", "ZZ9AB2CD1RT000123", "1 job, the last on"):
        assert words in shown


def test_the_page_posts_without_script_and_leads_to_the_one_that_stays(desk):
    stays, goes = pair("customer")
    address = f"{reverse('merge')}?customer={goes.key}&other={stays.key}"
    told = {"about": "customer", "one": str(goes.key), "other": str(stays.key)}
    response = desk.post(address, told | {"key": str(uuid.uuid4())})
    assert response.status_code == 422
    assert "Tap the one that stays." in response.content.decode()
    response = desk.post(address, told | {"stays": str(stays.key), "key": str(uuid.uuid4())})
    assert response["Location"] == f"{reverse('history')}?customer={stays.key}"


def test_one_that_was_merged_has_no_such_page_any_more(desk):
    stays, goes = pair("customer")
    put_together("customer", stays, goes)
    response = desk.get(reverse("merge"), {"customer": goes.key})
    assert response["Location"] == f"{reverse('history')}?customer={stays.key}"


def test_it_asks_the_database_the_same_however_many_are_alike(desk, django_assert_max_num_queries):
    first = make_job()
    for _ in range(6):
        make_job()
    with django_assert_max_num_queries(10):  # session, person, row, cars, three searches of two
        desk.get(reverse("merge"), {"customer": first.customer.key})


# What it does.


@pytest.mark.parametrize("about", ["customer", "vehicle"])
def test_jobs_move_and_the_row_that_goes_points_to_the_one_that_stays(about):
    stays, goes = pair(about)
    moved = goes.jobs.get()
    outcome = put_together(about, stays, goes)
    assert outcome.state == ACCEPTED
    assert outcome.result["moved"] == [str(moved.key)]
    assert stays.jobs.count() == 2
    goes.refresh_from_db()
    assert goes.merged_into == stays


def test_the_cars_of_a_customer_who_goes_are_the_other_one_s():
    stays, goes = pair("customer")
    put_together("customer", stays, goes)
    assert stays.vehicles.count() == 2


def test_the_jobs_that_moved_are_found_by_the_name_that_stands():
    stays, goes = pair("customer", customer_name="Ida Quill", phone="555 020 0298")
    put_together("customer", stays, goes)
    assert len(find(asked_words("marwell")).jobs) == 2
    assert find(asked_words("quill")).jobs == []


def test_the_jobs_are_still_found_by_the_plate_of_the_car_that_went():
    stays, goes = pair("vehicle", plate="OLD 88")
    assert put_together("vehicle", stays, goes).state == ACCEPTED
    assert [job.vehicle for job in find(asked_words("old88")).jobs] == [stays, stays]


def test_what_the_one_that_stays_lacks_is_taken_over():
    stays, goes = pair("customer")
    Customer.objects.filter(pk=stays.pk).update(phone="")
    put_together("customer", stays, goes)
    stays.refresh_from_db()
    assert stays.phone == "555 010 0199"


def test_what_differs_waits_on_the_job_until_somebody_says_which_is_right(client):
    stays, goes = pair("customer", phone="555 020 0298")
    outcome = put_together("customer", stays, goes)
    entry = Entry.objects.get(key=outcome.key)
    assert "Phone: “555 010 0199” stands; here “555 020 0298” was told" in " ".join(said_of(entry))
    client.force_login(make_person())
    assert entry.job_key
    job = Job.objects.get(key=entry.job_key)
    shown = client.get(f"{reverse('job')}?job={job.key}")
    assert [one.page for one in shown.context["points"] if one.code == "conflict"] == ["customer"]
    record(CUSTOMER, job, opened(client, CUSTOMER, job), phone="555 020 0298")
    shown = client.get(f"{reverse('job')}?job={job.key}")
    assert [one for one in shown.context["points"] if one.code == "conflict"] == []


def test_what_is_known_of_the_a_c_is_put_together_too():
    stays, goes = pair("vehicle", label_charge="480", drive=None)
    stays.system.drive, stays.system.displacement = "", ""
    stays.system.save()
    outcome = put_together("vehicle", stays, goes)
    stays.system.refresh_from_db()
    assert (stays.system.drive, stays.system.displacement) == ("", "fixed")
    [asked] = Entry.objects.get(key=outcome.key).marks
    assert asked["field"] == "label_charge"


def test_what_differs_of_the_clutch_is_asked_on_the_page_that_can_settle_it(client):
    stays, goes = pair("vehicle")
    for car, milliohm in ((stays, 3600), (goes, 4100)):
        car.system.coil_milliohm = milliohm
        car.system.save()
    entry = Entry.objects.get(key=put_together("vehicle", stays, goes).key)
    client.force_login(make_person())
    shown = client.get(f"{reverse('job')}?job={entry.job_key}")
    assert [one.page for one in shown.context["points"] if one.code == "conflict"] == ["system"]


def test_what_a_tablet_told_of_the_one_that_went_lands_on_the_one_that_stays():
    stays, goes = pair("customer", phone=None)
    job = goes.jobs.get()
    put_together("customer", stays, goes)
    tell(
        CUSTOMER,
        job,
        payer="fleet",
        was_customer_name="Ida Marwell",
        customer_name="Ida M. Marwell",
    )
    stays.refresh_from_db()
    goes.refresh_from_db()
    assert (stays.name, goes.name) == ("Ida M. Marwell", "Ida Marwell")


def test_a_third_leads_straight_to_the_last_that_stays():
    first, second = pair("customer")
    third = make_job().customer
    put_together("customer", second, third)
    put_together("customer", first, second)
    third.refresh_from_db()
    assert third.merged_into == first
    assert first.jobs.count() == 3


# What it does not do.


def test_nothing_is_put_together_twice_or_in_a_ring():
    stays, goes = pair("vehicle")
    put_together("vehicle", stays, goes)
    assert put_together("vehicle", stays, goes).state == REFUSED
    assert put_together("vehicle", goes, stays).state == REFUSED
    assert Vehicle.objects.filter(merged_into=None).count() == 1


def test_one_is_not_put_together_with_itself():
    stays, _ = pair("customer")
    assert put_together("customer", stays, stays).state == RETURNED


@pytest.mark.parametrize(
    "changed", [{"other": str(uuid.UUID(int=7))}, {"other": "x"}, {"about": "shop"}]
)
def test_what_is_not_here_is_put_together_with_nothing(changed):
    stays, goes = pair("customer")
    assert put_together("customer", stays, goes, **changed).state == RETURNED


def test_the_one_that_stays_is_one_of_the_two():
    stays, goes = pair("customer")
    assert put_together("customer", stays, goes, stays=str(uuid.UUID(int=7))).state == RETURNED


def test_no_name_stands_in_the_entry_or_its_result():
    stays, goes = pair("customer")
    entry = Entry.objects.get(key=put_together("customer", stays, goes).key)
    assert "Marwell" not in f"{entry.fields} {entry.result}"


@pytest.mark.parametrize(
    ("name", "mild", "worse"),
    [
        ("drive", "belt_clutch", "electric_hv"),
        ("drive", "electric_48", "electric_hv"),
        ("refrigerant", "R-134a", "R-1234yf"),
        ("refrigerant", "R-1234yf", "R-152a"),
        ("refrigerant", "R-1234yf", "other"),
    ],
)
@pytest.mark.parametrize("worse_goes", [True, False])
def test_of_what_can_hurt_the_more_dangerous_stands_until_a_person_settles_it(
    name, mild, worse, worse_goes
):
    stays, goes = pair("vehicle")
    for car, value in zip(
        (stays, goes), (mild, worse) if worse_goes else (worse, mild), strict=True
    ):
        setattr(car.system, name, value)
        car.system.save()
    outcome = put_together("vehicle", stays, goes)
    stays.system.refresh_from_db()
    assert getattr(stays.system, name) == worse
    [asked] = [one for one in Entry.objects.get(key=outcome.key).marks if one["field"] == name]
    assert (asked["stood"], asked["told"]) == ({name: worse}, {name: mild})
