"""What is believed after some evidence: exact shares of every variable, alone and together.

Messages go from the leaves of the tree to its roots and back (Shafer and Shenoy 1990, from memory:
no division, so a table may have zeros).
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from math import prod

import numpy as np

from diagnostics.evidence.inference.factors import Array, Factor, Names, product
from diagnostics.evidence.inference.tree import Tree, tree_of


class Contradiction(ValueError):
    """Nothing in the tables allows what was told."""


class Belief:
    """The joint shares that tables make together, never written out whole.

    `sizes` has the answers of each variable, `factors` the tables; several cases at once if some of
    the tables have several.
    """

    def __init__(
        self,
        sizes: Mapping[str, int],
        factors: Sequence[Factor],
        among: Sequence[Sequence[str]] = (),
    ) -> None:
        self.sizes = dict(sizes)
        self.factors = tuple(factors)
        scopes = frozenset(tuple(sorted(names)) for names in (*(f.names for f in factors), *among))
        self._alone: dict[str, Array] = {}
        self.tree: Tree = tree_of(scopes, tuple(sorted(self.sizes.items())))

    @cached_property
    def own(self) -> list[Factor]:
        """Each group's tables, multiplied."""
        at_home: list[list[Factor]] = [[] for _ in self.tree.groups]
        for factor in self.factors:
            at_home[self.tree.home(factor.names)].append(factor)
        return [
            product(found, group, self.sizes)
            for found, group in zip(at_home, self.tree.groups, strict=True)
        ]

    @cached_property
    def up(self) -> tuple[list[Factor], Array]:
        """Each group's message to its parent, and the logarithm of the weight of everything."""
        whole = list(self.own)
        messages: list[Factor] = []
        weight: Array = np.zeros(1)
        for at, group in enumerate(self.tree.groups):
            message, taken = whole[at].kept(self.tree.shared[at]).scaled()
            messages.append(message)
            weight = weight + taken
            parent = self.tree.parent[at]
            if parent >= 0:
                whole[parent] = product(
                    (whole[parent], message), self.tree.groups[parent], self.sizes
                )
            elif not np.all(message.values > 0):
                raise Contradiction(f"Nothing allows what was told of {group[0]}.")
        return messages, weight

    @property
    def weight(self) -> Array:
        """The logarithm of how likely all that was told is together, one number a case."""
        return self.up[1]

    @cached_property
    def groups(self) -> list[Factor]:
        """The shares of each group's variables together, before they are brought to a sum of 1."""
        up, _ = self.up
        children: list[list[int]] = [[] for _ in self.tree.groups]
        for at, parent in enumerate(self.tree.parent):
            if parent >= 0:
                children[parent].append(at)
        down: list[Factor | None] = [None] * len(self.tree.groups)
        found: list[Factor | None] = [None] * len(self.tree.groups)
        for at in reversed(range(len(self.tree.groups))):
            group = self.tree.groups[at]
            from_above = down[at]
            above = [from_above] if from_above else []
            below = [up[child] for child in children[at]]
            found[at] = product((self.own[at], *above, *below), group, self.sizes)
            for child in children[at]:
                others = [up[one] for one in children[at] if one != child]
                without = product((self.own[at], *above, *others), group, self.sizes)
                down[child] = without.kept(self.tree.shared[child]).scaled()[0]
        return [one for one in found if one is not None]

    def of(self, names: Sequence[str]) -> Array:
        """The shares of these variables together, the axes in their order, the cases first.

        Variables that stand in no group together are brought together by one more tree.
        """
        if len(names) == 1:
            return self.alone(names[0])
        try:
            group = self.groups[self.tree.home(names)]
        except KeyError:
            return Belief(self.sizes, self.factors, [names]).of(names)
        values = group.kept(names).spread(names)
        shares: Array = values / values.sum(axis=tuple(range(1, values.ndim)), keepdims=True)
        return shares

    def alone(self, name: str) -> Array:
        """The shares of one variable, the cases first."""
        if name not in self._alone:
            values = self.groups[self.home((name,))].kept([name]).values
            self._alone[name] = values / values.sum(axis=1, keepdims=True)
        return self._alone[name]

    @cached_property
    def by_size(self) -> list[int]:
        """The groups, the smallest first."""
        groups = self.tree.groups
        return sorted(range(len(groups)), key=lambda at: prod(self.sizes[n] for n in groups[at]))

    def home(self, names: Names) -> int:
        """The smallest group that has all of these variables."""
        return next(at for at in self.by_size if {*names} <= {*self.tree.groups[at]})

    @cached_property
    def joined(self) -> list[list[tuple[int, Names]]]:
        """For each group those that hang on it or on which it hangs, with the variables shared."""
        found: list[list[tuple[int, Names]]] = [[] for _ in self.tree.groups]
        for at, parent in enumerate(self.tree.parent):
            if parent >= 0:
                found[at].append((parent, self.tree.shared[at]))
                found[parent].append((at, self.tree.shared[at]))
        return found

    def chances(self, told: Factor) -> Array:
        """How likely each case of one more table is, to a common factor."""
        weights = self.of(told.names)[0]
        found: Array = told.values.reshape(len(told.values), -1) @ weights.reshape(-1)
        return found

    def also(self, factors: Iterable[Factor]) -> "Belief":
        """The same with more told."""
        return Belief(self.sizes, (*self.factors, *factors))

    def share(self, *told: Factor) -> Array:
        """How likely it is that these (tables of 1 and 0) are true, after all that was told."""
        out: Array = np.exp(self.also(told).weight - self.weight)
        return out
