"""No page is heavier than a tablet in a corner of the yard has patience for (tests/weights.py)."""

import pytest

from tests.weights import COLD_MAX, RECKONING_MAX, SCRIPT_MAX, table, weights

pytestmark = pytest.mark.django_db
RECKONING = (
    "step ",
    "job",
    "waiting",
    "oil",
    "recovery",
    "charge",
    "machine_cycle",
    "evacuation",
    "board ?kept",
)  # what works something out as typed


def test_no_page_is_over_its_budget():
    found = weights()
    print(table(found))  # shown by pytest -rP
    over = {
        name: one
        for name, one in found.items()
        if one.cold > COLD_MAX
        or one.script > (RECKONING_MAX if name.startswith(RECKONING) else SCRIPT_MAX)
    }
    assert not over, table(over)
