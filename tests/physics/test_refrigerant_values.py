"""Refrigerants held to published values; refrigerants.json names each source."""

import pytest

from tests.physics.cases import ROWS, computed, deviation, rows

ELSEWHERE = ("gwp", "safety", "cylinder")  # asserted in the tests of their own subject
OF_THE_LIBRARY = ("cv", "speed of sound", "pressure R-1234yf")  # in test_refrigerant_tables.py


def is_here(row):
    library = row["group"] == "r1234yf-eos" and row["quantity"].startswith(OF_THE_LIBRARY)
    return row["group"] not in ELSEWHERE and not library


HERE = [row for row in rows("check", "regression") if is_here(row)]
TRAPS = [row for row in rows("trap") if is_here(row)]


@pytest.mark.parametrize("row", HERE, ids=[row["id"] for row in HERE])
def test_a_property_agrees_with_the_published_value(row):
    assert deviation(row, computed(row)) <= 1


@pytest.mark.parametrize("row", TRAPS, ids=[row["id"] for row in TRAPS])
def test_a_published_value_that_is_wrong_is_not_adopted(row):
    assert deviation(row, computed(row)) > 2


def test_every_row_names_its_source_and_how_it_is_known():
    assert len({row["id"] for row in ROWS}) == len(ROWS)
    assert all(row["source"] and row["source_status"] for row in ROWS)


def test_no_group_was_left_out():
    assert len(HERE) > 150
    assert TRAPS
