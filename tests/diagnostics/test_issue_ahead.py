"""The paper is set before the write lock is taken: nobody waits for it, and nothing slips by it."""

import json
import threading
from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.utils import timezone

from diagnostics.actions import issue as action
from diagnostics.entries import ISSUE
from diagnostics.told import Asked
from jobs.entries import CUSTOMER, FAILING_NOW
from jobs.logbook import AGAIN, REFUSED, Outcome, Told, enter
from jobs.models import Entry, Job, Record
from jobs.models.people import OWNER
from jobs.paper.frozen import sha256
from jobs.paper.shelf import file_of
from jobs.paper.typeset import Paper, typeset
from jobs.people_entries import PERSON_CHANGE
from tests.factories import make_job, make_person, make_told, tell
from tests.jobs.records import printed
from tests.jobs.test_logbook import all_at_once

pytestmark = pytest.mark.django_db(transaction=True)
WAIT_S = 3  # less than the five seconds after which SQLite gives a waiting writer up


def button(job: Job, **told: Any) -> Told:
    """What the page's button posts after looking at the job."""
    seen = Entry.objects.filter(job_key=job.key).count()
    fields = {"issue": str(job.records.count() + 1), "entries": str(seen)}
    return make_told(fields, make_person(OWNER), job_key=job.key, **told)


def while_setting(monkeypatch: pytest.MonkeyPatch, *calls: Callable[[], object]) -> list[bool]:
    """Make each call while one paper is set. Returned: for each paper, whether it held the lock."""
    held: list[bool] = []

    def slow(frozen: str) -> Paper:
        held.append(connection.in_atomic_block)
        if len(held) <= len(calls):
            calls[len(held) - 1]()
        return typeset(frozen)

    monkeypatch.setattr(action, "typeset", slow)
    return held


def elsewhere(call: Callable[[], Outcome]) -> list[str]:
    """The call from another connection, given three seconds: its state, or nothing."""
    states: list[str] = []

    def run() -> None:
        try:
            states.append(call().state)
        finally:
            connection.close()

    thread = threading.Thread(target=run)
    thread.start()
    thread.join(WAIT_S)  # where it waits for the lock of this very test, it may go on later
    return list(states)


def failing_in(data: str) -> str:
    facts = json.loads(data)["facts"]
    return next(one["lines"][1] for one in facts if one["label"] == "Stage at this issue")


def test_another_entry_goes_through_while_a_paper_is_being_set(monkeypatch: pytest.MonkeyPatch):
    job, other = make_job(), make_job(plate="ZL.1473C")
    told = make_told({"failing": "yes"}, job_key=other.key)
    states: list[str] = []
    held = while_setting(
        monkeypatch, lambda: states.extend(elsewhere(lambda: enter(FAILING_NOW, told)))
    )
    assert enter(ISSUE, button(job)).stands
    assert states == ["accepted"]
    assert held == [False]


def test_an_entry_that_arrives_while_the_paper_is_set_is_in_the_paper(
    monkeypatch: pytest.MonkeyPatch,
):
    job = make_job()
    held = while_setting(monkeypatch, lambda: tell(FAILING_NOW, job, failing="yes"))
    assert enter(ISSUE, button(job)).stands
    record = Record.objects.get(job=job)
    assert failing_in(record.data) == "failing now: yes"
    assert "failingnow:yes" in printed(file_of(record))
    assert held == [False, False]


def test_where_entries_keep_coming_the_last_paper_is_set_inside_the_lock(
    monkeypatch: pytest.MonkeyPatch,
):
    job = make_job()
    held = while_setting(
        monkeypatch,
        lambda: tell(FAILING_NOW, job, failing="no"),
        lambda: tell(FAILING_NOW, job, failing="yes"),
    )
    assert enter(ISSUE, button(job)).stands
    assert held == [False, False, True]
    record = Record.objects.get(job=job)
    assert failing_in(record.data) == "failing now: yes"
    assert (record.entry.result["issue"], sha256(record.data)) == (1, record.data_sha256)


def test_a_paper_set_inside_the_lock_says_the_same_as_one_set_ahead():
    job, author = make_job(), make_person(OWNER, name="E. Quist")
    asked = {"issue": "1", "entries": "1"}
    told = make_told(asked, author, job_key=job.key)
    ahead = action.set_paper(told, Asked(1, 1, "", ""))
    entry = Entry.objects.create(
        **{name: getattr(told, name) for name in "key version job_key author typed_at".split()},
        kind="issue", fields=asked, fingerprint="0" * 64, result={},
        arrived_at=timezone.now(), happened_at=timezone.now(), done_at=timezone.now(),
    )  # fmt: skip
    inside = action.set_paper(entry, Asked(1, 1, "", ""))

    def but_when(paper: action.SetPaper) -> dict[str, Any]:
        data: dict[str, Any] = json.loads(paper.frozen)
        data["record"].update(at="", when="")
        return data

    assert but_when(inside) == but_when(ahead)
    assert inside.last == ahead.last


@pytest.mark.parametrize("kind", ["of the person", "of another job of this car"])
def test_what_changes_a_name_on_the_paper_sets_it_again(monkeypatch: pytest.MonkeyPatch, kind: str):
    job, technician = make_job(), make_person(name="R. Sand")
    tell(FAILING_NOW, job, failing="no")
    enter(FAILING_NOW, make_told({"failing": "yes"}, technician, job_key=job.key))
    other = make_job(plate="ZL.1473C")
    Job.objects.filter(pk=other.pk).update(vehicle=job.vehicle, customer=job.customer)
    renamed = {"person": str(technician.key), "change": "name", "name": "R. Sandor"}
    calls = {
        "of the person": lambda: enter(PERSON_CHANGE, make_told(renamed, make_person(OWNER))),
        "of another job of this car": lambda: tell(CUSTOMER, other, customer_name="R. Sandor"),
    }
    while_setting(monkeypatch, calls[kind])
    assert enter(ISSUE, button(job)).stands
    assert "R. Sandor" in Record.objects.get(job=job).data


def test_an_entry_elsewhere_in_the_shop_does_not_set_the_paper_again(
    monkeypatch: pytest.MonkeyPatch,
):
    job, other = make_job(), make_job(plate="ZL.1473C")
    held = while_setting(monkeypatch, lambda: tell(FAILING_NOW, other, failing="yes"))
    assert enter(ISSUE, button(job)).stands
    assert held == [False]


def test_of_two_who_freeze_at_once_one_gets_the_number_and_the_other_is_told(
    monkeypatch: pytest.MonkeyPatch,
):
    job = make_job()
    both = threading.Barrier(2, timeout=20)
    first_round = threading.local()

    def together(frozen: str) -> Paper:
        if not getattr(first_round, "over", False):
            first_round.over = True
            both.wait()  # neither is stored before both are set
        return typeset(frozen)

    monkeypatch.setattr(action, "typeset", together)
    told = [button(job), button(job)]
    outcomes = all_at_once([lambda one=one: enter(ISSUE, one) for one in told])  # type: ignore[misc]
    assert sorted(outcome.state for outcome in outcomes) == ["accepted", REFUSED]
    (refused,) = [outcome for outcome in outcomes if outcome.state == REFUSED]
    assert refused.why.startswith("Issue 1 was made ")
    assert [record.issue for record in Record.objects.all()] == [1]


def test_the_button_pressed_twice_freezes_one_issue(monkeypatch: pytest.MonkeyPatch):
    job = make_job()
    told = button(job)
    states: list[str] = []
    while_setting(monkeypatch, lambda: states.extend(elsewhere(lambda: enter(ISSUE, told))))
    assert enter(ISSUE, told).state == AGAIN
    assert states == ["accepted"]
    assert Record.objects.count() == 1


def test_what_had_arrived_before_the_button_was_pressed_and_was_not_seen_stops_it(
    monkeypatch: pytest.MonkeyPatch,
):
    job = make_job()
    told = button(job)
    early = timezone.now()

    def arrive() -> None:  # its transaction ends only now; it had arrived before
        outcome = tell(FAILING_NOW, job, failing="yes")
        Entry.objects.filter(key=outcome.key).update(arrived_at=told.typed_at)

    assert told.typed_at <= early
    while_setting(monkeypatch, arrive)
    outcome = enter(ISSUE, told)
    assert outcome.state == REFUSED
    assert outcome.why.startswith("Since this page was opened 1 entry came in")
