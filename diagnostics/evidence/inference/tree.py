"""A tree of groups of variables in which every table finds a group that has all its variables.

Variables are taken out one after another, each time the one that costs least by one of three
measures, and the smallest tree of the three is used; the groups met on the way are the nodes,
joined so that a variable's groups hang together
(Lauritzen and Spiegelhalter 1988, J. R. Statist. Soc. B 50, 157; the order: Kjærulff 1990, from
memory).
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import prod

from diagnostics.evidence.inference.factors import Names

Near = Mapping[str, set[str]]
Cost = Callable[[str, Near, Mapping[str, int]], float]


@dataclass(frozen=True)
class Tree:
    """`groups` with the later ones first met; `parent[i]` is a later group, or -1 for a root.

    `shared[i]` are the variables of group i and its parent.
    """

    groups: tuple[Names, ...]
    parent: tuple[int, ...]
    shared: tuple[Names, ...]

    def home(self, names: Sequence[str]) -> int:
        """The first group that has all of these variables.

        Raises:
            KeyError: none has.

        """
        wanted = set(names)
        for at, group in enumerate(self.groups):
            if wanted <= set(group):
                return at
        raise KeyError(f"No group has all of {', '.join(names)}.")

    def has(self, names: Sequence[str]) -> bool:
        """Whether a group has all of these variables."""
        return any({*names} <= {*group} for group in self.groups)

    def cells(self, sizes: Mapping[str, int]) -> int:
        """How many numbers the tables of all groups have."""
        return sum(prod(sizes[name] for name in group) for group in self.groups)


@lru_cache(maxsize=256)
def tree_of(scopes: frozenset[Names], sizes: tuple[tuple[str, int], ...]) -> Tree:
    """The tree for tables over these sets of variables; `sizes` are (variable, its answers)."""
    sized = dict(sizes)
    trees = (without_small(taken_out(scopes, sized, cost)) for cost in (table_size, added, grown))
    return min(trees, key=lambda tree: tree.cells(sized))


def taken_out(scopes: Iterable[Names], sized: Mapping[str, int], cost: Cost) -> Tree:
    """The tree of taking the variables out, each time the one that costs least."""
    near = neighbors(scopes, sized)
    groups: list[Names] = []
    order: list[str] = []
    while near:
        name = min(near, key=lambda one: (cost(one, near, sized), one))
        around = near.pop(name)
        groups.append((name, *sorted(around)))
        order.append(name)
        for other in around:
            near[other] |= around - {other}
            near[other].discard(name)
    return joined(groups, order)


def neighbors(scopes: Iterable[Names], sizes: Mapping[str, int]) -> dict[str, set[str]]:
    """For each variable those that stand with it in a table."""
    near: dict[str, set[str]] = {name: set() for name in sizes}
    for scope in scopes:
        for name in scope:
            near[name] |= set(scope) - {name}
    return near


def table_size(name: str, near: Near, sizes: Mapping[str, int]) -> float:
    """How large the table becomes that takes this variable out."""
    return sizes[name] * prod(sizes[other] for other in near[name])


def added(name: str, near: Near, sizes: Mapping[str, int]) -> float:
    """The weight of the links that taking this variable out adds between its neighbors."""
    around = sorted(near[name])
    return sum(
        sizes[one] * sizes[two]
        for at, one in enumerate(around)
        for two in around[at + 1 :]
        if two not in near[one]
    )


def grown(name: str, near: Near, sizes: Mapping[str, int]) -> float:
    """How large the table becomes against those it is made of."""
    links = sum(sizes[name] * sizes[other] for other in near[name])
    return table_size(name, near, sizes) / (1 + links)


def joined(groups: Sequence[Names], order: Sequence[str]) -> Tree:
    """Each group hangs on the group of that one of its other variables which goes first."""
    turn = {name: at for at, name in enumerate(order)}
    parent = [min((turn[other] for other in group[1:]), default=-1) for group in groups]
    shared = [tuple(group[1:]) for group in groups]
    return Tree(tuple(groups), tuple(parent), tuple(shared))


def without_small(tree: Tree) -> Tree:
    """The same tree without the groups that lie within one of those hanging on them."""
    parent = dict(enumerate(tree.parent))
    for at, group in enumerate(tree.groups):
        hanging = [one for one, above in parent.items() if above == at]
        larger = [one for one in hanging if set(group) <= set(tree.groups[one])]
        if larger:
            parent |= dict.fromkeys(hanging, larger[0])
            parent[larger[0]] = parent.pop(at)
    kept = upward(parent)
    place = {at: number for number, at in enumerate(kept)}
    groups = tuple(tree.groups[at] for at in kept)
    above = tuple(place.get(parent[at], -1) for at in kept)
    shared = tuple(
        tuple(name for name in group if up >= 0 and name in groups[up])
        for group, up in zip(groups, above, strict=True)
    )
    return Tree(groups, above, shared)


def upward(parent: Mapping[int, int]) -> list[int]:
    """The groups with each before the one it hangs on."""
    depth: dict[int, int] = {-1: 0}

    def of(at: int) -> int:
        if at not in depth:
            depth[at] = of(parent[at]) + 1
        return depth[at]

    return sorted(parent, key=lambda at: (-of(at), at))
