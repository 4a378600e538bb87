"""The car of a job, read later."""

import uuid

import pytest
from django.urls import reverse

from jobs.entries import VEHICLE
from jobs.models import Entry, Job
from tests.factories import LEAST, make_job, make_person, said_of, tell

pytestmark = pytest.mark.django_db


def test_the_car_read_later_is_on_the_job_with_its_vin_s_mark():
    job = make_job(**LEAST)
    tell(VEHICLE, job, vin="1J9RP1A36A164434", odometer="84 200 mi")
    job = Job.objects.select_related("vehicle").get()
    assert job.vehicle.plate == "KX.4731D"
    assert job.vehicle.vin_mark.startswith("16 characters")
    assert (job.odometer, job.odometer_unit) == (84_200, "mi")
    tell(VEHICLE, job, vin="1J9RP1A36A1644345")
    assert Job.objects.select_related("vehicle").get().vehicle.vin_mark == ""


def test_the_page_is_filled_and_recording_it_unchanged_changes_nothing(client):
    job = make_job()
    client.force_login(make_person())
    address = f"{reverse('vehicle')}?job={job.key}"
    page = client.get(address).content.decode()
    assert 'value="KX.4731D"' in page
    assert 'name="odometer" value="84200"' in page
    told = {"odometer": "84\u00a0200\u00a0mi", "plate": "KX.4731D", "key": str(uuid.uuid4())}
    client.post(address, told)
    assert said_of(Entry.objects.get(kind="vehicle")) == []
    assert Job.objects.get().odometer_words == "84\u00a0200\u00a0mi"


def test_the_page_is_for_signed_in_people(client):
    job = make_job()
    assert client.get(f"{reverse('vehicle')}?job={job.key}").status_code == 302


def test_the_page_posts_without_script(client):
    job = make_job(**LEAST)
    client.force_login(make_person())
    fields = {"odometer": "84 200 mi", "key": str(uuid.uuid4())}
    response = client.post(f"{reverse('vehicle')}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    assert Entry.objects.filter(kind="vehicle", job_key=job.key).count() == 1


@pytest.mark.parametrize("dash", ["-", "–", " — ", "−"])
@pytest.mark.parametrize(
    ("field", "before"),
    [
        ("vin", "VIN not known; before: ZZ9HB1PA2ST000789."),
        ("make_model", "Make and model not known; before: Brenloh Ilex 1.6."),
        ("model_year", "Model year not known; before: 2017."),
        ("odometer", "Odometer not known; before: 84\u00a0200\u00a0mi."),
    ],
)
def test_a_dash_takes_a_wrong_value_out_and_what_stood_there_is_told(field, before, dash):
    job = make_job()
    assert tell(VEHICLE, job, **{field: dash}).stands
    job = Job.objects.select_related("vehicle").get()
    row = job if field == "odometer" else job.vehicle
    assert not getattr(row, field)
    assert job.vehicle.vin_mark == "" or field != "vin"
    assert said_of(Entry.objects.get(kind="vehicle")) == [before]


def test_a_plate_is_never_taken_out():
    job = make_job()
    tell(VEHICLE, job, plate="")
    assert Job.objects.select_related("vehicle").get().vehicle.plate == "KX.4731D"


def test_a_dash_where_nothing_stood_changes_nothing():
    job = make_job(**LEAST)
    assert tell(VEHICLE, job, vin="-").stands
    assert said_of(Entry.objects.get(kind="vehicle")) == []
