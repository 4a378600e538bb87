"""What would be believed after each outcome of each test that may be made.

Many tables are tried on one belief, and of each only the shares of single variables are asked for.
So all groups away from a group are summed once, to the shares that they give those variables at
every combination of what is shared; each test after that is two small sums. One tree for all tests
would be wide, so they are shared out to a few.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import prod
from string import ascii_letters

import numpy as np

from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.factors import Array, Factor, Names
from diagnostics.evidence.inference.tree import tree_of

CASE, COLUMN = "case", "column"  # axes that are no variable
LARGE = 20_000  # numbers in a tree before any test was made: above, one more tree is quicker


@dataclass(frozen=True)
class Side:
    """Shares of the variables on one side of a group, given those shared with it.

    `table` has an axis for each variable shared; its last has the answers of all `names` in turn.
    """

    names: Names
    table: Array


def afters(
    now: Belief, plain: Iterable[Factor], told: Sequence[Factor], wanted: Sequence[str]
) -> list[tuple[Array, dict[str, Array]]]:
    """For each table Ahead.after, on a belief that has `plain` for its tables before any test."""
    scopes = frozenset(in_order(one.names) for one in plain)
    sizes = tuple(sorted(now.sizes.items()))
    shared = shared_out(scopes, sizes, tuple(in_order(one.names) for one in told))
    trees = {
        number: Ahead(Belief(now.sizes, now.factors, names), wanted)
        for number, names in enumerate(shared)
    }
    at = {names: number for number, some in enumerate(shared) for names in some}
    return [trees[at[in_order(one.names)]].after(one) for one in told]


def in_order(names: Iterable[str]) -> Names:
    """The names in one order."""
    return tuple(sorted(names))


@lru_cache(maxsize=64)
def shared_out(
    scopes: frozenset[Names], sizes: tuple[tuple[str, int], ...], together: tuple[Names, ...]
) -> tuple[tuple[Names, ...], ...]:
    """Sets of variables shared out so that no tree is large, each to the first that it fits."""
    sized = dict(sizes)
    found: list[list[Names]] = []
    for names in sorted(set(together), key=lambda one: (-prod(sized[n] for n in one), one)):
        for some in found:
            if tree_of(frozenset({*scopes, *some, names}), sizes).cells(sized) <= LARGE:
                some.append(names)
                break
        else:
            found.append([names])
    return tuple(map(tuple, found))


class Ahead:
    """A belief of one case, made ready for tables over variables that its groups have together.

    `wanted` are the variables whose shares are asked for.
    """

    def __init__(self, now: Belief, wanted: Iterable[str]) -> None:
        self.now = now
        self.wanted = tuple(wanted)
        self._within: dict[tuple[int, Names], Array] = {}
        self._sides: dict[tuple[int, int], Side] = {}

    def after(self, told: Factor) -> tuple[Array, dict[str, Array]]:
        """Each case of one more table: how likely it is, and the shares of each variable then.

        Shares of variables that nothing joins to it come with one case.
        """
        at, given = self.now.home(told.names), told.names
        found = {
            name: met(told, self.within(at, also(given, [name])), also(given, [name]), [name])
            for name in self.now.tree.groups[at]
            if name in self.wanted
        }
        for there, shared in self.now.joined[at]:
            side = self.side(there, at)
            if side.names:
                names = also(given, shared)
                here = met(told, self.within(at, names), names, shared)
                count, columns = len(here), side.table.shape[-1]
                values = np.einsum(
                    "os,sk->ok", here.reshape(count, -1), side.table.reshape(-1, columns)
                )
                found |= self.parted(side.names, values)
        shares = {
            name: found[name] / found[name].sum(axis=1, keepdims=True)
            if name in found
            else self.now.alone(name)
            for name in self.wanted
        }
        return self.now.chances(told), shares

    def within(self, at: int, names: Names) -> Array:
        """What a group's variables weigh together, an axis each in that order."""
        if (at, names) not in self._within:
            self._within[at, names] = self.now.groups[at].kept(names).spread(names)[0]
        return self._within[at, names]

    def side(self, at: int, seen_from: int) -> Side:
        """A group and all behind it, seen from one that is joined to it."""
        if (at, seen_from) not in self._sides:
            self._sides[at, seen_from] = self.worked_out(at, seen_from)
        return self._sides[at, seen_from]

    def worked_out(self, at: int, seen_from: int) -> Side:
        """The same, worked out."""
        shared = next(names for there, names in self.now.joined[at] if there == seen_from)
        base = self.within(at, shared)[..., None]
        own = [
            name for name in self.now.tree.groups[at] if name not in shared and name in self.wanted
        ]
        names, parts = tuple(own), [self.within(at, (*shared, name)) for name in own]
        for there, given in self.now.joined[at]:
            behind = self.side(there, at) if there != seen_from else Side((), base)
            if behind.names:
                union = also(shared, given)
                names = (*names, *behind.names)
                parts.append(through(self.within(at, union), union, behind.table, given, shared))
        whole = np.concatenate(parts, axis=-1) if parts else base
        return Side(names, whole / np.where(base > 0, base, 1.0))

    def parted(self, names: Names, values: Array) -> dict[str, Array]:
        """Columns of several variables as those of each."""
        ends = np.cumsum([self.now.sizes[name] for name in names])[:-1]
        return dict(zip(names, np.split(values, ends, axis=1), strict=True))


def also(names: Names, others: Iterable[str]) -> Names:
    """Names and those others that are not among them."""
    return (*names, *(name for name in others if name not in names))


def met(told: Factor, weights: Array, names: Names, kept: Sequence[str]) -> Array:
    """A table's cases multiplied into weights, summed over all variables but those kept."""
    return summed((CASE, *told.names), told.values, names, weights, (CASE, *kept))


def through(weights: Array, names: Names, table: Array, given: Names, kept: Names) -> Array:
    """A table given some variables, for each combination of those kept, by these weights."""
    return summed(names, weights, (*given, COLUMN), table, (*kept, COLUMN))


def summed(ones: Names, one: Array, twos: Names, two: Array, kept: Names) -> Array:
    """Two tables with these axes multiplied, and summed over all axes but those kept."""
    letters = dict(zip(dict.fromkeys((*ones, *twos)), ascii_letters, strict=False))
    spelled = ["".join(letters[name] for name in names) for names in (ones, twos, kept)]
    out: Array = np.einsum(f"{spelled[0]},{spelled[1]}->{spelled[2]}", one, two)
    return out
