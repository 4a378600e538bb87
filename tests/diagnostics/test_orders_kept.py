"""What must come first across tests: told on the page, a point when it was not, by the times."""

from datetime import timedelta

import pytest
from django.utils import timezone

from diagnostics.assess import steps_of
from diagnostics.entries import STEP
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.orders import ORDERS
from diagnostics.points import step_points
from jobs.entries import CHANGE
from jobs.logbook import enter
from jobs.models import Job
from tests.diagnostics.test_record import data_of
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
    assert hub_points(job) == [f"Step 1, by what is recorded: {HUB.broken}"]
    client.force_login(make_person())
    for path in ("job", "steps"):
        assert HUB.broken in client.get(f"/{path}/?job={job.key}").content.decode()
    assert HUB.broken in str(data_of(job)["open_points"])


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


POWER = {"engine": "running", "holds": "yes", "lets_go": "yes"}


def test_a_hub_told_not_free_with_power_on_is_marked_though_it_was_turned_free_before(client):
    job = make_job()
    made(job, "hub_turn", 2, turns="free")
    made(job, "coil_power", 1, **POWER, hub="not_free")
    (gate,) = KINDS["coil_power"].gates
    [mark] = [one for one in steps_of(again(job))[-1].step.marks_said if one["code"] == "gate"]
    assert mark["sentence"] == gate.broken
    client.force_login(make_person())
    told = {"job": str(job.key), **POWER, "hub": "not_free"}
    so_far = client.get("/step/coil_power/", told, headers={"HX-Request": "true"})
    assert gate.bars in so_far.content.decode()


@pytest.mark.parametrize("hub", ["not_free", "not_done", ""])
def test_the_mark_of_power_with_the_engine_running_speaks_of_its_own_step_only(hub):
    """Another step may tell of a free hub: the two then stand side by side and are both true."""
    job = make_job()
    made(job, "hub_turn", 2, turns="free")
    made(job, "coil_power", 1, **POWER, hub=hub)
    [mark] = [one for one in steps_of(again(job))[-1].step.marks_said if one["code"] == "gate"]
    assert "in that step" in mark["sentence"]


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("coil_power", POWER | {"hub": "not_free"}),
        ("limiter", {"hub": "along", "shaft": "not_free"}),
        ("walk_round", {"turned": "not_fine"}),
    ],
)
def test_a_hub_told_not_free_by_any_later_step_is_turned_again_before_it_is_run(
    client, kind, fields
):
    drive = "belt_clutchless" if kind == "limiter" else "belt_clutch"
    job = make_job(drive=drive)
    made(job, "hub_turn", 3, turns="free")
    made(job, kind, 2, **fields)
    assert HUB.first in first(client, job)
    made(job, "running_pressures", 1, **RUNNING)
    assert len(hub_points(job)) == 1
    made(job, "hub_turn", 0.5, turns="free")
    assert HUB.first not in first(client, job)


def test_a_hub_told_free_with_power_on_turns_no_hub_that_was_not_turned(client):
    job = make_job()
    made(job, "coil_power", 2, **POWER, hub="free")
    assert HUB.first in first(client, job)


def test_a_hub_that_was_corrected_to_locked_opens_nothing():
    job = make_job()
    free = made(job, "hub_turn", 3, turns="free")
    made(job, "hub_turn", 2, corrects=free.key, turns="locked")
    made(job, "running_pressures", 1, **RUNNING)
    assert len(hub_points(job)) == 1


def changed(job: Job, hours_ago: float, **fields: str) -> None:
    """A change on the car, made so long ago."""
    at = NOW - timedelta(hours=hours_ago)
    assert enter(CHANGE, make_told(fields, job_key=job.key, happened_at=at)).stands


def test_a_hub_turned_on_the_old_compressor_tells_nothing_of_the_new_one(client):
    job = make_job()
    made(job, "hub_turn", 3, turns="free")
    changed(job, 2, what="fitted", part="compressor")
    assert HUB.first in first(client, job)
    made(job, "running_pressures", 1, **RUNNING)
    assert hub_points(job) == [f"Step 2, by what is recorded: {HUB.broken}"]


def test_a_hub_turned_before_it_was_run_stands_though_the_compressor_was_changed_later():
    job = make_job()
    made(job, "hub_turn", 3, turns="free")
    made(job, "running_pressures", 2, **RUNNING)
    changed(job, 1, what="fitted", part="compressor")
    assert hub_points(job) == []


def test_a_resting_pressure_from_before_the_loop_was_opened_lets_nothing_run(client):
    job = make_job()
    charge = ORDERS["charge_first"]
    made(job, "static_pressure", 3, low="470", high="470", temperature="20", soaked="yes")
    assert charge.first not in first(client, job)
    changed(job, 2, what="opened")
    assert charge.first in first(client, job)


def test_the_gas_stays_identified_when_the_loop_was_opened(client):
    job = make_job()
    made(job, "gas_identity", 3, how="instrument", result="as_label", share="99.8", air="0")
    assert ORDERS["gas_first"].first not in first(client, job)
    changed(job, 2, what="opened")
    assert ORDERS["gas_first"].first not in first(client, job)


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("recovered_share", {"recovered": "640", "machine": "newer"}),
        ("vacuum_hold", {"gauge": "system", "depth": "400"}),
    ],
)
def test_a_loop_that_was_emptied_since_is_not_run_on_what_it_rested_at_before(client, kind, fields):
    job, charge = make_job(), ORDERS["charge_first"]
    made(job, "static_pressure", 3, low="470", high="470", temperature="20", soaked="yes")
    made(job, kind, 2, **fields)
    assert charge.first in first(client, job)
    made(job, "running_pressures", 1, **RUNNING)
    points = step_points(steps_of(again(job)))
    assert f"Step 3, by what is recorded: {charge.broken}" in [one.sentence for one in points]


def test_a_tablet_is_told_what_a_step_shuts_beside_its_outcome(client):
    job = make_job()
    made(job, "recovered_share", 1, recovered="640")
    client.force_login(make_person())
    (step,) = client.get(f"/job.json?job={job.key}").json()["steps"]
    assert "charge_first" in step["shuts"]
    assert "recovered_first" in step["opens"]
