"""The job's page, its failing-now switch, and the pages that settle what intake left open."""

import uuid
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.entries import CONSENT, CUSTOMER, FAILING_NOW, SYSTEM, VEHICLE
from jobs.logbook import ACCEPTED, RETURNED, enter
from jobs.models import Consent, Entry, Job
from jobs.search import asked_words, find
from tests.factories import INTAKE_FIELDS, make_job, make_person, make_told

pytestmark = pytest.mark.django_db

LEAST = dict.fromkeys(INTAKE_FIELDS) | {
    "customer_name": "Ida",
    "plate": "KX.4731D",
    "complaint": "Warm.",
}
PARTS = ("customer", "vehicle", "system", "consent")


@pytest.fixture
def signed_in(client):
    client.force_login(make_person())
    return client


def page_of(client, job):
    response = client.get(reverse("job"), {"job": str(job.key)})
    assert response.status_code == 200
    return response.content.decode()


def tell(kind, job, **fields):
    """An entry about a job."""
    return enter(kind, make_told(fields, job_key=job.key))


# The page.


def test_nobody_sees_a_job_without_a_sign_in(client):
    assert client.get(reverse("job"), {"job": str(make_job().key)}).status_code == 302


def test_the_car_is_the_heading(signed_in):
    job = make_job()
    shown = page_of(signed_in, job)
    for words in ("KX.4731D", "Brenloh Ilex 1.6, 2017", "Ida Marwell", job.number):
        assert words in shown


def test_loop_and_car_state_are_always_told(signed_in):
    shown = page_of(signed_in, make_job())
    assert "not looked at yet" in shown
    assert "Car as arrived (car state 0)" in shown


def test_open_points_stand_under_the_page_that_settles_them(signed_in):
    job = make_job(**LEAST)
    shown = page_of(signed_in, job)
    assert "9 points open." in shown
    for page in PARTS:
        assert shown.count(f'href="/{page}/?job={job.key}"') == 1


def test_a_complete_intake_says_that_no_point_is_open(signed_in):
    assert "No point open." in page_of(signed_in, make_job())


def test_what_was_odd_at_intake_is_told(signed_in):
    job = make_job(label_charge="6500", label_charge_why="coach")
    assert "more than a car holds" in page_of(signed_in, job)


def test_the_complaint_is_text_whatever_is_in_it(signed_in):
    shown = page_of(signed_in, make_job(complaint="<script>alert(1)</script>"))
    assert "<script>alert" not in shown
    assert "&lt;script&gt;alert(1)" in shown


def test_a_job_that_is_not_here_is_said_so(signed_in):
    response = signed_in.get(reverse("job"), {"job": str(uuid.uuid4())})
    assert response.status_code == 404
    assert "no such job" in response.content.decode()


def test_a_key_that_cannot_be_read_is_said_so(signed_in):
    response = signed_in.get(reverse("job"), {"job": "17"})
    assert response.status_code == 404


@pytest.mark.parametrize("page", ["job", *PARTS])
def test_the_neutral_page_knows_no_job_and_no_person(signed_in, page):
    make_job()
    response = signed_in.get(reverse(page))
    assert response.status_code == 200
    shown = response.content.decode()
    for words in ("KX.4731D", "Marwell", "555 010", "ZZ9HB1PA2ST000789"):
        assert words not in shown


def test_the_page_asks_the_database_the_same_however_much_was_told(
    signed_in, django_assert_max_num_queries
):
    job = make_job()
    for amount in range(1, 9):
        tell(CONSENT, job, consent_amount=str(amount), consent_how="phone")
        tell(FAILING_NOW, job, failing="yes")
    with django_assert_max_num_queries(7):
        page_of(signed_in, job)


# Failing now.


def test_the_switch_is_turned_and_shown(signed_in):
    job = make_job()
    address = f"{reverse('job_failing')}?job={job.key}"
    response = signed_in.post(address, {"failing": "yes", "key": str(uuid.uuid4())})
    assert response["Location"] == f"/job/?job={job.key}"
    assert Job.objects.get().failing_now == "yes"
    assert 'value="yes" checked' in page_of(signed_in, job)


def test_the_switch_is_a_post_only(signed_in):
    job = make_job()
    assert signed_in.get(f"{reverse('job_failing')}?job={job.key}").status_code == 405


def test_an_answer_that_is_none_comes_back(signed_in):
    job = make_job()
    address = f"{reverse('job_failing')}?job={job.key}"
    response = signed_in.post(address, {"failing": "perhaps", "key": str(uuid.uuid4())})
    assert response.status_code == 422
    assert "not in the list" in response.content.decode()
    assert Job.objects.get().failing_now == ""


def test_what_was_told_later_counts_whenever_it_arrives():
    job = make_job()
    now = timezone.now()
    earlier, later = now - timedelta(minutes=20), now - timedelta(minutes=10)
    enter(FAILING_NOW, make_told({"failing": "no"}, job_key=job.key, typed_at=later))
    enter(FAILING_NOW, make_told({"failing": "yes"}, job_key=job.key, typed_at=earlier))
    assert Job.objects.get().failing_now == "no"
    assert Entry.objects.filter(kind="failing_now").count() == 2


@pytest.mark.parametrize("kind", [FAILING_NOW, CUSTOMER, VEHICLE, SYSTEM, CONSENT])
def test_nothing_is_told_of_a_job_that_is_not_here(kind):
    make_job()
    fields = {"failing": "yes", "consent_amount": "1"}
    outcome = enter(kind, make_told(fields, job_key=uuid.uuid4()))
    assert outcome.state == RETURNED
    assert outcome.form
    assert "no such job" in str(outcome.form.errors)


# What is told later.


def test_the_customer_told_later_is_on_the_job_and_found():
    job = make_job(**LEAST)
    assert tell(CUSTOMER, job, phone="555 777 0101", payer="fleet").state == ACCEPTED
    job.refresh_from_db()
    assert (job.customer.name, job.customer.phone, job.payer) == ("Ida", "555 777 0101", "fleet")
    assert find(asked_words("777 0101")).jobs == [job]


def test_the_car_read_later_is_on_the_job_with_its_vin_s_mark():
    job = make_job(**LEAST)
    tell(VEHICLE, job, vin="1J9RP1A36A164434", odometer="84 200 mi")
    job = Job.objects.select_related("vehicle").get()
    assert job.vehicle.plate == "KX.4731D"
    assert job.vehicle.vin_mark.startswith("16 characters")
    assert job.odometer == "84\u00a0200\u00a0mi"
    tell(VEHICLE, job, vin="1J9RP1A36A1644345")
    assert Job.objects.select_related("vehicle").get().vehicle.vin_mark == ""


def test_the_system_looked_at_later_keeps_what_was_known():
    job = make_job(drive=None)
    tell(SYSTEM, job, drive="belt_clutch", label_charge="1,1 lb")
    system = Job.objects.select_related("vehicle__system").get().vehicle.system
    assert (system.drive, system.refrigerant) == ("belt_clutch", "R-134a")
    assert system.label_charge_mg == 498_952  # 1.1 lb x 453 592.37 mg
    mark = Entry.objects.get(kind="system").marks
    assert mark == ["Label charge changed; before: 520\u00a0g\u00a0(18.3\u00a0oz)."]


def test_a_consent_given_later_gets_the_next_number():
    job = make_job()
    tell(CONSENT, job, consent_amount="400", consent_how="phone", consent_by="Pell")
    kept = [(one.number, one.amount, one.given_by) for one in Consent.objects.all()]
    assert kept == [(1, 15000, "Ida Marwell"), (2, 40000, "Pell")]


def test_a_consent_page_without_an_amount_asks_for_it():
    outcome = tell(CONSENT, make_job(), consent_how="phone")
    assert outcome.form
    assert "needs its amount" in str(outcome.form.errors["consent_amount"])


@pytest.mark.parametrize("page", PARTS)
def test_the_page_of_a_part_posts_without_script(signed_in, page):
    job = make_job(**LEAST)
    fields = {"consent_amount": "90", "key": str(uuid.uuid4())}
    response = signed_in.post(f"{reverse(page)}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    assert Entry.objects.filter(kind=page, job_key=job.key).count() == 1


@pytest.mark.parametrize("page", PARTS)
def test_the_page_of_a_part_is_for_signed_in_people(client, page):
    job = make_job()
    assert client.get(f"{reverse(page)}?job={job.key}").status_code == 302


def test_the_pages_are_filled_with_what_is_known(signed_in):
    job = make_job()
    car = signed_in.get(f"{reverse('vehicle')}?job={job.key}").content.decode()
    assert 'value="KX.4731D"' in car
    assert 'value="84\u00a0200\u00a0mi"' in car
    system = signed_in.get(f"{reverse('system')}?job={job.key}").content.decode()
    assert 'value="520"' in system


def test_recording_a_filled_page_unchanged_changes_nothing(signed_in):
    job = make_job()
    told = {"odometer": "84\u00a0200\u00a0mi", "plate": "KX.4731D", "key": str(uuid.uuid4())}
    signed_in.post(f"{reverse('vehicle')}?job={job.key}", told)
    assert Entry.objects.get(kind="vehicle").marks == []
    assert Job.objects.get().odometer == "84\u00a0200\u00a0mi"
