"""A corrected intake, held against the one that it corrects and against what was told since."""

import uuid
from datetime import timedelta
from itertools import permutations
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.entries import CUSTOMER, INTAKE, SYSTEM, VEHICLE
from jobs.logbook import Outcome, enter
from jobs.models import Entry, Job
from tests.factories import (
    INTAKE_FIELDS,
    LEAST,
    make_job,
    make_person,
    make_shop,
    make_told,
    said_of,
    tell,
)

pytestmark = pytest.mark.django_db
PHONE = INTAKE_FIELDS["phone"]


def correct(job: Job, corrects: Any = None, minutes_ago: Any = 0, **fields: Any) -> Outcome:
    """The whole form once more, with these fields otherwise; None: cleared."""
    key = uuid.uuid4()
    told = {name: text for name, text in (INTAKE_FIELDS | fields).items() if text is not None}
    moment = timezone.now() - timedelta(minutes=minutes_ago)
    outcome = enter(
        INTAKE,
        make_told(told, key=key, job_key=key, corrects=corrects or job.key, happened_at=moment),
    )
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome


def now(job: Job) -> Job:
    return Job.objects.select_related("customer", "vehicle__system").get(pk=job.pk)


def marks(outcome: Outcome) -> list[str]:
    return said_of(Entry.objects.get(key=outcome.key))


def test_what_the_correction_leaves_empty_is_taken_out_and_said_so():
    job = make_job(topped_up="yes")
    gone = ("phone", "vin", "odometer", "label_charge", "label_charge_source", "since", "branches")
    told = marks(correct(job, topped_up="yes", **dict.fromkeys(gone)))
    job = now(job)
    system = job.vehicle.system
    assert (job.customer.phone, job.vehicle.vin, job.vehicle.vin_mark) == ("", "", "")
    assert (job.odometer, job.odometer_unit) == (None, "")
    assert (system.label_charge_mg, system.sources, system.branches) == (None, {}, [])
    assert (job.complaint_answers.get("since"), job.complaint_answers["topped_up"]) == (None, "yes")
    assert f"Phone not known; before: {PHONE}." in told
    assert "Since when not known; before: Weeks." in told


def test_what_was_empty_before_and_stays_so_leaves_what_was_told_since():
    job = make_job(**LEAST)
    tell(CUSTOMER, job, phone="0999")
    least = {"customer_name": "Ida", "plate": "KX.4731D", "complaint": "Warm when idling."}
    told = marks(correct(job, **(dict.fromkeys(INTAKE_FIELDS) | least)))
    assert now(job).customer.phone == "0999"
    assert [one.partition(";")[0] for one in told] == ["Complaint changed"]


def test_a_correction_of_the_complaint_leaves_a_phone_that_was_told_since():
    job = make_job()
    tell(CUSTOMER, job, phone="0999", was_phone=PHONE)
    told = marks(correct(job, complaint="Warm when idling."))
    job = now(job)
    assert (job.customer.phone, job.complaint) == ("0999", "Warm when idling.")
    assert not any("Phone" in one for one in told)


@pytest.mark.parametrize("phone", ["0888", None])
def test_a_corrected_phone_against_one_that_was_told_since_asks_which_is_right(client, phone):
    job = make_job()
    tell(CUSTOMER, job, phone="0999", was_phone=PHONE)
    [mark] = marks(correct(job, phone=phone))
    assert now(job).customer.phone == "0999"
    assert mark.startswith("Phone: “0999” stands since")
    assert f"here “{phone or 'not known'}” was told. Which is right?" in mark
    client.force_login(make_person())
    page = client.get(f"{reverse('customer')}?job={job.key}").content.decode()
    assert "Phone: right as it stands" in page


def test_a_conflict_of_a_corrected_intake_stands_at_the_page_that_settles_it(client):
    job = make_job()
    tell(VEHICLE, job, plate="KX.1", was_plate="KX.4731D")
    tell(SYSTEM, job, refrigerant="R-1234yf", was_refrigerant="R-134a")
    correct(job, plate="KX.2", refrigerant="R-12")
    client.force_login(make_person())
    for page in ("vehicle", "system"):
        shown = client.get(f"{reverse(page)}?job={job.key}").content.decode()
        assert "right as it stands" in shown
    assert client.get(f"{reverse('job')}?job={job.key}").status_code == 200
    assert client.get(f"{reverse('job_json')}?job={job.key}").status_code == 200
    settled = tell(VEHICLE, job, plate="KX.2", was_plate="KX.1")
    assert len(settled.result["settles"]) == 1


def test_a_second_correction_writes_over_the_first():
    job = make_job()
    first = correct(job, phone="0888")
    correct(job, corrects=first.key, phone="0777")
    assert now(job).customer.phone == "0777"


def test_of_two_corrections_the_last_to_happen_stands_though_it_arrived_first():
    job = make_job()
    make_earlier(job)
    correct(job, phone="0888", minutes_ago=10)
    late = correct(job, phone="0777", minutes_ago=20)
    assert now(job).customer.phone == "0888"
    assert "A later correction of this was here already; that one stands." in marks(late)


def make_earlier(job: Job) -> None:
    """The intake itself happened an hour ago."""
    Entry.objects.filter(key=job.key).update(happened_at=timezone.now() - timedelta(hours=1))


def told_at(hours_ago: int, job: Job, phone: str) -> Outcome:
    moment = timezone.now() - timedelta(hours=hours_ago)
    fields = {"phone": phone, "was_phone": ""}
    return enter(CUSTOMER, make_told(fields, job_key=job.key, happened_at=moment))


@pytest.mark.parametrize(("first", "second", "stands"), [(1, 24, "0222"), (24, 1, "0111")])
def test_what_was_typed_on_an_empty_field_goes_over_what_happened_before_it_only(
    first, second, stands
):
    job = make_job(**LEAST)
    told_at(first, job, "0222")
    told = marks(told_at(second, job, "0111"))
    assert now(job).customer.phone == stands
    assert any("Which is right?" in one for one in told) == (stands == "0222")


def told_of(
    corrects: Any = None, key: Any = None, minutes_ago: int = 0, job: Any = None, **fields: str
) -> Outcome:
    """An intake with a key of its own, that may correct one which is not here yet."""
    make_shop()
    key = key or uuid.uuid4()
    moment = timezone.now() - timedelta(minutes=minutes_ago)
    told = make_told(
        INTAKE_FIELDS | fields, key=key, job_key=job or key, corrects=corrects, happened_at=moment
    )
    outcome = enter(INTAKE, told)
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome


def test_a_correction_that_comes_first_opens_the_job_under_the_originals_key():
    original = uuid.uuid4()
    told_of(original, plate="KX.4781D", minutes_ago=5)
    told_of(key=original, minutes_ago=20)
    job = Job.objects.get()
    assert job.key == original
    assert job.vehicle.plate == "KX.4781D"
    assert (timezone.now() - job.opened_at).total_seconds() > 19 * 60
    assert job.car_states.get().opened_at == job.opened_at


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_three_that_correct_one_another_open_one_job_in_whatever_order_they_come(order):
    keys = [uuid.uuid4() for _ in range(3)]
    for one in order:
        before = keys[one - 1] if one else None
        told_of(before, keys[one], 20 - one, keys[0], plate=f"KX.{one}731D")
    assert Job.objects.get().vehicle.plate == "KX.2731D"


def test_what_was_to_correct_another_kind_of_entry_opens_a_job_of_its_own():
    job = make_job()
    step = tell(CUSTOMER, job, phone="0999")
    outcome = told_of(step.key)
    assert Job.objects.filter(key=outcome.key).exists()
