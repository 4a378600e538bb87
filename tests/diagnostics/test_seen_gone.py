"""A look at the complaint since the repair tells whether it still fails, as the switch does."""

import pytest

from diagnostics.closing import before_closing
from tests.diagnostics.jobs_told import Told
from tests.diagnostics.test_closing import SEEN, repaired

pytestmark = pytest.mark.django_db
GONE = {**SEEN, "there": "no"}


def codes(told: Told) -> set[str]:
    return {one.code for one in before_closing(told.now, "repaired_verified")}


def test_a_look_since_the_repair_that_did_not_find_the_complaint_tells_that_it_is_gone():
    told = Told()
    repaired(told)
    assert "failing_not_told" in codes(told)
    told.test(GONE)
    assert "failing_not_told" not in codes(told)


def test_a_look_before_the_repair_tells_nothing_of_the_car_as_it_is_now():
    told = Told()
    told.test(GONE)
    repaired(told)
    assert "failing_not_told" in codes(told)


@pytest.mark.parametrize("later", [SEEN, {**GONE, "engages": "no"}, {**GONE, "there": "hot"}])
def test_a_later_look_that_found_something_takes_it_back(later):
    told = Told()
    repaired(told)
    told.test(GONE)
    told.test(later)
    assert "failing_not_told" in codes(told)


def test_the_switch_that_says_it_fails_goes_before_the_look():
    told = Told()
    repaired(told)
    told.test(GONE)
    told.failing("yes")
    assert "failing" in codes(told)
