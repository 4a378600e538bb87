"""A job's rows as they are weighed: which tests count, what changes did, what is kept."""

from dataclasses import replace

import pytest
from django.conf import settings
from django.db import connection
from django.test.utils import CaptureQueriesContext

from diagnostics import weighing
from diagnostics.evidence.concluded import Concluded
from diagnostics.evidence.inference.network import VARIABLES
from diagnostics.evidence.inference.states import NEW, WORKED_ON
from diagnostics.evidence.loop_needs import NEEDS_CHARGE, NEEDS_CLOSED, NEEDS_OPEN
from diagnostics.weighing import (
    Around,
    around_of,
    changes_by_state,
    engine,
    made_now,
    standing_setups,
    unable,
    waits_for_loop,
    weighed,
    what_was_told,
)
from jobs.entries import CHANGE
from jobs.logbook import enter
from jobs.models import CarState
from tests.diagnostics.jobs_told import CLUTCH, COMES_NOT, HOLDS, LIQUID, Told
from tests.diagnostics.step_forms import step_of, tell
from tests.factories import make_job, make_told

pytestmark = pytest.mark.django_db
HUB = {"test_kind": "hub_turn", "turns": "free"}
NO_ACCESS = {"test_kind": "hub_turn", "not_done": "no_access"}
ONLY_SEEN = {"test_kind": "coil_power", "seen": "a click"}


def around(told: Told) -> Around:
    """The job as it is weighed."""
    return around_of(told.again)


def test_a_test_is_weighed_with_its_number_its_switch_and_its_car_state():
    told = Told()
    told.change(**CLUTCH)
    told.failing("yes")
    told.test(COMES_NOT)
    (one,) = what_was_told(told.now.steps)
    assert (one.number, one.kind, one.failing, one.state) == (1, "coil_power", "yes", 1)


def test_what_was_replaced_could_not_be_done_or_told_nothing_is_not_weighed():
    job, told = make_job(), Told()
    first = step_of(tell(job))
    step_of(tell(job, told={"corrects": first.key}))
    told.job = job
    told.test(NO_ACCESS)
    told.test(ONLY_SEEN)
    assert [one.number for one in what_was_told(told.now.steps)] == [2]


def test_a_normal_result_of_a_car_that_was_not_failing_is_weighed_as_such():
    told = Told()
    told.failing("no")
    told.test(HOLDS)
    (one,) = what_was_told(told.now.steps)
    assert one.failing == "no"
    assert weighed(around(told)).read


def test_a_part_that_was_fitted_begins_as_a_new_one_in_its_own_car_state():
    told = Told()
    told.change(what="fuse")
    told.change(**CLUTCH)
    fuse, fitted = changes_by_state(told.now.states, told.now.changes)
    assert "clutch" not in fuse
    assert fitted == {"clutch": NEW}


def test_a_change_entered_by_mistake_changes_nothing_of_the_car():
    told = Told()
    first = told.change(**CLUTCH)
    undone = make_told({"what": "nothing"}, job_key=told.job.key, corrects=first.key)
    assert enter(CHANGE, undone).stands
    assert list(changes_by_state(told.now.states, told.now.changes)) == [{}]


def test_a_car_state_that_no_change_opened_bears_on_the_questions_it_touches():
    state = CarState(pk=7, number=1, touches=["command"])
    (became,) = changes_by_state([CarState(pk=6, number=0), state], [])
    assert became == {one.name: WORKED_ON for one in VARIABLES if one.question == "command"}


def test_a_kind_counts_as_made_until_the_car_is_changed_in_what_it_looks_at():
    told = Told()
    told.test(COMES_NOT)
    assert made_now(told.now.steps, told.now.states, "") == {"coil_power"}
    told.change(**CLUTCH)
    assert made_now(told.now.steps, told.now.states, "") == frozenset()


def test_a_test_made_while_it_did_not_fail_is_to_be_made_again_only_once_it_fails():
    told = Told()
    told.failing("no")
    told.test(HOLDS)
    assert made_now(told.now.steps, told.now.states, "no") == {"coil_power"}
    assert made_now(told.now.steps, told.now.states, "yes") == frozenset()


def test_what_could_not_be_made_is_not_offered_until_it_was_made_or_the_car_changed():
    told = Told()
    told.test(NO_ACCESS)
    assert [*unable(told.now.steps, told.now.states)] == ["hub_turn"]
    told.test(HUB)
    assert [*unable(told.now.steps, told.now.states)] == []
    told.test(NO_ACCESS)
    told.change(what="fitted", part="compressor", source="new")
    assert [*unable(told.now.steps, told.now.states)] == []


def test_a_test_that_told_nothing_is_offered_once_more_and_then_planned_around():
    told = Told()
    told.test(ONLY_SEEN)
    assert [*unable(told.now.steps, told.now.states)] == []
    told.test(ONLY_SEEN)
    assert [*unable(told.now.steps, told.now.states)] == ["coil_power"]


def test_what_the_last_tests_needed_stands_and_so_does_what_the_loop_is():
    told = Told()
    told.test(HUB)
    assert {*standing_setups(told.now.steps, told.now.states, "liquid")} == {"hub reached"}
    assert "loop open" in standing_setups(told.now.steps, told.now.states, "opened")


def test_nothing_that_carries_nothing_changes_what_is_concluded():
    told = Told()
    told.test(LIQUID)
    before = weighed(around(told))
    told.test({"test_kind": "fuse", "seen": "the box is wet"})
    assert weighed(around(told)).stands == before.stands


def test_the_same_told_is_worked_out_once_and_read_from_its_file_after_a_start(monkeypatch):
    told = Told()
    told.test(COMES_NOT)
    first = weighed(around(told))
    weighing._concluded.cache_clear()
    monkeypatch.setattr(weighing, "conclude", None)
    assert weighed(around(told)) == first


def test_another_program_and_a_torn_file_have_nothing_to_say(monkeypatch):
    told = Told()
    told.test(COMES_NOT)
    first = weighed(around(told))
    for path in (settings.DATA / "weighed").glob("*.djcache"):
        path.write_bytes(path.read_bytes()[:20])
    weighing._concluded.cache_clear()
    assert weighed(around(told)) == first
    monkeypatch.setattr(weighing, "engine", lambda: "another")
    weighing._concluded.cache_clear()
    other = replace(first, waits=("fuse",))
    monkeypatch.setattr(weighing, "conclude", lambda *_: other)
    assert weighed(around(told)) == other
    weighing._concluded.cache_clear()


def test_it_is_weighed_without_a_query():
    told = Told()
    told.test(COMES_NOT)
    job = around(told)
    with CaptureQueriesContext(connection) as queries:
        assert isinstance(weighed(job), Concluded)
    assert not queries.captured_queries


def test_what_the_engine_is_hangs_on_its_files():
    assert len(engine()) == 64
    assert engine() == engine()


@pytest.mark.parametrize(
    ("loop", "waits", "free"),
    [
        ("liquid", NEEDS_OPEN, NEEDS_CLOSED),
        ("", NEEDS_OPEN, NEEDS_CLOSED),
        ("opened", NEEDS_CLOSED, NEEDS_OPEN),
        ("recovered", NEEDS_CHARGE, (NEEDS_OPEN | NEEDS_CLOSED) - NEEDS_CHARGE),
    ],
)
def test_the_loop_leaves_no_room_for_tests_inside_it_or_for_those_that_need_it_closed(
    loop, waits, free
):
    assert waits_for_loop(loop) == waits
    assert not waits_for_loop(loop) & free
