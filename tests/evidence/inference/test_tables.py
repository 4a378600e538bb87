"""Each kind's table is whole: nothing impossible, nothing unnamed, every figure with its reason."""

import numpy as np
import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.network import BETWEEN, VARIABLES
from diagnostics.evidence.inference.rows import Rows
from diagnostics.evidence.tables import TABLES
from tests.evidence.inference.cars import cars

STRONG = 1000  # a ratio between two answers that needs a named reason
CELLS = 2500
EVERY = {one.name: tuple(answer.code for answer in one.answers) for one in VARIABLES} | BETWEEN


def strongest(looks: Looks) -> float:
    """The largest ratio by which one reading tells two combinations of answers apart."""
    read = looks.rows.shares(EVERY, looks.outcomes).reshape([-1, len(looks.outcomes)])
    read = read @ looks.slips()
    return float((read.max(axis=0) / read.min(axis=0)).max())


def misnamed(rows: Rows, codes: tuple[str, ...]) -> list[str]:
    """What a table names that does not exist."""
    found = [name for name in rows.given if name not in EVERY]
    for row in rows.rows:
        found += [name for name in row.where if name not in rows.given]
        found += [
            f"{name}: {code}"
            for name, named in row.where.items()
            for code in named
            if code not in EVERY.get(name, ())
        ]
        found += [code for code in row.shares if code not in codes]
    return found


each_table = pytest.mark.parametrize("looks", TABLES.values(), ids=TABLES)


def test_every_table_is_that_of_a_kind():
    assert set(TABLES) <= set(KINDS)
    assert all(name == looks.kind for name, looks in TABLES.items())


@each_table
def test_its_outcomes_are_those_of_the_kind_that_carry_in_its_order(looks):
    carrying = [one.code for one in KINDS[looks.kind].outcomes if one.carries]
    assert list(looks.outcomes) == carrying


@each_table
def test_what_is_normal_is_what_the_kind_calls_normal_if_it_calls_anything_so(looks):
    normal = {one.code for one in KINDS[looks.kind].outcomes if one.carries and one.normal}
    assert set(looks.normal) == normal or (looks.normal and not normal)
    assert len(set(looks.normal)) == len(looks.normal)


@each_table
def test_it_names_nothing_that_does_not_exist(looks):
    assert misnamed(looks.rows, looks.outcomes) == []
    assert len(set(looks.rows.given)) == len(looks.rows.given)
    for name, shares in looks.can_be_read.items():
        assert name in looks.rows.given
        assert set(shares) <= set(EVERY[name])
        assert all(0 < one <= 1 for one in shares.values())


@each_table
def test_each_row_leaves_something_for_what_it_does_not_name(looks):
    for row in looks.rows.rows:
        named, whole = sum(row.shares.values()), set(row.shares) == set(looks.outcomes)
        assert min(row.shares.values()) > 0
        assert 0.9 < named <= 1 + 1e-9 if whole else named < 1, row.why


@each_table
def test_each_row_says_why_and_on_what_it_rests(looks):
    assert all(row.why.strip() and row.basis.strip() for row in looks.rows.rows)


@each_table
def test_no_row_stands_behind_others_that_take_all_it_is_for(looks):
    used = {id(looks.rows.row(one)) for one in looks.rows.each(looks.rows.given, EVERY)}
    idle = [row.why for row in looks.rows.rows if id(row) not in used]
    assert idle == []


@each_table
def test_its_shares_sum_to_one_and_nothing_is_impossible_on_any_car(looks):
    for system in cars():
        true = looks.true(model_of(system))
        assert np.allclose(true.sum(axis=-1), 1, atol=1e-12)
        assert true.min() > 0
        assert true[..., 0].size <= CELLS


@each_table
def test_slips_sum_to_one_and_mostly_look_normal(looks):
    table = looks.slips()
    assert np.allclose(table.sum(axis=1), 1, atol=1e-12)
    assert table.min() > 0
    assert (table.argmax(axis=1) == np.arange(len(looks.outcomes))).all()
    assert looks.misses >= looks.alarms


@each_table
def test_the_answers_it_speaks_of_exist_and_are_among_those_it_looks_at(looks):
    for name, codes in looks.direct.items():
        assert set(codes) <= set(EVERY[name])
        assert codes


@each_table
def test_a_test_strong_enough_to_prove_has_rows_that_rest_on_more_than_a_word(looks):
    if strongest(looks) > STRONG:
        assert all(len(row.basis) > 3 and len(row.why) > 3 for row in looks.rows.rows)


@each_table
def test_nothing_makes_a_normal_result_more_likely_than_a_car_in_order_by_much(looks):
    """Two tests of pressure or feel excepted no more: a fault never looks twice as good."""
    read = looks.rows.shares(EVERY, looks.outcomes)
    at = [looks.outcomes.index(code) for code in looks.normal]
    normal = read[..., at].sum(axis=-1)
    assert normal.max() <= 2 * normal[tuple([0] * normal.ndim)]
