"""What oil and evacuations open, bar and begin: gates, open points, the test of the hold."""

import pytest
from django.urls import reverse

from diagnostics.entries import STEP
from diagnostics.job_now import job_now
from jobs.entries import CHANGE, EVACUATION, OIL, RECOVERY
from jobs.models import Job
from tests.factories import make_job, make_person, tell
from tests.jobs.test_evacuation import READ

pytestmark = pytest.mark.django_db
DRIER = {"what": "fitted", "part": "drier", "source": "new"}
OPENED = {"what": "opened"}
CLOSED = {"what": "closed"}
HOSE = {"what": "fitted", "part": "hose", "source": "new"}


def told(job: Job, kind, **fields: str) -> None:
    """Tell it, and hold that it was taken."""
    outcome = tell(kind, job, **fields)
    assert outcome.stands, outcome.form and outcome.form.errors


def codes(job: Job) -> set[str]:
    """The codes of the open points about oil and evacuation."""
    pages = ("oil", "evacuation", "repair")
    return {one.code for one in job_now(again(job)).points if one.page in pages}


def again(job: Job) -> Job:
    """The job read anew."""
    return Job.objects.select_related("customer", "vehicle__system").get(pk=job.pk)


def shut(job: Job) -> dict[str, str]:
    """The gates that are shut: what they bar, by code."""
    return {one.code: one.act for one in job_now(again(job)).shut}


def test_a_part_drained_of_oil_bars_running_until_oil_is_noted_back_in():
    job = make_job()
    told(job, OIL, part="compressor", drained_old="60")
    assert shut(job)["oil_drained"] == "run"
    told(job, OIL, added="60")
    assert "oil_drained" not in shut(job)


def test_oil_out_with_the_refrigerant_alone_bars_a_charge_and_not_running():
    job = make_job()
    told(job, OIL, with_refrigerant="10")
    found = shut(job)
    assert found["oil_first"] == "charge"
    assert "oil_drained" not in found


def test_oil_drained_and_put_in_by_one_entry_bars_nothing():
    job = make_job()
    told(job, OIL, part="compressor", drained_old="60", added="60")
    assert {"oil_drained", "oil_first"}.isdisjoint(shut(job))


def test_what_bars_running_for_oil_leads_to_the_oils_page():
    job = make_job()
    told(job, OIL, part="compressor", drained_old="60")
    gate = next(one for one in job_now(again(job)).shut if one.code == "oil_drained")
    assert (gate.address, gate.found, gate.bars_running) == (reverse("oil"), True, True)
    assert "oil was drained" in gate.run_words


def test_a_gate_bars_no_entry_of_what_was_done():
    job = make_job()
    told(job, CHANGE, **OPENED)
    told(job, EVACUATION, **READ)
    assert "closed_first" in codes(job)


def test_an_evacuation_after_the_loop_was_closed_with_a_drier_fitted_last_leaves_no_point():
    job = make_job()
    for change in (OPENED, HOSE, DRIER, CLOSED):
        told(job, CHANGE, **change)
    told(job, EVACUATION, **READ)
    assert {"closed_first", "drier_not_last", "drier_kept"}.isdisjoint(codes(job))


def test_a_drier_that_was_not_fitted_last_is_an_open_point():
    job = make_job()
    for change in (OPENED, DRIER, HOSE, CLOSED):
        told(job, CHANGE, **change)
    told(job, EVACUATION, **READ)
    assert "drier_not_last" in codes(job)


def test_a_loop_that_was_open_without_a_new_drier_is_an_open_point():
    job = make_job()
    for change in (OPENED, CLOSED):
        told(job, CHANGE, **change)
    told(job, EVACUATION, **READ)
    assert "drier_kept" in codes(job)


def test_a_loop_that_nobody_opened_asks_for_no_drier():
    job = make_job()
    told(job, EVACUATION, **READ)
    assert {"drier_not_last", "drier_kept"}.isdisjoint(codes(job))


def test_oil_told_by_a_recovery_that_arrives_later_is_an_open_point_and_not_lost():
    job = make_job()
    told(job, OIL, with_refrigerant="18")
    told(job, RECOVERY, grams_out="385", gas="identified", cylinder="unnamed", oil_out="18")
    assert "oil_twice" in codes(job)


def test_oil_kept_with_a_reason_beside_that_of_a_recovery_is_settled():
    job = make_job()
    told(job, RECOVERY, grams_out="385", gas="identified", cylinder="unnamed", oil_out="18")
    told(job, OIL, with_refrigerant="4", with_refrigerant_why="a second pull, its own cup")
    assert "oil_twice" not in codes(job)


def test_the_test_of_the_hold_begins_with_what_the_evacuation_read(client):
    job = make_job()
    told(job, EVACUATION, **READ)
    client.force_login(make_person())
    page = client.get(f"{reverse('step', args=['vacuum_hold'])}?job={job.key}").content.decode()
    assert 'name="depth" value="430"' in page
    assert 'name="p2" value="530"' in page
    assert "Begins with what was read" in page


def test_a_tablet_gets_the_same_with_the_job(client):
    job = make_job()
    told(job, EVACUATION, **READ)
    told(job, OIL, part="compressor", drained_old="60")
    client.force_login(make_person())
    kept = client.get(f"{reverse('job_json')}?job={job.key}").json()
    assert kept["booked"]["vacuum_hold"]["fields"]["depth"] == "430"
    assert kept["oil_before"] == 60_000


def test_an_evacuation_judges_nothing_what_the_rise_shows_is_the_tests_to_tell():
    job = make_job()
    told(job, EVACUATION, **READ)
    assert job_now(again(job)).steps == []
    assert tell(
        STEP, job, test_kind="vacuum_hold", test_version="1", gauge="system", depth="430"
    ).stands


def test_the_job_page_draws_the_balance(client):
    job = make_job()
    told(
        job,
        RECOVERY,
        grams_out="385",
        gas="identified",
        cylinder="unnamed",
        machine="newer",
        temperature="22",
    )
    client.force_login(make_person())
    page = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    assert "Every gram: 385\xa0g recovered, label 520\xa0g" in page
    assert "up to 20\xa0g" in page
    assert "it leaked out or was not in it; we cannot tell which" in page
