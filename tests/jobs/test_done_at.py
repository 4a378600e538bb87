"""When what an entry tells of was done: a correction is of the moment of what it corrects."""

import uuid
from datetime import datetime, timedelta
from importlib import import_module
from itertools import permutations
from typing import Any

import pytest
from django.apps import apps
from django.utils import timezone

from jobs.entries import CHANGE, CONDITIONS, FAILING_NOW
from jobs.logbook import enter
from jobs.models import Entry, Job
from jobs.models.conditions import last_conditions
from tests.factories import make_job, make_told
from tests.jobs.test_consent_points import points

pytestmark = pytest.mark.django_db
NOON = timezone.now().replace(second=0, microsecond=0) - timedelta(hours=3)


def at(minutes: int) -> datetime:
    return NOON + timedelta(minutes=minutes)


def tell(
    job: Job, minutes: int, kind: Any = CONDITIONS, corrects: Any = None, **said: Any
) -> Entry:
    """One entry, so many minutes after noon."""
    key = said.pop("key", None) or uuid.uuid4()
    told = make_told(
        said or {"ambient": "20"},
        key=key,
        job_key=job.key,
        happened_at=at(minutes),
        corrects=corrects,
    )
    outcome = enter(kind, told)
    assert outcome.stands, outcome.form and outcome.form.errors
    return Entry.objects.get(key=key)


def test_what_corrects_nothing_was_done_when_it_happened():
    assert tell(make_job(), 0).done_at == at(0)


def test_a_correction_is_of_the_moment_of_the_original_and_keeps_its_own_time():
    job = make_job()
    first = tell(job, 0)
    second = tell(job, 30, corrects=first.key)
    assert (second.done_at, second.happened_at) == (at(0), at(30))


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_a_chain_of_corrections_is_of_the_first_moment_in_whatever_order_it_arrives(order):
    job, keys = make_job(), [uuid.uuid4() for _ in range(3)]
    for place in order:
        before = keys[place - 1] if place else None
        tell(job, 20 * place, key=keys[place], corrects=before)
    assert {one.done_at for one in Entry.objects.filter(key__in=keys)} == {at(0)}


def test_what_was_corrected_comes_first_whatever_a_clock_says():
    job = make_job()
    first = tell(job, 30)
    assert tell(job, 0, corrects=first.key).done_at == at(30)


def test_of_two_that_correct_each_other_the_first_to_happen_tells_the_moment():
    job, keys = make_job(), [uuid.uuid4(), uuid.uuid4()]
    tell(job, 20, key=keys[0], corrects=keys[1])
    tell(job, 10, key=keys[1], corrects=keys[0])
    assert {one.done_at for one in Entry.objects.filter(key__in=keys)} == {at(10)}


@pytest.mark.parametrize("whose", ["another job’s", "another kind’s", "nobody’s"])
def test_what_corrects_an_entry_that_it_cannot_take_the_place_of_has_its_own_moment(whose):
    job = make_job()
    corrects = {
        "another job’s": lambda: tell(make_job(plate="ZL.1473C"), 0).key,
        "another kind’s": lambda: tell(job, 0, FAILING_NOW, failing="yes").key,
        "nobody’s": uuid.uuid4,
    }[whose]()
    assert tell(job, 30, corrects=corrects).done_at == at(30)


def test_entries_from_before_there_were_such_moments_get_theirs():
    job = make_job()
    first, other = tell(job, 0), tell(job, 5, FAILING_NOW, failing="yes")
    second = tell(job, 20, corrects=first.key)
    tell(job, 40, corrects=second.key)
    tell(job, 50, corrects=other.key)
    ring = [uuid.uuid4(), uuid.uuid4()]
    tell(job, 70, key=ring[0], corrects=ring[1])
    tell(job, 60, key=ring[1], corrects=ring[0])
    told = dict(Entry.objects.values_list("pk", "done_at"))
    Entry.objects.update(done_at=NOON)
    import_module("jobs.migrations.0023_done_at").put_moments(apps, None)
    assert dict(Entry.objects.values_list("pk", "done_at")) == told


def test_conditions_put_right_are_still_those_of_before():
    job = make_job()
    first = tell(job, 0, ambient="20")
    tell(job, 20, ambient="24")
    tell(job, 40, corrects=first.key, ambient="21")
    last = last_conditions(job)
    assert last
    assert last.ambient == "24"


def test_a_switch_put_right_does_not_turn_over_what_was_told_since():
    job = make_job()
    first = tell(job, 0, FAILING_NOW, failing="yes")
    tell(job, 20, FAILING_NOW, failing="no")
    tell(job, 40, FAILING_NOW, failing="yes", corrects=first.key)
    job.refresh_from_db()
    assert job.failing_now == "no"


def test_work_done_before_anybody_agreed_stays_so_when_it_is_put_right_after():
    job = make_job()
    job.consents.update(about="work", work="Clutch", given_at=at(20))
    first = tell(job, 0, CHANGE, what="fitted", part="clutch", source="new", serial="0417")
    tell(job, 40, CHANGE, first.key, what="fitted", part="clutch", source="new", serial="0471")
    assert "work_beyond" in points(job)
