"""Gauge and absolute pressure never meet unnoticed."""

import pytest

from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.pressure import Absolute, Gauge

SEA = Absolute(101_325)


def test_a_gauge_pressure_is_not_compared_with_an_absolute_one():
    with pytest.raises(TypeError):
        Gauge(200_000) < SEA  # type: ignore[operator]  # noqa: B015  comparing is the point


def test_the_way_from_gauge_to_absolute_and_back_is_the_air_s_own_pressure():
    assert Gauge(470_000).absolute(SEA) == Absolute(571_325)
    assert Absolute(571_325).gauge(SEA) == Gauge(470_000)


def test_nothing_is_deeper_than_perfect_vacuum():
    with pytest.raises(Impossible):
        Gauge(-101_326).absolute(SEA)


@pytest.mark.parametrize("kind", [Absolute, Gauge])
def test_a_pressure_is_a_number(kind):
    with pytest.raises(Malformed):
        kind(float("nan"))
