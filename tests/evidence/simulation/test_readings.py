"""What tests read on cars whose answers are known."""

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.simulation.cars import Car, draw
from diagnostics.evidence.simulation.readings import read, true_shares
from diagnostics.evidence.simulation.worlds import world_of
from diagnostics.evidence.tables import TABLES

HOME = world_of("home", 1, 0)
READ = 4000


def a_car(beyond: str = "") -> Car:
    car = draw((1, 3), HOME, KINDS)
    return replace(car, beyond=beyond)


@pytest.mark.parametrize("kind", ["hub_turn", "running_pressures", "leak_search"])
def test_outcomes_are_read_as_often_as_the_table_with_its_slips_says(kind):
    car, looks, rng = a_car(), TABLES[kind], np.random.default_rng(5)
    model = model_of(car.system)
    at = tuple(model.at(name, car.answers[name]) for name in looks.given(model))
    shares = looks.true(model)[at] @ looks.slips()
    dice = [(*rng.random(2), 0.0) for _ in range(READ)]
    counted = Counter(read(looks, replace(car, dice={kind: die}), HOME)[1] for die in dice)
    for code, share in zip(looks.outcomes, shares, strict=True):
        deviation = (share * (1 - share) / READ) ** 0.5
        assert counted[code] / READ == pytest.approx(share, abs=4.5 * deviation), code


def test_a_test_reads_the_same_on_the_same_car_whenever_it_is_made():
    looks = TABLES["coil_power"]
    assert read(looks, a_car(), HOME) == read(looks, a_car(), HOME)


def test_a_cause_outside_the_list_looks_the_same_each_time_and_like_nothing_known():
    looks = TABLES["hub_turn"]
    known, beyond = (true_shares(looks, a_car(name), HOME) for name in ("", "mechanics"))
    assert sum(beyond) == pytest.approx(1)
    assert list(beyond) == list(true_shares(looks, a_car("mechanics"), HOME))
    assert list(beyond) != list(known)


def test_what_does_not_look_at_it_reads_as_ever():
    looks = TABLES["gas_identity"]
    known, beyond = (true_shares(looks, a_car(name), HOME) for name in ("", "mechanics"))
    assert list(beyond) == list(known)


def test_where_nothing_can_be_read_nothing_is():
    """A drop under current, where hardly any current flows (its table's own figure)."""
    looks, car = TABLES["feed_drop"], a_car()
    car = replace(car, answers={**car.answers, "command": "fuse", "clutch": "ok"})
    share = looks.can_be_read["command"]["fuse"]
    assert 0 < share < 1
    seldom, mostly = ({"feed_drop": (0.5, 0.5, die)} for die in (share - 0.001, share + 0.001))
    assert read(looks, replace(car, dice=seldom), HOME)[1] in looks.outcomes
    assert read(looks, replace(car, dice=mostly), HOME) == ("", "")
