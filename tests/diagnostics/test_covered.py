"""A part that the estimate agreed to has no line for; silent where nobody can tell."""

from typing import Any

import pytest

from diagnostics.covered import not_covered
from jobs.entries import CHANGE
from jobs.logbook import enter
from jobs.models import Job
from tests.factories import make_told
from tests.jobs.agreeing import ago, ask, came_in, make_estimate

pytestmark = pytest.mark.django_db
COUNTED = {"quantity": "1", "unit": "piece", "source": "", "amount": 50400}
CLUTCH_LINE = [{"code": "clutch", "sort": "part", "words": "Clutch, complete"} | COUNTED]


def agreed(lines: Any = CLUTCH_LINE) -> Job:
    job = came_in()
    estimate = make_estimate(job, at=ago(60))
    estimate.lines = lines
    estimate.save(update_fields=["lines"])
    ask(job, estimate, at=ago(40))
    return job


def fitted(job: Job, part: str, minutes: float = 5, **fields: str) -> list[str]:
    told = {"what": "fitted", "part": part, "source": "new", **fields}
    assert enter(CHANGE, make_told(told, job_key=job.key, happened_at=ago(minutes))).stands
    fresh = Job.objects.select_related("customer", "vehicle__system").get(pk=job.pk)
    return [sentence for sentence, _ in not_covered(fresh)]


def test_a_part_with_a_line_is_covered():
    assert fitted(agreed(), "clutch") == []


def test_a_part_without_a_line_is_not():
    assert fitted(agreed(), "compressor") == [
        "Compressor (car state 1): Estimate 1, which was agreed to, has no line for this part."
    ]


def test_a_line_that_somebody_typed_may_have_meant_any_part():
    typed = [{"code": "", "sort": "part", "words": "Parts"} | COUNTED]
    assert fitted(agreed(typed), "compressor") == []


def test_work_agreed_to_in_words_may_have_meant_any_part():
    job = agreed()
    told = {"work": "And the hose", "consent_added": "50", "consent_amount": "610"}
    ask(job, "work", at=ago(20), **told)
    assert fitted(job, "hose") == []


def test_what_was_fitted_before_anything_was_agreed_is_told_as_work_without_consent_alone():
    assert fitted(agreed(), "compressor", minutes=50) == []
