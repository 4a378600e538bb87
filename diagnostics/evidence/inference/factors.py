"""Tables over variables: multiplied, summed, and never more than that.

Each table has one axis for each of its variables and a first axis for several cases worked out at
once (length 1: one case). Numbers are shares or strengths, none below zero.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Names = tuple[str, ...]


@dataclass(frozen=True)
class Factor:
    """A table: `values` has the cases first, then one axis for each of `names` in their order."""

    names: Names
    values: Array

    @classmethod
    def of(cls, names: Iterable[str], values: npt.ArrayLike) -> "Factor":
        """A table of one case."""
        return cls(tuple(names), np.asarray(values, dtype=np.float64)[None])

    def spread(self, into: Sequence[str]) -> Array:
        """The values with the axes of `into`, length 1 where a variable is not in the table."""
        order = [self.names.index(name) for name in into if name in self.names]
        turned = self.values.transpose([0, *(1 + at for at in order)])
        lengths = iter(turned.shape[1:])
        shape = [next(lengths) if name in self.names else 1 for name in into]
        return turned.reshape([turned.shape[0], *shape])

    def kept(self, names: Sequence[str]) -> "Factor":
        """Summed over all variables but these."""
        gone = tuple(1 + at for at, name in enumerate(self.names) if name not in names)
        left = tuple(name for name in self.names if name in names)
        return Factor(left, self.values.sum(axis=gone) if gone else self.values)

    def scaled(self) -> tuple["Factor", Array]:
        """Brought to a largest value of 1 in each case, and the logarithm of what was taken out."""
        largest = self.values.reshape(self.values.shape[0], -1).max(axis=1)
        safe = np.where(largest > 0, largest, 1.0)
        values = self.values / safe.reshape([-1, *[1] * len(self.names)])
        return Factor(self.names, values), np.log(safe)


def product(factors: Iterable[Factor], names: Sequence[str], sizes: Mapping[str, int]) -> Factor:
    """All of the tables multiplied over these variables, which hold all of theirs."""
    shape = [sizes[name] for name in names]
    values: Array = np.ones([1, *shape])
    for factor in factors:
        values = values * factor.spread(names)
    return Factor(tuple(names), values)
