"""The lines proposed from a decision have what was agreed to find the fault, once."""

from typing import Any

import pytest

from diagnostics.lines_proposed import FINDING_TOO, FOUND, proposed_for
from tests.diagnostics.jobs_told import Told
from tests.jobs.test_estimate import choose, decided, desk, page_of, sums, taxed

__all__ = ["desk"]
pytestmark = pytest.mark.django_db


def found(told: Told) -> list[dict[str, Any]]:
    return [one for one in proposed_for(told.again).lines if one["words"] == FOUND]


def decided_to_repair() -> Told:
    told = decided()
    choose(told, "clutch_in_car")
    return told


def test_what_was_agreed_to_find_the_fault_is_a_line_that_can_be_taken_out(desk):
    told = decided_to_repair()
    shown = page_of(desk, told.job)
    assert f'value="{FOUND}"' in shown
    assert 'value="150.00"' in shown
    assert FINDING_TOO in shown


def test_it_was_agreed_with_its_tax_and_the_line_is_without():
    """138.57 and 8.25 % of it, 11.43, are the 150.00 agreed to."""
    told = decided_to_repair()
    taxed("8.25", "labor")
    [line] = found(told)
    assert line["price"] == 13857


def test_sundries_as_a_share_of_the_labor_are_not_raised_by_it():
    told = decided_to_repair()
    sums(sundries="percent", sundries_typed="5")
    assert found(told)[0]["sort"] != "labor"


@pytest.mark.parametrize("gone", [{"currency": "USD"}, {"amount": 0}, {"outcome": "refused"}])
def test_what_was_not_agreed_in_this_currency_is_no_line(gone):
    told = decided_to_repair()
    told.job.consents.update(**gone)
    assert found(told) == []
    assert FINDING_TOO not in proposed_for(told.again).words
