"""How wrong a share may be that was counted: the exact upper bound of a binomial share.

Clopper and Pearson 1934, Biometrika 26(4):404: the share at which so few or fewer would be counted
one time in twenty.
"""

from math import exp, lgamma, log, log1p


def upper_bound(wrong: int, of: int, confidence: float = 0.95) -> float:
    """The one-sided upper bound of a share counted as `wrong` out of `of`; 1 where none was.

    Raises:
        ValueError: more wrong than there are.

    """
    if not 0 <= wrong <= of:
        raise ValueError(f"{wrong} of {of} is no share.")
    if wrong == of:
        return 1.0
    low, high = wrong / of, 1.0
    while high - low > 1e-13:
        middle = (low + high) / 2
        if at_most(wrong, of, middle) > 1 - confidence:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def at_most(count: int, of: int, share: float) -> float:
    """How likely `count` or fewer out of `of` are, each by itself with that share."""
    if share <= 0:
        return 1.0
    if share >= 1:
        return float(count >= of)
    terms = (
        lgamma(of + 1) - lgamma(one + 1) - lgamma(of - one + 1)
        + one * log(share) + (of - one) * log1p(-share)
        for one in range(count + 1)
    )  # fmt: skip
    return min(sum(exp(term) for term in terms), 1.0)
