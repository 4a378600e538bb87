"""Taking in a car: one entry, all its rows, and what is odd about what was told."""

import hashlib
import uuid
from datetime import UTC, datetime
from unittest import mock

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.entries import INTAKE
from jobs.logbook import ACCEPTED, enter
from jobs.models import Customer, Entry, Job, Person, Vehicle
from jobs.models.points import open_points
from jobs.models.wordings import CONSENT_TEXTS
from tests.factories import (
    INTAKE_FIELDS,
    LEAST,
    intake_errors,
    make_job,
    make_person,
    make_shop,
    make_told,
    said_of,
    tell_intake,
)

pytestmark = pytest.mark.django_db


def marks_of(**fields):
    """The marks of a car that was taken in all the same."""
    return said_of(make_job(**fields).entry)


# What one entry makes.


def test_one_entry_makes_customer_car_system_job_state_and_consent():
    job = make_job()
    assert (job.customer.name, job.customer.phone) == ("Ida Marwell", "555 010 0199")
    assert (job.vehicle.plate, job.vehicle.model_year) == ("KX.4731D", 2017)
    assert job.vehicle.system.label_charge_mg == 520_000
    assert job.vehicle.system.sources == {"label_charge": "label"}
    assert [(state.number, state.what) for state in job.car_states.all()] == [(0, "Car as arrived")]
    assert [(consent.number, consent.amount) for consent in job.consents.all()] == [(1, 15000)]
    assert Entry.objects.count() == 1
    assert open_points(job, list(job.consents.all())) == []


def test_the_job_has_the_entry_s_own_key():
    job = make_job()
    assert job.key == job.entry.key == job.entry.job_key


def test_all_but_name_plate_and_complaint_may_wait_and_becomes_an_open_point():
    job = make_job(**LEAST)
    assert [(point.code, point.page) for point in open_points(job, [])] == [
        ("customer", "customer"),
        ("asked", "customer"),
        ("consent", "consent"),
        ("car", "vehicle"),
        ("system", "system"),
    ]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("phone", "phone"),
        ("payer", "who pays"),
        ("since", "since when"),
        ("warm_when", "when it blows warm"),
        ("topped_up", "topped up before"),
        ("accident", "accident or repair at the front"),
        ("other_work", "other work before it began"),
        ("make_model", "make and model"),
        ("model_year", "model year"),
        ("vin", "VIN"),
        ("odometer", "odometer"),
        ("drive", "drive"),
        ("displacement", "displacement"),
        ("voltage", "system voltage"),
        ("switched_side", "switched side"),
        ("refrigerant", "refrigerant"),
        ("label_charge", "label charge"),
        ("label_charge_source", "Label charge: where it was read"),
        ("branches", "branches"),
    ],
)
def test_each_fact_that_was_left_out_is_named_in_one_open_point(name, words):
    job = make_job(**{name: None})
    [point] = open_points(job, list(job.consents.all()))
    assert words in point.sentence.removeprefix("Not noted yet: ").removeprefix("Not asked yet: ")


def test_a_switched_side_is_missing_only_where_there_may_be_a_clutch():
    job = make_job(drive="electric_hv", switched_side=None)
    assert open_points(job, list(job.consents.all())) == []


@pytest.mark.parametrize("name", ["customer_name", "plate", "complaint"])
@pytest.mark.parametrize("blank", [None, "  ", "\u200b\u200b"])
def test_name_plate_and_complaint_are_asked_for_at_their_fields(name, blank):
    assert list(intake_errors(**{name: blank})) == [name]


def test_all_three_roles_take_in_cars():
    for role in ("technician", "desk", "owner"):
        assert tell_intake(make_person(role)).state == ACCEPTED


# The number.


def told_at(moment):
    """The number of a car that arrives at that moment."""
    with mock.patch.object(timezone, "now", return_value=moment):
        return tell_intake().result["number"]


def test_numbers_count_up_within_the_year():
    assert told_at(datetime(2026, 6, 1, tzinfo=UTC)) == "26-0001"
    assert told_at(datetime(2026, 6, 2, tzinfo=UTC)) == "26-0002"


def test_the_year_changes_at_the_shop_s_midnight():
    # The tests' shop is in Europe/Vienna, an hour ahead of UTC in winter.
    assert told_at(datetime(2026, 12, 31, 22, 59, tzinfo=UTC)) == "26-0001"
    assert told_at(datetime(2026, 12, 31, 23, 1, tzinfo=UTC)) == "27-0001"


def test_a_clock_put_back_over_new_year_gives_no_number_twice():
    assert told_at(datetime(2026, 12, 30, tzinfo=UTC)) == "26-0001"
    assert told_at(datetime(2027, 1, 2, tzinfo=UTC)) == "27-0001"
    assert told_at(datetime(2026, 12, 31, tzinfo=UTC)) == "26-0002"


def test_after_number_9999_comes_10000():
    make_job()
    Job.objects.update(number=f"{timezone.localtime():%y}-9999")
    assert tell_intake().result["number"].endswith("-10000")
    assert tell_intake().result["number"].endswith("-10001")


# The same person twice.


def test_a_known_phone_is_told_and_nobody_is_put_together():
    first = make_job(plate="ZL.1473B", customer_name="I. Marwell", phone="(555) 010-0199")
    marks = marks_of(phone="5550100199")
    assert len(marks) == 1
    assert marks[0].startswith(
        f"The shop already knows this phone: I. Marwell, job {first.number}."
        " Perhaps the same person."
    )
    assert Customer.objects.count() == 2


def test_a_known_name_is_told_once_even_when_the_phone_is_known_too():
    make_job(plate="ZL.1473B", phone="555 777 0000")
    assert "knows the name Ida Marwell" in marks_of(customer_name="ida MARWELL")[0]
    assert len(marks_of(plate="ZL.1473C")) == 1  # phone and name of the car before


def test_a_known_plate_is_told():
    first = make_job(customer_name="Pell Adeyemi", phone=None)
    assert marks_of(plate="kx 4731-d", phone=None) == [
        f"This plate was here before: job {first.number}, Pell Adeyemi."
    ]


def test_a_first_name_alone_or_a_short_number_says_nothing():
    make_job(plate="ZL.1473B", customer_name="Ida", phone="123")
    assert marks_of(customer_name="Ida", phone="123") == []


# Consent.


def test_the_exact_text_is_frozen_with_its_hash_time_giver_and_way():
    job = make_job(consent_by="Pell Marwell", consent_how="phone")
    consent = job.consents.get()
    assert consent.text == CONSENT_TEXTS["find_fault_1"]
    assert consent.text_sha256 == hashlib.sha256(consent.text.encode()).hexdigest()
    assert (consent.given_by, consent.how) == ("Pell Marwell", "phone")
    assert consent.given_at == job.entry.happened_at


def test_no_text_that_was_agreed_to_is_ever_edited():
    hashes = {
        code: hashlib.sha256(text.encode()).hexdigest() for code, text in CONSENT_TEXTS.items()
    }
    assert hashes["find_fault_1"] == (
        "beac70b14468f8a0590cff66c440c23cb31fdda20db4652b24dc66731c4dea2b"
    ), "a better text gets a code of its own"


def test_a_consent_without_its_amount_asks_for_it():
    assert "needs its amount" in intake_errors(consent_amount=None)["consent_amount"]


def test_a_consent_text_this_server_does_not_know_is_said_so():
    assert "not known here" in intake_errors(consent_text="find_fault_99")["consent_text"]


def test_a_consent_whose_way_was_not_noted_stands_and_leaves_a_point():
    job = make_job(consent_how=None)
    assert [point.code for point in open_points(job, list(job.consents.all()))] == ["consent_how"]


# A form that was changed after it may have arrived.


def correct(job, **fields):
    key = uuid.uuid4()
    told = make_told({**INTAKE_FIELDS, **fields}, key=key, job_key=key, corrects=job.key)
    return enter(INTAKE, told)


def test_a_correction_fills_the_same_job_and_tells_what_changed():
    job = make_job()
    outcome = correct(job, plate="KX.4781D", payer="fleet")
    assert outcome.result["job"] == str(job.key)
    assert (Job.objects.count(), Vehicle.objects.get().plate) == (1, "KX.4781D")
    marks = said_of(Entry.objects.get(key=outcome.key))
    assert marks == ["Plate changed; before: KX.4731D.", "Who pays changed; before: Customer."]


def test_the_same_consent_told_again_is_not_a_second_one():
    job = make_job()
    correct(job)
    assert job.consents.count() == 1
    correct(job, consent_amount="200")
    assert [consent.number for consent in job.consents.all()] == [1, 2]


def test_a_correction_of_what_never_arrived_takes_in_the_car_under_the_originals_key():
    """What the tablet told of the car since names the original's job."""
    make_shop()
    key, original = uuid.uuid4(), uuid.uuid4()
    told = make_told(INTAKE_FIELDS, key=key, job_key=key, corrects=original)
    assert enter(INTAKE, told).state == ACCEPTED
    assert Job.objects.get().key == original


# The page.


@pytest.fixture
def person() -> Person:
    make_shop()
    return make_person()


def test_nobody_takes_in_a_car_without_a_sign_in(client):
    assert client.get(reverse("intake")).status_code == 302


def test_the_form_is_there_for_every_role(client):
    make_shop()
    for role in ("technician", "desk", "owner"):
        client.force_login(make_person(role))
        assert client.get(reverse("intake")).status_code == 200


def test_a_post_without_script_goes_on_to_the_job(client, person):
    client.force_login(person)
    key = str(uuid.uuid4())
    response = client.post(reverse("intake"), {**INTAKE_FIELDS, "key": key})
    assert (response.status_code, response["Location"]) == (302, f"/job/?job={key}")
    assert Job.objects.get().entry.author == person


def test_the_same_post_twice_is_one_car(client, person):
    client.force_login(person)
    fields = {**INTAKE_FIELDS, "key": str(uuid.uuid4())}
    first, second = (client.post(reverse("intake"), fields) for _ in range(2))
    assert first["Location"] == second["Location"]
    assert Job.objects.count() == 1


def test_a_form_with_a_problem_comes_back_with_all_that_was_typed(client, person):
    client.force_login(person)
    key = str(uuid.uuid4())
    fields = {**INTAKE_FIELDS, "key": key, "label_charge": "half", "complaint": "<b>warm"}
    response = client.post(reverse("intake"), fields)
    page = response.content.decode()
    assert response.status_code == 422
    assert f'value="{key}"' in page
    assert "“half” is no number" in page
    assert "&lt;b&gt;warm" in page
    assert (
        "Nothing is recorded yet:</strong> mend label charge. All you typed is still here." in page
    )
    assert not Job.objects.exists()


def test_the_page_lets_nothing_be_cut_or_refused_by_the_browser(client, person):
    client.force_login(person)
    page = client.get(reverse("intake")).content.decode()
    assert "maxlength" not in page
    assert 'type="number"' not in page
    assert " required" not in page


def test_taking_in_a_car_asks_the_database_the_same_however_many_cars_there_are(
    django_assert_max_num_queries,
):
    author = make_person()
    tell_intake(author)
    with django_assert_max_num_queries(32):
        tell_intake(author)
    for _ in range(8):
        tell_intake(author)
    with django_assert_max_num_queries(32):
        tell_intake(author)


@pytest.mark.parametrize("odd", [{"key": "17"}, {"A B": "x"}, {"corrects": "no key"}])
def test_a_post_that_no_form_of_ours_sends_is_answered_and_writes_nothing(client, person, odd):
    client.force_login(person)
    response = client.post(reverse("intake"), {**INTAKE_FIELDS, "key": str(uuid.uuid4()), **odd})
    assert response.status_code == 400
    assert "KX.4731D" in response.content.decode()  # what was typed is shown
    assert not Entry.objects.exists()


def test_a_correction_of_an_intake_belongs_to_the_job_it_corrects():
    job = make_job()
    first = correct_intake(job.key, plate="KX.4731E")
    second = correct_intake(first.key, plate="KX.4731F")
    assert [one.state for one in (first, second)] == ["accepted", "accepted"]
    keys = Entry.objects.filter(kind="intake").values_list("job_key", flat=True)
    assert set(keys) == {job.key}
    assert Job.objects.get().vehicle.plate == "KX.4731F"


def correct_intake(corrected, **fields):
    key = uuid.uuid4()
    told = make_told(INTAKE_FIELDS | fields, key=key, job_key=key, corrects=corrected)
    return enter(INTAKE, told)


def test_an_intake_sent_without_a_job_still_belongs_to_its_own():
    make_shop()
    outcome = enter(INTAKE, make_told(INTAKE_FIELDS, key=uuid.uuid4(), job_key=None))
    assert Entry.objects.get().job_key == outcome.key
