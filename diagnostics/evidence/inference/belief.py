"""What is believed after some evidence: exact shares of every variable, alone and together.

Messages go from the leaves of the tree to its roots and back (Shafer and Shenoy 1990, from memory:
no division, so a table may have zeros).
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property

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
        self._within: dict[tuple[int, Names], Array] = {}
        self._beyond: dict[tuple[int, int], tuple[dict[str, slice], Array]] = {}
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
            values = self.groups[self.tree.home([name])].kept([name]).values
            self._alone[name] = values / values.sum(axis=1, keepdims=True)
        return self._alone[name]

    @cached_property
    def joined(self) -> list[list[tuple[int, Names]]]:
        """For each group those that hang on it or on which it hangs, with the variables shared."""
        found: list[list[tuple[int, Names]]] = [[] for _ in self.tree.groups]
        for at, parent in enumerate(self.tree.parent):
            if parent >= 0:
                found[at].append((parent, self.tree.shared[at]))
                found[parent].append((at, self.tree.shared[at]))
        return found

    def after(self, told: Factor) -> tuple[Array, dict[str, Array]]:
        """Each case of one more table: how likely it was (to a common factor), and all shares then.

        Shares of variables that nothing joins to it come with one case.
        """
        at, given = self.tree.home(told.names), told.names
        found = {
            name: met(told, Factor(names, self.within(at, names)), [name])
            for name in self.tree.groups[at]
            for names in [(*given, *({name} - {*given}))]
        }
        for there, shared in self.joined[at]:
            names = (*given, *(name for name in shared if name not in given))
            here = met(told, Factor(names, self.within(at, names)), shared)
            columns, table = self.beyond(there, at)
            values = np.tensordot(here, table, axes=len(shared))
            found |= {name: values[:, part] for name, part in columns.items()}
        first = next(iter(found.values())).sum(axis=1)
        weight: Array = first / self.groups[at].values.sum()
        shares = {
            name: found[name] / found[name].sum(axis=1, keepdims=True)
            if name in found
            else self.alone(name)
            for name in self.sizes
        }
        return weight, shares

    def within(self, at: int, names: Names) -> Array:
        """The weights of a group's variables together, one axis each in their order; one case."""
        if (at, names) not in self._within:
            self._within[at, names] = self.groups[at].kept(names).spread(names)[0]
        return self._within[at, names]

    def beyond(self, at: int, seen_from: int) -> tuple[dict[str, slice], Array]:
        """The shares of all variables from a group on, away from its neighbor, given the shared.

        The table has an axis for each variable shared; on its last one stand the answers of all the
        others, where the slices tell.
        """
        if (at, seen_from) not in self._beyond:
            shared = next(names for there, names in self.joined[at] if there == seen_from)
            base = self.within(at, shared)[..., None]
            columns: dict[str, slice] = {}
            parts: list[Array] = [np.zeros([*base.shape[:-1], 0])]
            for name in self.tree.groups[at]:
                if name not in shared:
                    parts.append(self.within(at, (*shared, name)))
                    columns[name] = behind(columns, self.sizes[name])
            for there, names in self.joined[at]:
                if there != seen_from:
                    inner, table = self.beyond(there, at)
                    union = (*shared, *(name for name in names if name not in shared))
                    parts.append(gone_through(self.within(at, union), union, table, names, shared))
                    for name, part in inner.items():
                        columns[name] = behind(columns, part.stop - part.start)
            whole = np.concatenate(parts, axis=-1) / np.where(base, base, 1.0)
            self._beyond[at, seen_from] = columns, whole
        return self._beyond[at, seen_from]

    def among(self, together: Sequence[Names]) -> "Belief":
        """The same by a tree in which each of these sets of variables stands in a group."""
        return Belief(self.sizes, self.factors, together)

    def also(self, factors: Iterable[Factor]) -> "Belief":
        """The same with more told."""
        return Belief(self.sizes, (*self.factors, *factors))

    def share(self, *told: Factor) -> Array:
        """How likely it is that these (tables of 1 and 0) are true, after all that was told."""
        out: Array = np.exp(self.also(told).weight - self.weight)
        return out


def met(told: Factor, there: Factor, kept: Sequence[str]) -> Array:
    """A table of several cases multiplied into weights of one, summed over all variables but these.

    The cases stand first.
    """
    axis = {name: 1 + at for at, name in enumerate(there.names)}
    return np.einsum(
        told.values, [0, *(axis[name] for name in told.names)],
        there.values, [axis[name] for name in there.names],
        [0, *(axis[name] for name in kept)],
    )  # fmt: skip


def gone_through(
    weights: Array, names: Names, table: Array, given: Names, kept: Names
) -> Array:
    """What a table says given some variables, by these weights, for those that are kept."""
    axis = {name: at for at, name in enumerate(names)}
    last = len(names)
    return np.einsum(
        weights, [axis[name] for name in names],
        table, [*(axis[name] for name in given), last],
        [*(axis[name] for name in kept), last],
    )  # fmt: skip


def behind(columns: Mapping[str, slice], length: int) -> slice:
    """The place behind all columns so far."""
    start = max((part.stop for part in columns.values()), default=0)
    return slice(start, start + length)
