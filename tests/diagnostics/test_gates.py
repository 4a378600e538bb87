"""What must not be done yet: which gates are shut, why, and what opens each."""

import pytest
from django.urls import reverse

from diagnostics.assess import steps_of, system_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.loop_state import loop_state
from diagnostics.points import ACTS, BEFORE, FOUND, OF_ORDERS, Gate, gates, must_not_run
from jobs.models import Job
from jobs.models.changes import changes_of, standing
from jobs.models.people import DESK
from tests.diagnostics.test_loop_state import (
    AS_LABEL,
    CLOSED,
    DEBRIS,
    LIQUID,
    NONE,
    OPENED,
    RECOVERED,
    SOME,
    VACUUM,
    tell,
)
from tests.evidence.test_hv_isolation import DONE
from tests.factories import make_job, make_person

pytestmark = pytest.mark.django_db
FREE = {"test_kind": "hub_turn", "turns": "free"}
LOCKED = {"test_kind": "hub_turn", "turns": "locked"}
MIXED = {"test_kind": "gas_identity", "how": "instrument", "result": "mixed"}
DEAD = {**DONE, "test_kind": "hv_isolation"}
LIVE = {**DEAD, "proof": "alive", "volts": "380"}
SEEN = {"test_kind": "complaint_seen", "setting": "cold", "seen": "warm"}
COMPRESSOR = {"what": "fitted", "part": "compressor", "source": "new", "serial": "1"}


def shut(job: Job, *told: dict) -> dict[str, Gate]:
    """The gates that are shut after these, ten minutes apart, by their codes."""
    for count, fields in enumerate(told):
        tell(job, 10 * count, fields)
    steps, states = steps_of(job), list(job.car_states.all())
    loop = loop_state(steps, standing(changes_of(job)))
    found = gates(system_of(job.vehicle.system), steps, states, loop)
    assert len({gate.code for gate in found}) == len(found)
    return {gate.code: gate for gate in found}


def test_before_anything_was_looked_at_only_what_nobody_knows_yet_is_shut():
    found = shut(make_job())
    assert [*found] == [
        "hub_first",
        "charge_first",
        "gas_first",
        "leak_search_first",
        "recovered_first",
        "debris_first",
    ]
    assert not any(gate.found for gate in found.values())


@pytest.mark.parametrize(
    ("told", "code"),
    [
        (AS_LABEL, "gas_first"),
        (FREE, "hub_first"),
        (LIQUID, "charge_first"),
        (DEBRIS, "debris_first"),
    ],
)
def test_the_test_that_a_gate_names_opens_it(told, code):
    job = make_job()
    gate = shut(job)[code]
    assert gate.opens == told["test_kind"]
    assert code not in shut(job, told)


def test_a_locked_hub_bars_running_and_says_by_which_step():
    found = shut(make_job(), LOCKED)
    assert found["hub_found"].what == "Run the A/C"
    assert found["hub_found"].why == "The hub does not turn freely, or its drive is broken. Step 1."
    assert (found["hub_first"].found, found["hub_first"].number) == (True, 1)
    assert [gate.code for gate in must_not_run(found.values())] == ["hub_found"]


@pytest.mark.parametrize(
    "change",
    [COMPRESSOR, {"what": "adjusted", "where": "latch"}, {"what": "other", "where": "latch"}],
)
@pytest.mark.parametrize(("told", "code"), [(LOCKED, "hub_found"), (MIXED, "gas_found")])
def test_what_was_found_stands_until_it_is_tested_again_whatever_was_changed(told, code, change):
    job = make_job()
    assert code in shut(job, told, change)
    tell(job, 30, {"hub_found": FREE, "gas_found": AS_LABEL}[code])
    assert code not in shut(job)


def test_a_change_after_a_find_is_told_beside_it():
    found = shut(make_job(), LOCKED, COMPRESSOR)
    assert found["hub_found"].why.endswith("was changed since, and this was not tested again.")


def test_high_voltage_found_present_bars_running_until_it_is_proven_dead():
    job = make_job(drive="electric_hv")
    gate = shut(job, LIVE)["hv_found"]
    assert (gate.act, gate.opens) == ("run", "hv_isolation")
    assert "High voltage was found present" in gate.why
    assert "hv_found" in shut(job, SEEN)  # switched on since: found is found
    tell(job, 40, DEAD)
    assert "hv_found" not in shut(job)


def test_a_step_that_was_replaced_shuts_nothing():
    job = make_job()
    key = tell(job, 0, LOCKED)
    tell(job, 10, FREE, corrects=key)
    assert not {"hub_found", "hub_first"} & set(shut(job))


def test_another_gas_bars_running_until_it_is_identified_as_the_labels():
    job = make_job()
    assert shut(job, MIXED)["gas_found"].act == "run"
    tell(job, 30, AS_LABEL)
    assert "gas_found" not in shut(job)


def test_an_open_loop_bars_running_pumping_and_charging():
    found = shut(make_job(), OPENED)
    for code, act in (("loop_run", "run"), ("closed_first", "pump"), ("evacuated_first", "charge")):
        assert (found[code].act, found[code].found) == (act, True)
    assert found["loop_run"].address == reverse("repair")


def test_a_closed_loop_may_be_pumped_and_is_charged_only_after_a_vacuum():
    job = make_job()
    found = shut(job, OPENED, CLOSED)
    assert "closed_first" not in found
    assert found["evacuated_first"].opens == "vacuum_hold"
    assert "evacuated_first" not in shut(job, OPENED, CLOSED, VACUUM)


@pytest.mark.parametrize("told", [NONE, VACUUM, RECOVERED])
def test_a_loop_without_refrigerant_bars_running_and_every_measurement_with_it(told):
    found = shut(make_job(), told)
    assert found["loop_run"].found
    assert "measure" not in {gate.act for gate in found.values()}


def test_pressure_shown_since_it_was_emptied_bars_a_measurement_only():
    found = shut(make_job(), RECOVERED, SOME)
    assert found["loop_check"].act == "measure"
    assert must_not_run(found.values()) == []


def test_high_voltage_is_proven_dead_first_and_has_no_hub():
    found = shut(make_job(drive="electric_hv"))
    assert found["dead_first"].address == reverse("step", args=["hv_isolation"])
    assert "hub_first" not in found


def test_every_gate_has_its_act_and_a_test_that_there_is():
    assert {act for act, _ in OF_ORDERS.values()} <= set(ACTS)
    assert all(kind in KINDS for _, kind in OF_ORDERS.values())
    assert set(BEFORE) == {"loop_run", "oil_drained", *(code for code, _ in FOUND.values())}
    assert set(FOUND) <= set(OF_ORDERS)


# On the pages.


def shown(client, page: str, job: Job, person=None) -> str:
    client.force_login(person or make_person())
    return client.get(reverse(page), {"job": job.key}).content.decode()


@pytest.mark.parametrize("page", ["job", "steps"])
def test_job_and_steps_say_what_is_not_to_be_done_yet_and_where_it_is_opened(client, page):
    job = make_job()
    told = shown(client, page, job)
    assert "Put the shop’s own hoses on" in told
    assert f'<a class="whole" href="/step/gas_identity/?job={job.key}">' in told


def test_the_desk_reads_why_and_gets_no_link_to_a_test(client):
    told = shown(client, "job", make_job(), make_person(DESK))
    assert "Turn the hub by hand" in told
    assert "/step/" not in told


def test_the_loops_bar_leads_to_the_repair_where_its_closing_is_noted(client):
    job = make_job()
    tell(job, 0, OPENED)
    told = shown(client, "job", job)
    part = told[told.index("data-not-yet") :]
    assert f'href="/repair/?job={job.key}">Repair</a>' in part


def test_a_tablet_gets_the_gates_with_the_job(client):
    client.force_login(make_person())
    told = client.get(reverse("job_json"), {"job": make_job().key}).json()
    gate = next(one for one in told["gates"] if one["code"] == "gas_first")
    assert (gate["address"], gate["page_words"]) == ("/step/gas_identity/", "Gas identified")
    assert told["next"]["kind"] in KINDS
