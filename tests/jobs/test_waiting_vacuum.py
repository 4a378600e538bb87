"""A vacuum timer is over with the evacuation or the charge that was noted after it began."""

from datetime import timedelta

import pytest

from jobs.entries import CHARGE, EVACUATION
from tests.factories import make_job
from tests.jobs.test_waiting import NOON, ended_by, row, told_at

pytestmark = pytest.mark.django_db
LATER = NOON + timedelta(minutes=10)
READ = {"gauge": "system", "depth": "430", "pumped": "25"}
FULL = {"fill": "full", "grams_in": "520", "cylinder": "unnamed"}


@pytest.mark.parametrize(("kind", "fields"), [(EVACUATION, READ), (CHARGE, FULL)])
def test_work_after_it_began_ends_a_vacuum_timer(kind, fields):
    job = make_job()
    vacuum = told_at(job, NOON, what="vacuum", minutes="30")
    done = told_at(job, LATER, kind, **fields)
    assert ended_by(vacuum) == done


def test_a_timer_that_arrives_after_the_evacuation_that_followed_it_is_over():
    job = make_job()
    done = told_at(job, LATER, EVACUATION, **READ)
    assert ended_by(told_at(job, NOON, what="vacuum", minutes="30")) == done


def test_a_timer_that_began_after_the_evacuation_runs():
    job = make_job()
    told_at(job, NOON, EVACUATION, **READ)
    assert row(told_at(job, LATER, what="vacuum", minutes="30")).stands


def test_no_other_timer_is_over_by_an_evacuation():
    job = make_job()
    soak = told_at(job, NOON, what="nitrogen", minutes="30")
    told_at(job, LATER, EVACUATION, **READ)
    assert row(soak).stands


def test_an_evacuation_entered_by_mistake_lets_the_timer_run_again():
    job = make_job()
    vacuum = told_at(job, NOON, what="vacuum", minutes="30")
    done = told_at(job, LATER, EVACUATION, **READ)
    more = {"mistake": "yes", "corrected_why": "Another car.", "why_asked": "1"}
    told_at(job, LATER + timedelta(minutes=1), EVACUATION, corrects=done, **more)
    assert row(vacuum).stands


def test_a_correction_of_an_earlier_evacuation_ends_no_timer_begun_since():
    job = make_job()
    done = told_at(job, NOON, EVACUATION, **READ)
    vacuum = told_at(job, LATER, what="vacuum", minutes="30")
    more = {**READ, "depth": "440", "corrected_why": "Misread.", "why_asked": "1"}
    told_at(job, LATER + timedelta(minutes=1), EVACUATION, corrects=done, **more)
    assert row(vacuum).stands
