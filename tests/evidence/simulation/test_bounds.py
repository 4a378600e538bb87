"""The exact bound of a counted share, held to a general library of statistics."""

import pytest
from scipy.stats import beta, binom

from diagnostics.evidence.simulation.bounds import at_most, upper_bound

COUNTED = [(0, 1), (0, 600), (1, 1000), (3, 40), (17, 5000), (299, 300), (2500, 90_000)]


@pytest.mark.parametrize(("wrong", "of"), COUNTED)
def test_the_bound_is_the_one_of_the_beta_distribution(wrong, of):
    """Clopper and Pearson's bound is a quantile of it (scipy 1.17)."""
    assert upper_bound(wrong, of) == pytest.approx(beta.ppf(0.95, wrong + 1, of - wrong), rel=1e-9)


@pytest.mark.parametrize(("wrong", "of"), COUNTED)
def test_the_shares_added_up_are_those_of_the_binomial_distribution(wrong, of):
    share = (wrong + 1) / (of + 1)
    assert at_most(wrong, of, share) == pytest.approx(binom.cdf(wrong, of, share), rel=1e-9)


def test_of_nothing_and_of_all_the_bound_is_everything():
    assert upper_bound(0, 0) == upper_bound(7, 7) == 1


@pytest.mark.parametrize(("wrong", "of"), [(2, 1), (-1, 5)])
def test_what_is_no_share_is_refused(wrong, of):
    with pytest.raises(ValueError, match="is no share"):
        upper_bound(wrong, of)
