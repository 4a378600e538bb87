"""What was wrong before a repair is told as the tests before it leave it, all of them."""

import pytest

from jobs.entries import RECOVERY
from tests.diagnostics.jobs_told import CLUTCH, Told, stood
from tests.diagnostics.test_verification import seen
from tests.diagnostics.verified_jobs import as_it_came

pytestmark = pytest.mark.django_db
SHARE = {"test_kind": "recovered_share", "recovered": "200", "machine": "newer"}


def charge_before(told: Told) -> str:
    return next(one for one in seen(told).cured if one.code == "charge").was


def test_what_a_recovery_told_before_the_repair_counts_as_before():
    """A recovery opens a car state and changes nothing on the car: its grams tell how it came."""
    told = as_it_came()
    stood(told.tell(RECOVERY, grams_out="200", machine="newer", cylinder="unnamed"))
    told.test(SHARE, temperature="22", repeated="yes", waited="5")
    told.change(**CLUTCH)
    assert "leaks at a place" in charge_before(told)


def test_what_was_told_after_it_does_not():
    told = as_it_came()
    told.change(**CLUTCH)
    stood(told.tell(RECOVERY, grams_out="200", machine="newer", cylinder="unnamed"))
    told.test(SHARE, temperature="22", repeated="yes", waited="5")
    assert charge_before(told) == ""
