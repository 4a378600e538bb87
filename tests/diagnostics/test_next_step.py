"""Which test comes next: where it must not be run, none that runs it, on no page."""

from dataclasses import replace

import pytest
from django.test import Client
from django.urls import reverse

from diagnostics.evidence.bears import _LOOKS, _listened, _running, _switched_on
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.worth import Proof
from diagnostics.evidence.orders import RUN
from diagnostics.evidence.plan import NextTest, Plan
from diagnostics.evidence.runs import ASKS_FOR_COLD, runs
from diagnostics.next_step import Next, next_of
from diagnostics.weighing import around_of, weighed
from tests.diagnostics.few_kinds import know_only, make_worth_it, named_next
from tests.diagnostics.jobs_told import CLUTCH, COMES_NOT, HOLDS, Told
from tests.diagnostics.test_gates import LIVE, LOCKED, MIXED
from tests.diagnostics.test_loop_state import VACUUM
from tests.factories import make_person

SEEN = {"test_kind": "complaint_seen", "engages": "yes", "there": "yes"}
pytestmark = pytest.mark.django_db
FINDS = [({}, LOCKED), ({}, MIXED), ({}, VACUUM), ({"drive": "electric_hv"}, LIVE)]


def shown(client: Client, page: str, told: Told) -> str:
    client.force_login(make_person())
    return client.get(page, {"job": str(told.job.key)}).content.decode()


@pytest.mark.parametrize(("car", "find"), FINDS)
def test_where_it_must_not_be_run_nothing_that_runs_it_comes_next(client, car, find):
    told = Told(**car)
    told.test(find)
    client.force_login(make_person())
    said = client.get(reverse("job_json"), {"job": str(told.job.key)}).json()
    assert "Must not be run." in said["danger"]
    assert any(gate["bars_running"] for gate in said["gates"])
    named = named_next(shown(client, reverse("job"), told))
    assert not {name for name in named if runs(KINDS[name])}


def test_every_page_names_the_same_test_as_the_next(client):
    told = Told()
    told.test(HOLDS)
    client.force_login(make_person())
    said = client.get(reverse("job_json"), {"job": str(told.job.key)}).json()["next"]
    assert named_next(shown(client, reverse("job"), told))[0] == said["kind"]
    assert said["said"] in shown(client, reverse("board"), told)
    assert f'name="next_test" value="{said["kind"]}"' in shown(client, reverse("handover"), told)


@pytest.mark.parametrize(("car", "find"), FINDS)
def test_the_form_of_a_test_that_runs_it_says_that_it_must_not_be_run(client, car, find):
    told = Told(**car)
    told.test(find)
    page = shown(client, reverse("step", args=["complaint_seen"]), told)
    assert "Must not be run: " in page.split("data-found")[1].split("</div>")[0]
    still = shown(client, reverse("step", args=["fuse"]), told)
    assert "Must not be run: " not in still


def test_where_all_that_is_left_runs_it_the_job_says_that_it_must_not_be_run(client, monkeypatch):
    make_worth_it(monkeypatch, "complaint_seen")
    told = Told()
    told.test(LOCKED)
    job = shown(client, reverse("job"), told)
    assert "Must not be run: " in job.split("data-next-step")[1].split("</section>")[0]


def test_a_test_that_switches_it_on_or_waits_for_what_comes_before_running_is_one_that_runs_it():
    switched = {
        name for name, look in _LOOKS.items() if look in (_switched_on, _listened, _running)
    }
    waits = {kind.name for kind in KINDS.values() if kind.waits and {*RUN} & {*kind.orders}}
    assert switched | waits | {*ASKS_FOR_COLD} <= {one.name for one in KINDS.values() if runs(one)}


def next_after(found: Plan, told: Told, *, proved: bool = False) -> Next:
    """What comes next on a car where the engine plans that."""
    around = around_of(told.again)
    weighed_now = weighed(around)
    stands = [replace(one, standing="open") for one in weighed_now.stands]
    if proved:
        stands = [
            replace(one, standing="proved" if one.code == "not_ok" else "open") for one in stands
        ]
    planned = replace(weighed_now, plan=found, stands=tuple(stands), waits=())
    return next_of(planned, around)


def test_where_no_test_is_worth_its_minutes_it_can_be_decided_and_says_how_much_is_shown():
    told = Told()
    assert next_after(Plan(None), told, proved=True).words == "Enough is known: decide"
    assert "nothing wrong is shown" in next_after(Plan(None), told).words
    seal = Proof("seal", "seal or compressor", ("wet",), 450)
    unproved = next_after(Plan(None, unproved=(seal,)), told)
    assert unproved.words == "No test left is worth its minutes: decide"
    assert unproved.unproved == ("Shaft seal: seal or compressor",)
    assert unproved.decide


def test_since_the_car_was_changed_a_test_to_make_again_comes_before_a_decision():
    told = Told()
    told.test(COMES_NOT)
    told.change(**CLUTCH)
    found = next_after(Plan(None), told)
    assert found.best
    assert (found.best.kind.name, found.best.again) == ("coil_power", True)
    assert not found.decide


def test_what_was_put_right_is_tested_again_before_another_test_worth_its_minutes():
    told = Told()
    told.test(COMES_NOT)
    told.change(**CLUTCH)
    best = NextTest("gas_identity", 6.0, 30.0, "gas", "")
    found = next_after(Plan(best), told)
    assert found.best
    assert found.best.kind.name == "coil_power"
    assert [one.kind.name for one in found.others] == ["gas_identity"]


def test_after_what_was_changed_is_tested_the_complaint_is_looked_for_again():
    told = Told()
    told.test(SEEN)
    told.test(COMES_NOT)
    told.change(**CLUTCH)
    told.test(HOLDS)
    found = next_after(Plan(NextTest("gas_identity", 6.0, 30.0, "gas", "")), told)
    assert found.best
    assert (found.best.kind.name, found.best.again) == ("complaint_seen", True)
    told.test(SEEN)
    found = next_after(Plan(NextTest("gas_identity", 6.0, 30.0, "gas", "")), told)
    assert found.best
    assert found.best.kind.name == "gas_identity"


def test_a_decision_leads_to_what_can_be_done(client, monkeypatch):
    know_only(monkeypatch, "coil_power")
    told = Told()
    told.test(HOLDS)
    job = shown(client, reverse("job"), told).partition("data-next-step")[2]
    assert f'href="{reverse("options")}?job={told.job.key}"' in job.partition("</section>")[0]


def test_where_nobody_can_make_what_is_left_or_what_opens_it_the_job_says_decide():
    told = Told()
    for _ in range(len(KINDS)):
        around = around_of(told.again)
        next_one = next_of(weighed(around), around)
        if next_one.best is None:
            break
        told.test({"test_kind": next_one.best.kind.name, "not_done": "no_access"})
    assert next_one.decide, next_one.waits
    assert "gas_identity" in [kind.name for kind in next_one.left_out]
