"""Corrections of changes: the last to happen stands, whichever tablet brings it last."""

import uuid
from datetime import timedelta
from itertools import permutations
from typing import Any

import pytest
from django.utils import timezone

from jobs.entries import CHANGE
from jobs.logbook import enter
from jobs.models import Change, Job
from tests.factories import make_job, make_told, tell

pytestmark = pytest.mark.django_db
CLUTCH = {"what": "fitted", "part": "clutch", "source": "new"}


def correct(job: Job, key: uuid.UUID, minutes_ago: int, **fields: Any):
    """A correction that happened so long ago."""
    moment = timezone.now() - timedelta(minutes=minutes_ago)
    told = make_told(CLUTCH | fields, job_key=job.key, corrects=key, happened_at=moment)
    return enter(CHANGE, told)


@pytest.mark.parametrize("order", list(permutations((30, 20, 10))))
def test_of_several_corrections_of_one_change_the_last_to_happen_stands(order):
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    for minutes in order:
        assert correct(job, first.key, minutes, serial=str(minutes)).stands
    assert [one.serial for one in Change.objects.filter(superseded_by=None)] == ["10"]
    assert Change.objects.exclude(superseded_by=None).count() == 3


def test_an_older_note_that_it_was_a_mistake_does_not_undo_a_newer_correction():
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    correct(job, first.key, 5, serial="0417")
    correct(job, first.key, 50, what="nothing")
    state = job.car_states.get(number=1)
    assert state.what == "Clutch, complete: fitted or swapped, new"
    assert state.touches == ["clutch"]


def test_a_correction_of_what_corrects_nothing_leaves_the_car_as_it_arrived():
    job = make_job()
    lost = correct(job, uuid.uuid4(), 30, what="nothing")
    assert correct(job, lost.key, 20, part="compressor").stands
    told = [(state.number, state.what) for state in job.car_states.all()]
    assert told == [(0, "Car as arrived"), (1, "Compressor: fitted or swapped, new")]


@pytest.mark.parametrize(("reason", "stands"), [("", False), ("wrong part tapped", True)])
def test_a_page_that_corrects_asks_what_was_wrong(reason, stands):
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    told = {"part": "coil", "serial": "9", "corrected_why": reason, "why_asked": "1"}
    outcome = correct(job, first.key, 5, **told)
    assert outcome.stands == stands
    if not stands:
        assert outcome.form
        assert "what was wrong" in str(outcome.form.errors["corrected_why"])
    else:
        assert Change.objects.get(serial="9").corrected_why == reason


def test_what_only_adds_to_a_change_is_not_asked_what_was_wrong():
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    more = {"serial": "9", "seller": "Halm", "also": ["drier"], "why_asked": "1"}
    assert correct(job, first.key, 5, **more).stands
    assert Change.objects.get(serial="9").corrected_why.startswith("only added to")


@pytest.mark.parametrize("other", [{"source": "used"}, {"serial": "8"}, {"also": ["seal"]}])
def test_what_was_told_and_is_told_otherwise_is_asked_about(other):
    job = make_job()
    told = CLUTCH | {"serial": "9", "also": ["drier"]}
    first = tell(CHANGE, job, **told)
    again = told | other | {"why_asked": "1"}
    outcome = enter(CHANGE, make_told(again, job_key=job.key, corrects=first.key))
    assert outcome.form
    assert "what was wrong" in str(outcome.form.errors["corrected_why"])


def test_what_a_tablet_changed_before_sending_corrects_without_being_asked():
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    assert correct(job, first.key, 5, serial="9").stands
