"""Corrections of steps: what they replace, in whatever order they arrive; both stay."""

from datetime import timedelta
from itertools import permutations

import pytest
from django.utils import timezone

from diagnostics.assess import REPLACES_NOTHING, steps_of
from diagnostics.entries import STEP
from diagnostics.models import Step
from diagnostics.points import step_points
from jobs.entries import CHANGE
from jobs.logbook import enter
from jobs.models import Change, Job
from tests.diagnostics.step_forms import some_key, step_of, tell
from tests.diagnostics.test_record_steps import data_of
from tests.factories import make_job, make_person, make_told
from tests.factories import tell as tell_entry

pytestmark = pytest.mark.django_db


def changed(job: Job) -> Change:
    """A change on the car."""
    assert tell_entry(CHANGE, job, what="gap_set").stands
    return job.changes.get()


def test_a_correction_supersedes_and_both_stay():
    job = make_job()
    first = step_of(tell(job))
    second = step_of(tell(job, holds="yes", pushed=None, told={"corrects": first.key}))
    first.refresh_from_db()
    assert first.superseded_by == second
    assert [one.step.number for one in steps_of(job)] == [1, 2]


def test_two_corrections_of_one_step_follow_each_other():
    job = make_job()
    first = step_of(tell(job))
    second, third = (step_of(tell(job, told={"corrects": first.key})) for _ in range(2))
    second.refresh_from_db()
    assert second.superseded_by == third


@pytest.mark.parametrize("order", list(permutations((30, 20, 10))))
def test_of_several_corrections_of_one_step_the_last_to_happen_stands(order):
    job = make_job()
    first = step_of(tell(job))
    for minutes in order:
        moment = timezone.now() - timedelta(minutes=minutes)
        told = {"corrects": first.key, "happened_at": moment}
        assert tell(job, seen=str(minutes), told=told).stands
    assert [one.seen for one in Step.objects.filter(superseded_by=None)] == ["10"]


@pytest.mark.parametrize(("reason", "stands"), [("", False), ("clamp on the wrong lead", True)])
def test_a_page_that_corrects_asks_what_was_wrong(reason, stands):
    job = make_job()
    first = step_of(tell(job))
    outcome = tell(job, corrected_why=reason, why_asked="1", told={"corrects": first.key})
    assert outcome.stands == stands
    if not stands:
        assert outcome.form
        assert "what was wrong" in str(outcome.form.errors["corrected_why"])


@pytest.mark.parametrize("whose", ["nobody’s", "another job’s", "its own", "a change’s"])
def test_a_correction_of_what_is_not_here_counts_replaces_nothing_and_is_an_open_point(whose):
    job, key = make_job(), some_key()
    corrects = {
        "nobody’s": some_key,
        "another job’s": lambda: step_of(tell(make_job(plate="ZL.1473C"))).key,
        "its own": lambda: key,
        "a change’s": lambda: changed(job).key,
    }[whose]()
    step = step_of(tell(job, corrected_why="wrong car", told={"corrects": corrects, "key": key}))
    (one,) = steps_of(job)
    assert one.stands
    words = f"Step {step.number} {REPLACES_NOTHING}: wrong car"
    assert one.corrects == words
    assert [(point.code, point.sentence) for point in step_points([one])] == [
        ("corrects_nothing", words)
    ]
    assert not Step.objects.exclude(superseded_by=None).exists()


def test_a_correction_that_arrives_first_takes_the_place_of_what_arrives_later():
    job, key = make_job(), some_key()
    second = step_of(tell(job, told={"corrects": key}))
    first = step_of(tell(job, told={"key": key}))
    assert first.superseded_by == second
    assert step_points(steps_of(job)) == []


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_a_chain_of_corrections_ends_at_the_last_in_whatever_order_they_arrive(order):
    job, keys = make_job(), [some_key() for _ in range(3)]
    for place in order:
        corrects = {"corrects": keys[place - 1]} if place else {}
        step_of(tell(job, told={"key": keys[place], **corrects}))
    standing = [str(one.step.key) for one in steps_of(job) if one.stands]
    assert standing == [keys[2]]


def test_two_steps_that_correct_each_other_leave_one_that_stands():
    job, keys = make_job(), [some_key(), some_key()]
    for one, other in (keys, keys[::-1]):
        step_of(tell(job, told={"key": one, "corrects": other}))
    assert [one.stands for one in steps_of(job)] == [False, True]


def test_a_superseded_step_leaves_no_point():
    job = make_job()
    first = step_of(tell(job, engine="running", hub="not_done", pushed=None))
    step_of(tell(job, told={"corrects": first.key}))
    assert step_points(steps_of(job)) == []


def test_the_record_says_of_a_correction_that_meets_nothing_that_it_replaces_nothing():
    job = make_job()
    first = step_of(tell(job))
    step_of(tell(job, corrected_why="read again", told={"corrects": first.key}))
    step_of(tell(job, corrected_why="wrong car", told={"corrects": some_key()}))
    nothing = "was to replace an entry that is not in this job, and replaces nothing"
    assert [(one["code"], one["what"]) for one in data_of(job)["corrections"]] == [
        ("replaces", "Step 2 replaces step 1: read again"),
        ("corrects_nothing", f"Step 3 {nothing}: wrong car"),
    ]


def test_a_step_never_takes_the_place_of_another_kind_of_test():
    job = make_job()
    first = step_of(tell(job))
    fields = {"test_kind": "cabin_airflow", "test_version": "1", "flow": "strong"}
    entry = make_told(fields, make_person(), job_key=job.key, corrects=first.key)
    second = step_of(enter(STEP, entry))
    first.refresh_from_db()
    assert first.superseded_by is None
    points = step_points(steps_of(job))
    assert [(point.code, point.number) for point in points] == [("corrects_nothing", second.number)]
    [line] = [one for one in data_of(job)["corrections"] if one["replaced"]]
    nothing = "was to replace step 1, which is another kind of test, and replaces nothing"
    assert line["what"] == f"Step 2 {nothing}: no reason given"
    assert line["code"] == "corrects_nothing"
