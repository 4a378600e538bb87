"""A job's rows become its balance: what stands counts, with the machine that its recovery names."""

from datetime import timedelta
from typing import Any
from uuid import UUID

import pytest
from django.utils import timezone

from jobs.entries import CHARGE, EVACUATION, RECOVERY
from jobs.logbook import EntryKind, Outcome, enter
from jobs.models import Job
from jobs.models.balances import balance_of_job
from tests.factories import make_job, make_told

pytestmark = pytest.mark.django_db
OUT: dict[str, Any] = {"grams_out": "385", "gas": "identified", "cylinder": "unnamed"}
IN: dict[str, Any] = {"grams_in": "515", "fill": "full", "cylinder": "unnamed", "hose": "machine"}
NEWER: dict[str, Any] = {"machine": "newer", "temperature": "22"}


def did(
    job: Job, kind: EntryKind, days_ago: float = 0, corrects: UUID | None = None, **fields: Any
) -> Outcome:
    """Tell it so many days ago."""
    at = timezone.now() - timedelta(days=days_ago, hours=1)
    told = make_told(fields, job_key=job.key, typed_at=at, corrects=corrects)
    outcome = enter(kind, told)
    assert outcome.stands, outcome.form and outcome.form.errors
    return outcome


def test_the_machine_that_a_recovery_names_bounds_what_is_left():
    job = make_job()
    did(job, RECOVERY, **OUT, **NEWER)
    (cycle,) = balance_of_job(job).cycles
    assert (cycle.recovered, cycle.remainder) == (385_000, 20_263)


def test_without_a_machine_the_remainder_is_not_known():
    job = make_job()
    did(job, RECOVERY, **OUT)
    assert balance_of_job(job).cycles[0].remainder is None


def test_a_corrected_recovery_counts_once():
    job = make_job()
    first = did(job, RECOVERY, **OUT, **NEWER)
    more = {"grams_out": "395", "why_asked": "1", "corrected_why": "read wrong"}
    did(job, RECOVERY, corrects=first.key, **OUT | NEWER | more)
    assert balance_of_job(job).cycles[0].pulls == (395_000,)


def test_a_recovery_that_brought_nothing_is_no_charge_on_top():
    job = make_job()
    did(job, RECOVERY, 0.2, **OUT | {"grams_out": "0"}, **NEWER)
    did(job, CHARGE, **IN)
    balance = balance_of_job(job)
    assert (balance.cycles[0].pulls, balance.charged) == ((0,), 515_000)


def test_a_loop_evacuated_before_its_charge_is_known_to_hold_it():
    job = make_job()
    did(job, EVACUATION, 0.2, gauge="system", depth="430")
    did(job, CHARGE, **IN)
    assert balance_of_job(job).charged == 515_000


def test_a_comeback_is_held_against_what_the_visit_before_charged():
    before = make_job()
    did(before, RECOVERY, 28.1, **OUT, **NEWER)
    did(before, CHARGE, 28, **IN)
    job = make_job(follows=str(before.key), before="comeback")
    did(job, RECOVERY, **OUT | {"grams_out": "415"}, **NEWER)
    back = balance_of_job(job).comeback
    assert back is not None
    assert back.most == pytest.approx(100_000 / 28, rel=0.001)
    assert back.least == pytest.approx((515_000 - 415_000 / 0.95) / 28, rel=0.001)
