"""Which test comes next: where it must not be run, none that runs it, on no page."""

import pytest
from django.test import Client
from django.urls import reverse

from diagnostics.evidence.bears import _LOOKS, _listened, _running, _switched_on
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.orders import RUN
from diagnostics.evidence.runs import ASKS_FOR_COLD, runs
from diagnostics.next_step import next_of
from diagnostics.weighing import around_of, weighed
from tests.diagnostics.few_kinds import know_only, named_next
from tests.diagnostics.jobs_told import HOLDS, Told
from tests.diagnostics.test_gates import LIVE, LOCKED, MIXED
from tests.diagnostics.test_loop_state import VACUUM
from tests.factories import make_person

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
    know_only(monkeypatch, "complaint_seen")
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
