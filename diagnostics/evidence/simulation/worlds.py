"""The worlds that cars come from: as the tables say, off by up to three times, outside the list."""

import hashlib
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from diagnostics.evidence.inference.factors import Array
from diagnostics.evidence.inference.rows import Row, Rows

OFF_BY = 3.0
IN_A_ROW = 25  # cars that come from one world of wrong strengths, before another is drawn
OUTSIDE = 0.5  # of the cars of that world; in the others every cause is in a list


class World(NamedTuple):
    """`off_by`: what every share may be wrong by, 1 nothing; `beyond`: cars with a cause outside.

    `seed` sets which way a world is wrong.
    """

    name: str
    seed: str = ""
    off_by: float = 1.0
    beyond: float = 0.0

    def shaken(self, row: str, codes: Sequence[str], shares: Sequence[float]) -> Array:
        """The shares of one row in this world: its odds multiplied, and brought to a sum of 1."""
        plain = np.asarray(shares, dtype=np.float64)
        if self.off_by > 1:
            plain = plain * [factor(self, f"{row}/{code}") for code in codes]
        out: Array = plain / plain.sum()
        return out

    def slip(self, kind: str, which: str, share: float) -> float:
        """How often a reading of that kind slips in this world."""
        return share * factor(self, f"{kind}/{which}") if self.off_by > 1 else share


@lru_cache(maxsize=20_000)
def factor(world: World, cell: str) -> float:
    """What a share is wrong by in a world, evenly between one over `off_by` and it, by logarithm.

    It hangs on the cell's name alone, so it is the same for every car and in every process.
    """
    told = hashlib.sha256(f"{world.seed}/{cell}".encode()).digest()
    even = int.from_bytes(told[:8], "big") / 2**64
    return float(world.off_by ** (2 * even - 1))


def world_of(name: str, seed: int, number: int) -> World:
    """The world that a campaign's car of that number comes from: home, off or outside."""
    if name == "off":
        return World(name, f"{seed}/{number // IN_A_ROW}", off_by=OFF_BY)
    return World(name, beyond=OUTSIDE if name == "outside" else 0.0)


def row_of(rows: Rows, given: Mapping[str, str]) -> tuple[Row, int]:
    """The row that fits, and its number; -1: the default."""
    found = rows.row(given)
    return found, next((at for at, row in enumerate(rows.rows) if row is found), -1)
