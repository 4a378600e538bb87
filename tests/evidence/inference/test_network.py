"""What can be wrong with a car, as data: shares sum to one, couplings name what exists."""

import numpy as np
import pytest

from diagnostics.evidence.inference.model import Model, model_of
from diagnostics.evidence.inference.network import (
    BEFORE,
    BETWEEN,
    COUPLINGS,
    OTHER,
    QUESTIONS,
    VARIABLES,
)
from diagnostics.evidence.inference.stakes import REMEDIES
from tests.evidence.inference.cars import BIGGEST, DRIVES, systems
from tests.evidence.inference.test_tables import EVERY, misnamed

each_coupling = pytest.mark.parametrize("name", COUPLINGS)
each_variable = pytest.mark.parametrize("variable", VARIABLES, ids=lambda one: one.name)


def models() -> list[Model]:
    return [model_of(system) for drive in DRIVES for system in systems(drive)]


@each_variable
def test_a_variables_first_answer_is_that_it_is_in_order(variable):
    codes = [one.code for one in variable.answers]
    assert codes[0] == "ok"
    assert len(set(codes)) == len(codes)
    assert variable.question in QUESTIONS
    assert variable.basis
    assert all(one.words for one in variable.answers)


def test_the_six_questions_have_each_their_variables():
    assert {one.question for one in VARIABLES} == set(QUESTIONS)


def test_on_every_car_the_usual_shares_sum_to_one_and_none_is_nothing():
    for model in models():
        for shares in model.usual.values():
            assert sum(shares.values()) == pytest.approx(1)
            assert min(shares.values()) > 0


def test_the_share_of_something_else_never_vanishes():
    for model in models():
        for name, shares in model.usual.items():
            assert shares.get(OTHER, 1) >= 0.002, name


@each_coupling
def test_a_coupling_names_what_exists(name):
    rows = COUPLINGS[name]
    assert misnamed(rows, EVERY[name]) == []
    assert all(row.why and row.basis for row in rows.rows)
    assert all(sum(row.shares.values()) < 1 for row in rows.rows)


@each_coupling
def test_no_row_of_a_coupling_stands_behind_others_that_take_all_it_is_for(name):
    rows = COUPLINGS[name]
    used = {id(rows.row(one)) for one in rows.each(rows.given, EVERY)}
    assert [row.why for row in rows.rows if id(row) not in used] == []


def test_couplings_go_round_in_no_circle():
    left, placed = dict(COUPLINGS), set(EVERY) - set(COUPLINGS)
    while left:
        ready = [name for name, rows in left.items() if set(rows.given) <= placed]
        assert ready, left
        for name in ready:
            placed.add(name)
            del left[name]


def test_every_table_of_every_car_sums_to_one_and_has_nothing_impossible():
    for model in models():
        for factor in model.factors[: len(model.answers)]:
            assert np.allclose(factor.values.sum(axis=-1), 1, atol=1e-12), factor.names
            assert factor.values.min() > 0, factor.names


def test_what_cannot_be_on_a_car_is_no_answer_there():
    electric = model_of({"drive": "electric_hv", "displacement": "speed", "branches": ["front"]})
    assert not {"clutch", "belt", "seal"} & set(electric.answers)
    assert {"isolation", "inverter"} <= set(electric.answers["mechanics"])
    clutchless = model_of({"drive": "belt_clutchless", "displacement": "fixed"})
    assert not {"coil_open", "gap_wide"} & set(clutchless.answers["clutch"])
    assert "valve" not in clutchless.answers["mechanics"]
    assert "rear" not in model_of({"branches": ["front"]}).answers["cabin"]


def test_the_car_came_because_it_does_not_cool():
    """Told of every car before any test; a change of the car is followed by no such thing."""
    for model in models():
        (cools,) = model.factors[len(model.answers) :]
        assert cools.names == ("cools",)
        assert cools.values.tolist() == [[0.0, 1.0]]


def test_what_is_not_known_of_a_car_takes_nothing_out():
    assert dict(model_of({}).answers) == EVERY
    assert dict(model_of(BIGGEST).answers) == EVERY


def test_the_in_between_variables_and_earlier_work_sum_to_one():
    assert sum(BEFORE.values()) == pytest.approx(1)
    assert set(BEFORE) == set(BETWEEN["worked_before"])


def test_what_mends_a_variable_names_answers_that_exist():
    for name, remedies in REMEDIES.items():
        for one in remedies:
            assert set(one.cures) <= set(EVERY[name]), (name, one.words)
            assert one.cost > 0
