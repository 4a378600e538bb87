"""First-order uncertainty of any function: the rules of the GUM for sums and products."""

import math

import pytest

from diagnostics.physics.errors import Impossible
from diagnostics.physics.propagation import propagated


def test_of_a_sum_the_squares_add():
    # JCGM 100:2008, 5.1.2 for y = a + b
    assert propagated(sum, (10, 20), (0.3, 0.4)) == pytest.approx(0.5)


def test_of_a_product_the_relative_squares_add():
    # JCGM 100:2008, 5.1.6
    found = propagated(lambda read: read[0] * read[1], (10, 20), (0.1, 0.4))
    assert found == pytest.approx(200 * math.hypot(0.01, 0.02))


def test_at_an_edge_the_side_that_can_be_counts_alone():
    def share(read):
        if read[0] > 1:
            raise Impossible("More than all.")
        return 3 * read[0]

    assert propagated(share, (1.0,), (0.1,)) == pytest.approx(0.3)


def test_where_no_side_can_be_nothing_is_known():
    def only_one(read):
        if read[0] != 1:
            raise Impossible("Only one.")
        return 1.0

    assert propagated(only_one, (1.0,), (0.1,)) is None


def test_a_reading_without_uncertainty_has_no_part():
    assert propagated(sum, (10, 20), (0.0, 0.4)) == pytest.approx(0.4)
