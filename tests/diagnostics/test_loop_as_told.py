"""What a timer or a hand-over note told of the loop: said as told, until a step or a change."""

import pytest
from django.test import Client
from django.urls import reverse

from diagnostics.assess import system_of
from diagnostics.loop_as_told import BY_NOTE, as_told
from diagnostics.loop_state import LoopState, loop_state
from diagnostics.points import gates, must_not_run
from jobs.entries import HANDOVER, WAITING, WAITING_END
from jobs.models.handovers import STANDS
from tests.diagnostics.jobs_told import LIQUID, Told, stood
from tests.diagnostics.test_record import data_of
from tests.factories import make_person
from tests.jobs.test_waiting import told_at

pytestmark = pytest.mark.django_db
VACUUM = {"test_kind": "vacuum_hold", "gauge": "system", "depth": "300"}


@pytest.fixture
def told() -> Told:
    return Told()


@pytest.fixture
def sand():
    return make_person(name="R. Sand")


def timer(told: Told, author, what: str = "vacuum") -> str:
    return str(stood(told.tell(WAITING, author, what=what, minutes="30")).key)


def note(told: Told, author, *stands: str) -> None:
    stood(told.tell(HANDOVER, author, stands=list(stands)))


def state(told: Told) -> LoopState:
    now = told.now
    return loop_state(now.steps, now.changes, told=as_told(told.again))


def test_a_vacuum_timer_tells_that_the_pump_was_started_and_that_no_vacuum_was_read(told, sand):
    timer(told, sand)
    seen = state(told)
    assert seen.code == "told_vacuum"
    assert seen.words.startswith("pump started ")
    assert seen.words.endswith(", as told by R. Sand, no vacuum read since")
    assert seen.run.startswith(
        "Must not be run: it may be under vacuum: pumped on as told by R. Sand, "
    )
    assert "As somebody told it: not read." in seen.not_told


@pytest.mark.parametrize(
    ("stands", "code", "words"),
    [
        ("vacuum", "told_vacuum", "vacuum running "),
        ("nitrogen", "told_nitrogen", "nitrogen in it "),
        ("open", "told_open", "open, not capped, "),
        ("open_capped", "told_open", "open, capped, "),
    ],
)
def test_a_hand_over_tap_tells_of_the_loop(told, sand, stands, code, words):
    note(told, sand, stands)
    seen = state(told)
    assert (seen.code, seen.words.startswith(words)) == (code, True)
    assert "as told by R. Sand" in seen.words
    assert seen.run.startswith("Must not be run: ")


def test_a_nitrogen_timer_tells_that_nitrogen_is_in_it(told, sand):
    timer(told, sand, "nitrogen")
    assert state(told).words.startswith("under nitrogen since ")


def test_what_tells_nothing_of_the_loop_leaves_it_as_it_was(told, sand):
    note(told, sand, *(code for code in STANDS if code not in BY_NOTE))
    timer(told, sand, "soak")
    assert state(told).code == "not_looked_at"


def test_a_timer_that_was_ended_still_tells_that_it_was_put_under_vacuum(told, sand):
    key = timer(told, sand)
    stood(told.tell(WAITING_END, sand, waiting=key))
    assert state(told).code == "told_vacuum"


def test_a_timer_that_was_corrected_tells_nothing(told, sand):
    key = timer(told, sand)
    told_at(told.job, told.job.opened_at, what="soak", minutes="30", corrects=key)
    assert state(told).code == "not_looked_at"


@pytest.mark.parametrize("then", [VACUUM, LIQUID])
def test_a_later_step_says_otherwise(told, sand, then):
    timer(told, sand)
    told.test(then)
    assert "as told" not in state(told).words


def test_a_later_change_says_otherwise(told, sand):
    timer(told, sand)
    told.change(what="opened")
    assert state(told).code == "opened"


def test_what_was_read_before_stands_beside_what_is_told(told, sand):
    told.test(LIQUID)
    timer(told, sand)
    seen = state(told)
    assert (
        "as told by R. Sand, no vacuum read since; pressure in it as a loop with liquid rests"
        in seen.words
    )
    assert seen.run.startswith("Must not be run: ")


def test_an_open_loop_stays_open_under_a_told_vacuum(told, sand):
    told.change(what="opened")
    timer(told, sand)
    seen = state(told)
    assert (seen.code, seen.was_open) == ("opened", True)
    assert "closing not noted" in seen.words
    assert (
        "open, as far as is noted; it may be under vacuum: pumped on as told by R. Sand" in seen.run
    )


def test_pressure_after_told_nitrogen_is_no_refrigerant(told, sand):
    timer(told, sand, "nitrogen")
    told.test({"test_kind": "static_pressure", "low": "200"})
    seen = state(told)
    assert "nitrogen was put in, as told by R. Sand" in seen.run


def test_two_taps_of_one_note_are_both_said(told, sand):
    note(told, sand, "vacuum", "nitrogen")
    seen = state(told)
    assert "vacuum running" in seen.words
    assert "nitrogen in it" in seen.words


def test_every_page_and_paper_has_it(told, sand, client: Client):
    timer(told, sand)
    client.force_login(make_person())
    key = {"job": told.job.key}
    for name in ("job", "board", "handover", "tag"):
        page = client.get(reverse(name), key).content.decode()
        assert "Must not be run" in page or "must not be run" in page, name
        assert "as told by R. Sand" in page, name
    assert "Nothing that was recorded" not in client.get(reverse("tag"), key).content.decode()
    for kept in (
        client.get(reverse("job_json"), key).json(),
        client.get(reverse("jobs_json")).json()["jobs"][0],
    ):
        assert "as told by R. Sand" in kept["loop"]
        assert "loop_run" in [gate["code"] for gate in kept["gates"]]
    assert "as told by R. Sand" in told.now.loop.words
    assert "as told by R. Sand" in data_of(told.again)["stands"]["loop"]["text"]


def test_a_gate_bars_running_and_names_what_opens_it(told, sand):
    timer(told, sand)
    now = told.now
    shut = gates(system_of(now.job.vehicle.system), now.steps, now.states, now.loop)
    assert [(gate.code, gate.opens) for gate in must_not_run(shut)] == [("loop_run", "vacuum_hold")]
