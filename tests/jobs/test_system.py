"""The A/C of a job's car, looked at later."""

import uuid

import pytest
from django.urls import reverse

from jobs.entries import SYSTEM
from jobs.models import Entry, Job
from tests.factories import LEAST, make_job, make_person, tell

pytestmark = pytest.mark.django_db


def test_the_system_looked_at_later_keeps_what_was_known():
    job = make_job(drive=None)
    tell(SYSTEM, job, drive="belt_clutch", label_charge="1,1 lb")
    system = Job.objects.select_related("vehicle__system").get().vehicle.system
    assert (system.drive, system.refrigerant) == ("belt_clutch", "R-134a")
    assert system.label_charge_mg == 498_952  # 1.1 lb x 453 592.37 mg
    mark = Entry.objects.get(kind="system").marks
    assert mark == ["Label charge changed; before: 520\u00a0g\u00a0(18.3\u00a0oz)."]


def test_the_page_is_filled_with_what_is_known(client):
    job = make_job()
    client.force_login(make_person())
    page = client.get(f"{reverse('system')}?job={job.key}").content.decode()
    assert 'value="520"' in page
    assert page.count("checked") == 8  # drive, displacement, voltage, side, gas, g, label, front


def test_the_page_is_for_signed_in_people(client):
    job = make_job()
    assert client.get(f"{reverse('system')}?job={job.key}").status_code == 302


def test_the_page_posts_without_script(client):
    job = make_job(**LEAST)
    client.force_login(make_person())
    fields = {"drive": "belt_clutch", "key": str(uuid.uuid4())}
    response = client.post(f"{reverse('system')}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    assert Entry.objects.filter(kind="system", job_key=job.key).count() == 1
