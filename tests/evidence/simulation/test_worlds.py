"""Worlds in which the program's figures are right, off, or not in any list."""

import math

import pytest

from diagnostics.evidence.simulation.worlds import IN_A_ROW, factor, world_of

CODES, SHARES = ("a", "b", "c"), (0.7, 0.2, 0.1)


def test_at_home_every_share_is_as_the_tables_say():
    assert list(world_of("home", 1, 0).shaken("row", CODES, SHARES)) == pytest.approx(SHARES)


def test_shares_are_off_by_three_at_most_against_each_other_and_make_a_whole():
    world = world_of("off", 1, 0)
    for row in range(200):
        found = world.shaken(f"row {row}", CODES, SHARES)
        odds = [one / share for one, share in zip(found, SHARES, strict=True)]
        assert max(odds) / min(odds) < 9
        assert sum(found) == pytest.approx(1)


def test_factors_lie_evenly_between_a_third_and_three():
    world = world_of("off", 1, 0)
    found = [math.log(factor(world, f"cell {at}"), 3) for at in range(4000)]
    assert all(-1 <= one < 1 for one in found)
    assert sum(found) / len(found) == pytest.approx(0, abs=4 / math.sqrt(3 * len(found)))
    assert sum(abs(one) < 0.5 for one in found) == pytest.approx(2000, abs=130)


def test_cars_that_follow_each_other_share_a_world_and_then_there_is_another():
    first, last, next_one = (world_of("off", 1, at) for at in (0, IN_A_ROW - 1, IN_A_ROW))
    assert first == last != next_one
    assert factor(first, "cell") != factor(next_one, "cell")


def test_another_seed_is_another_world():
    assert factor(world_of("off", 1, 0), "cell") != factor(world_of("off", 2, 0), "cell")


def test_slips_are_off_too():
    assert world_of("home", 1, 0).slip("fuse", "misses", 0.02) == 0.02
    assert world_of("off", 1, 0).slip("fuse", "misses", 0.02) != 0.02
