"""An entry thrown away on a tablet, of which the shop server knows: the answer to it was lost."""

import uuid
from typing import Any

import pytest
from django.urls import reverse

from diagnostics.assess import steps_of
from diagnostics.points import step_points
from jobs.entries import CHANGE, CONSENT, CUSTOMER, DISCARD
from jobs.logbook import enter
from jobs.models import Entry, Job
from tests.diagnostics.step_forms import tell as tell_step
from tests.diagnostics.test_record import data_of
from tests.factories import make_job, make_person, make_told, said_of, tell

pytestmark = pytest.mark.django_db
STANDS = "What was thrown away on the tablet had reached the shop server before: it stands."
POINT = "thrown away on a tablet, but it had reached the shop server and stands."


def discard(job: Job, key: Any) -> list[str]:
    """The entry of that key thrown away; the words of the marks."""
    outcome = tell(DISCARD, job, reason="typed twice", discarded=str(key))
    assert outcome.stands
    return said_of(Entry.objects.get(key=outcome.key))


def points(client: Any, job: Job) -> list[str]:
    """What is said of it on the job page, on paper and to tablets, which must agree."""
    client.force_login(make_person())
    told = client.get(f"{reverse('job_json')}?job={job.key}").json()["points"]
    found = [one["sentence"] for one in told if one["code"] == "discarded_stands"]
    page = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    assert page.count(POINT) == len(found)
    on_paper = [one["text"] for one in data_of(job)["open_points"]]
    assert [one for one in on_paper if POINT in one] == found
    return found


def test_a_discard_of_what_stands_is_marked_and_an_open_point_until_it_is_corrected(client):
    job = make_job()
    change = tell(CHANGE, job, what="fuse")
    assert discard(job, change.key) == [STANDS]
    [point] = points(client, job)
    assert point.startswith("Change on the car of ")
    told = make_told({"what": "nothing"}, job_key=job.key, corrects=change.key)
    assert enter(CHANGE, told).stands
    assert points(client, job) == []


def test_a_discarded_step_that_stands_is_a_point_of_the_steps(client):
    job = make_job()
    step = tell_step(job)
    discard(job, str(step.key).upper())
    [point] = points(client, job)
    assert point.startswith("Step 1: ")
    tell_step(job, told={"corrects": step.key})
    assert points(client, job) == []
    assert not any(one.code == "discarded_stands" for one in step_points(steps_of(job)))


def test_what_a_later_page_tells_anew_is_no_open_point_any_more(client):
    job = make_job()
    discard(job, tell(CUSTOMER, job, phone="0999").key)
    assert len(points(client, job)) == 1
    tell(CUSTOMER, job, phone="0888")
    assert points(client, job) == []


def test_a_consent_thrown_away_that_stands_stays_open_beside_another(client):
    job = make_job()
    discard(job, tell(CONSENT, job, consent_amount="9000", consent_how="phone").key)
    tell(CONSENT, job, consent_amount="90", consent_how="phone")
    assert len(points(client, job)) == 1


@pytest.mark.parametrize("key", ["", "no key", str(uuid.UUID(int=7))])
def test_a_discard_of_what_never_arrived_is_neither(client, key):
    job = make_job()
    assert discard(job, key) == []
    assert points(client, job) == []
