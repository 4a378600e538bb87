"""No page is heavier than a tablet in a corner of the yard has patience for (tests/weights.py)."""

import pytest

from tests.weights import COLD_MAX, SCRIPT_MAX, table, weights

pytestmark = pytest.mark.django_db


def test_no_page_is_over_its_budget():
    found = weights()
    over = {n: w for n, w in found.items() if w.cold > COLD_MAX or w.script > SCRIPT_MAX}
    assert not over, table(over)
