"""What a service machine does in one go makes the same moves as by hand, in one car state."""

import pytest
from django.urls import reverse

from jobs.entries import MACHINE_CYCLE
from jobs.models import CarState, Entry, Job, LoopWork, Move
from jobs.models.amounts import held
from tests.factories import make_job, make_person, said_of, tell
from tests.jobs.test_recovery import a_cylinder, moved

pytestmark = pytest.mark.django_db
CYCLE = {
    "gas": "identified",
    "grams_out": "410",
    "machine": "newer",
    "temperature": "22",
    "oil_out": "15",
    "depth_read": "micron",
    "depth": "480",
    "minutes": "30",
    "oil_in": "15",
    "grams_in": "520",
    "hose": "machine",
}


def test_one_cycle_makes_the_moves_of_recovery_oil_and_charge():
    job, tank = make_job(), a_cylinder("Tank", kind="machine", holds=4000)
    assert tell(MACHINE_CYCLE, job, **CYCLE, cylinder=tank.key.hex).stands
    assert held(Move.objects.all())[tank.pk] == 3_890_000
    assert sorted(moved(job)) == [
        ("oil", 15_000, "car", "waste"),
        ("oil", 15_000, "stock", "car"),
        ("refrigerant", 410_000, "car", "cylinder"),
        ("refrigerant", 520_000, "cylinder", "car"),
    ]


def test_it_opens_one_car_state_that_tells_all_that_was_done():
    job = make_job()
    tell(MACHINE_CYCLE, job, **CYCLE, cylinder="unnamed")
    state = CarState.objects.get(job=job, number=1)
    assert state.did == ["recovered", "oil_out", "evacuated", "oil_in", "charged"]
    assert state.touches == ["charge"]
    assert state.what == "Machine cycle: 410\u00a0g out, vacuum, 520\u00a0g in"


def test_a_vacuum_of_which_only_minutes_are_told_is_pumped_and_no_depth():
    job = make_job()
    tell(MACHINE_CYCLE, job, **CYCLE | {"depth": ""}, cylinder="unnamed")
    assert "pumped" in CarState.objects.get(job=job, number=1).did


def test_a_charge_alone_without_recovery_and_vacuum_is_a_top_up():
    job = make_job()
    tell(MACHINE_CYCLE, job, grams_in="120", cylinder="unnamed")
    assert CarState.objects.get(job=job, number=1).did == ["topped_up"]


def test_the_tank_may_give_what_came_out_just_before():
    job, tank = make_job(), a_cylinder("Tank", kind="machine", holds=200)
    assert tell(MACHINE_CYCLE, job, **CYCLE, cylinder=tank.key.hex).stands
    assert held(Move.objects.all())[tank.pk] == 90_000


def test_a_print_out_alone_is_kept_with_what_it_tells_later():
    job = make_job()
    assert tell(MACHINE_CYCLE, job, note="Print-out on the photo.").stands
    work = LoopWork.objects.get()
    assert (work.words, moved(job)) == ("Machine cycle, figures not told", [])


def test_the_page_asks_in_the_machines_order(client):
    client.force_login(make_person())
    job: Job = make_job()
    page = client.get(f"{reverse('machine_cycle')}?job={job.key}").content.decode()
    places = [
        page.index(words) for words in ("Recovered<", "Depth<", "Oil put back in<", "Charged<")
    ]
    assert places == sorted(places)


def test_oil_that_a_machine_injects_into_a_high_voltage_car_is_asked_about():
    job = make_job(drive="electric_hv")
    told = {**CYCLE, "cylinder": "unnamed", "oil_in": "15"}
    outcome = tell(MACHINE_CYCLE, job, **told)
    assert outcome.form is not None
    assert "high-voltage" in str(outcome.form.errors["oil_in"])
    kept = tell(MACHINE_CYCLE, job, **told, oil_in_why="The maker’s oil, by its own hose.")
    assert kept.stands
    assert "high-voltage" in " ".join(said_of(Entry.objects.get(key=kept.key)))
    assert tell(MACHINE_CYCLE, job, **{**told, "oil_in": "0"}).stands
