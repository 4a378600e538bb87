"""The parts of the loop: what was seen of those that stay, beside what was replaced or flushed."""

import uuid
from types import SimpleNamespace
from typing import Any

import pytest
from django.urls import reverse

from jobs.entries import CHANGE, LOOP_PARTS
from jobs.logbook import enter
from jobs.models import Job, LoopTold
from jobs.models.changes import changes_of, standing
from jobs.models.loop_parts import loop_table, places_of, told_of
from jobs.models.people import DESK
from tests.diagnostics.jobs_told import Told, stood
from tests.factories import make_job, make_person, make_told, tell

pytestmark = pytest.mark.django_db
COMPRESSOR = {"what": "fitted", "part": "compressor", "source": "new", "serial": "0417"}


def table(job: Job) -> dict[str, str]:
    """How each part stands, by its field."""
    job = Job.objects.select_related("vehicle__system").get(pk=job.pk)
    rows = loop_table(job.vehicle.system, standing(changes_of(job)), told_of(job))
    return {row.field: row.text for row in rows}


def test_one_entry_tells_of_several_parts_and_opens_no_car_state():
    job = make_job()
    assert tell(LOOP_PARTS, job, condenser="clean", evaporator="unseen", note="with a lamp").stands
    assert table(job)["condenser"] == "Kept, seen clean. with a lamp"
    assert table(job)["evaporator"] == "Kept, not looked at. with a lamp"
    assert job.car_states.count() == 1


def test_the_same_telling_sent_twice_is_one():
    job, key = make_job(), uuid.uuid4()
    told = make_told({"condenser": "clean"}, job_key=job.key, key=key)
    assert [enter(LOOP_PARTS, told).state, enter(LOOP_PARTS, told).state] == ["accepted", "again"]
    assert LoopTold.objects.count() == 1


def test_of_two_tellings_the_last_to_happen_counts_though_it_arrives_first():
    told = Told()
    stood(told.tell(LOOP_PARTS, condenser="dirty"))
    stood(told.tell(LOOP_PARTS, at=told.again.opened_at, condenser="clean"))
    assert table(told.job)["condenser"].startswith("Cannot be cleaned")


def test_what_corrects_a_telling_stands_for_all_of_it():
    job = make_job()
    first = tell(LOOP_PARTS, job, condenser="clean", hose="clean")
    told = make_told({"condenser": "unseen"}, job_key=job.key, corrects=first.key)
    assert enter(LOOP_PARTS, told).stands
    assert (table(job)["condenser"], table(job)["hose"]) == ("Kept, not looked at", "nothing told")


def test_a_part_that_was_fitted_is_replaced_with_its_numbers():
    job = make_job()
    more: dict[str, Any] = {"also": ["drier", "seal"], "number_drier": "44-102"}
    assert tell(CHANGE, job, **COMPRESSOR, part_number="C-9", **more).stands
    found = table(job)
    assert found["compressor"] == "Replaced, new, serial number 0417, part number C-9"
    assert found["drier"] == "Replaced, new, number 44-102"
    assert found["seal"] == "One or more replaced, new"
    assert found["condenser"] == "nothing told"


def test_a_part_that_was_flushed_says_how():
    job = make_job()
    told = {"what": "flushed", "part": "evaporator", "flushed_how": "solvent, backwards"}
    assert tell(CHANGE, job, **told, also=["hose"]).stands
    assert table(job)["evaporator"] == "Flushed, solvent, backwards"
    assert table(job)["hose"] == "One or more flushed, solvent, backwards"


def test_a_new_part_stays_replaced_when_all_others_are_told_as_not_looked_at():
    told = Told()
    told.change(**COMPRESSOR)
    stood(told.tell(LOOP_PARTS, compressor="unseen"))
    assert table(told.job)["compressor"] == "Replaced, new, serial number 0417"


def test_what_was_seen_of_a_new_part_later_stands_behind_that_it_was_replaced():
    told = Told()
    told.change(**COMPRESSOR)
    stood(told.tell(LOOP_PARTS, compressor="dirty"))
    found = table(told.job)["compressor"]
    assert found == "Replaced, new, serial number 0417. Cannot be cleaned"


def test_what_was_seen_of_the_old_part_is_gone_once_a_new_one_is_fitted():
    told = Told()
    stood(told.tell(LOOP_PARTS, compressor="dirty"))
    told.change(**COMPRESSOR)
    assert table(told.job)["compressor"] == "Replaced, new, serial number 0417"


def test_a_change_that_was_corrected_away_replaces_nothing():
    job = make_job()
    first = tell(CHANGE, job, **COMPRESSOR)
    told = make_told({"what": "nothing"}, job_key=job.key, corrects=first.key)
    assert enter(CHANGE, told).stands
    assert table(job)["compressor"] == "nothing told"


def test_each_branch_of_a_loop_has_its_own_parts():
    both = SimpleNamespace(branches=["front", "rear"], expansion="valve")
    names = places_of(both)
    assert ("expansion_device", "rear") in names
    assert ("expansion_device", "battery") not in names
    assert not [place for place in places_of(SimpleNamespace(branches=[])) if place[1]]


def test_a_rear_valve_that_was_fitted_leaves_the_front_one_untold():
    job = make_job(branches=["front", "rear"])
    told = {"what": "fitted", "part": "expansion_device", "branch": "rear", "source": "new"}
    assert tell(CHANGE, job, **told).stands
    found = table(job)
    assert found["expansion_device_rear"] == "Replaced, new"
    assert found["expansion_device"] == "nothing told"


def test_nothing_tapped_asks_for_a_part():
    outcome = tell(LOOP_PARTS, make_job(), note="looked")
    assert outcome.form
    assert "Tap at least one part." in str(outcome.form.errors)


def test_the_page_says_of_each_part_how_it_stands_and_posts_without_script(client):
    job = make_job()
    tell(CHANGE, job, **COMPRESSOR)
    client.force_login(make_person())
    address = f"{reverse('loop_parts')}?job={job.key}"
    said = client.get(address).content.decode()
    assert "So far: <bdi>Replaced, new, serial number 0417</bdi>" in said
    answer = client.post(address, {"key": str(uuid.uuid4()), "condenser": "clean"})
    assert answer["Location"] == f"/repair/?job={job.key}"
    assert LoopTold.objects.get().told == "clean"


def test_the_page_takes_the_same_queries_however_much_was_told(
    client, django_assert_max_num_queries
):
    job = make_job()
    for _ in range(5):
        tell(LOOP_PARTS, job, condenser="clean", hose="unseen")
        tell(CHANGE, job, **COMPRESSOR)
    client.force_login(make_person())
    with django_assert_max_num_queries(6):
        client.get(f"{reverse('loop_parts')}?job={job.key}")


def test_the_front_desk_tells_nothing_of_a_loops_parts(client):
    client.force_login(make_person(DESK))
    assert client.get(f"{reverse('loop_parts')}?job={make_job().key}").status_code == 403
