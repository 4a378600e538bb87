"""What must come first across tests: told on the page, a point when it was not, by the times."""

from datetime import timedelta

import pytest
from django.utils import timezone

from diagnostics.assess import steps_of
from diagnostics.entries import STEP
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.orders import ORDERS
from diagnostics.points import step_points
from diagnostics.record.steps import made_in
from diagnostics.templatetags.steps import next_kind
from jobs.logbook import enter
from jobs.models import Job
from tests.factories import make_job, make_person, make_told

pytestmark = pytest.mark.django_db
HUB = ORDERS["hub_first"]
RUNNING = {"low": "200", "high": "1400", "shaft": "yes"}
NOW = timezone.now()


def made(job: Job, kind: str, hours_ago: float, corrects=None, **fields: str):
    """A test told to the logbook as made so long ago."""
    told = {"test_kind": kind, "test_version": "1", **fields}
    at = NOW - timedelta(hours=hours_ago)
    outcome = enter(STEP, make_told(told, job_key=job.key, happened_at=at, corrects=corrects))
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome


def again(job: Job) -> Job:
    return Job.objects.select_related("customer", "vehicle__system").get(pk=job.pk)


def hub_points(job: Job) -> list[str]:
    """The open points about the hub, of every step."""
    return [one.sentence for one in step_points(steps_of(again(job))) if one.code == HUB.code]


def first(client, job: Job) -> str:
    """What the form of running pressures says must come first."""
    client.force_login(make_person())
    shown = client.get(f"/step/running_pressures/?job={job.key}").content.decode()
    return shown[shown.index("data-first") : shown.index("data-form-holder")]


def test_the_page_says_what_comes_first_until_it_was_made(client):
    job = make_job()
    assert HUB.first in first(client, job)
    made(job, "hub_turn", 1, turns="free")
    assert HUB.first not in first(client, job)


def test_what_was_run_before_is_a_point_on_job_steps_and_record(client):
    job = make_job()
    made(job, "running_pressures", 1, **RUNNING)
    assert hub_points(job) == [f"Step 1: {HUB.broken}"]
    client.force_login(make_person())
    for path in ("job", "steps"):
        assert HUB.broken in client.get(f"/{path}/?job={job.key}").content.decode()
    points = made_in(again(job)).open_points
    assert HUB.broken in str(points)


def test_a_hub_turned_before_heals_it_though_it_arrived_later():
    job = make_job()
    made(job, "running_pressures", 1, **RUNNING)
    made(job, "hub_turn", 2, turns="free")
    assert hub_points(job) == []


def test_a_hub_turned_afterwards_heals_nothing():
    job = make_job()
    made(job, "hub_turn", 0.5, turns="free")
    made(job, "running_pressures", 1, **RUNNING)
    assert len(hub_points(job)) == 1


def test_a_hub_that_was_corrected_to_locked_opens_nothing():
    job = make_job()
    free = made(job, "hub_turn", 3, turns="free")
    made(job, "hub_turn", 2, corrects=free.key, turns="locked")
    made(job, "running_pressures", 1, **RUNNING)
    assert len(hub_points(job)) == 1


def test_the_next_test_passes_over_what_waits_for_another(monkeypatch):
    only = {"running_pressures": KINDS["running_pressures"]}
    monkeypatch.setattr("diagnostics.templatetags.steps.KINDS", only)
    assert next_kind(again(make_job()), []) is None
