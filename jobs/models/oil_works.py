"""The oil of a job as it was told so far, and its balance. Amounts are whole microliters."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from uuid import UUID

from jobs.models.amounts import OIL, STANDING, LoopWork, Move, total
from jobs.models.changes import PARTS
from jobs.models.jobs import Job
from jobs.models.loop_works import standing_works


@dataclass(frozen=True)
class OilThen:
    """What was told before: codes of types, the oil out with the refrigerant as recoveries have it.

    `last` is the last telling of oil that stands.
    """

    types: frozenset[str]
    by_machine: int
    last: LoopWork | None


def standing_moves(job: Job) -> list[Move]:
    """The moves of a job that were not taken back, with cylinder and entry, the oldest first."""
    return list(job.moves.filter(STANDING).select_related("from_cylinder", "entry"))


def oil_then(job: Job, but: UUID | None = None) -> OilThen:
    """What was told of oil so far; `but` is the key of what is being corrected."""
    works = standing_works(job.loop_works.select_related("entry"))
    oils = [one for one in works if one.what == "oil" and one.key != but]
    types = {one.told["oil"] for one in oils if one.told.get("oil") not in (None, "not_known")}
    machine = {one.entry_id for one in works if one.what != "oil"}
    moves = [one for one in standing_moves(job) if one.entry_id in machine]
    return OilThen(frozenset(types), total(moves, OIL, out=True), oils[-1] if oils else None)


@dataclass(frozen=True)
class OilRow:
    """One amount told: where it went in words, whole µL, whether anybody measured it, by whom."""

    words: str
    amount: int
    measured: bool
    work: LoopWork


@dataclass(frozen=True)
class OilBalance:
    """What came out of the loop and what went in, as far as it was told; whole µL.

    `aside` never was in the car: drained from a new part, and dye. `label` is what the whole loop
    holds, None: not told. How much is in it now is never known from this alone.
    """

    out: tuple[OilRow, ...]
    into: tuple[OilRow, ...]
    aside: tuple[OilRow, ...]
    label: int | None

    @property
    def gained(self) -> int:
        """What went in more than came out, by table and measure; below zero: less."""
        return sum(one.amount for one in self.into) - sum(one.amount for one in self.out)

    @property
    def by_table(self) -> int:
        """What of it nobody measured."""
        return sum(one.amount for one in self.out if not one.measured)


OUT = {
    "with_refrigerant": "Out with the refrigerant",
    "oil_out": "Out with the refrigerant",
    "drained_old": "Drained from the old part",
    "allotted": "In other parts replaced",
}
INTO = {
    "prefilled": "Left in the new part",
    "added": "Put in from the bottle",
    "oil_in": "Put in by the machine",
}
ASIDE = {"drained_new": "Drained from the new part", "dye": "Dye put in"}


def oil_balance(works: Iterable[LoopWork], label: int | None = None) -> OilBalance:
    """The balance of the work that stands; `label`: what the whole loop holds in µL, if known."""
    listed = standing_works(works)
    told = [amount_of(one, "system") for one in listed if amount_of(one, "system")]
    return OilBalance(
        tuple(rows_of(listed, OUT)),
        tuple(rows_of(listed, INTO)),
        tuple(rows_of(listed, ASIDE)),
        told[-1] if told else label,
    )


def out_before(works: Iterable[LoopWork]) -> int:
    """What came out so far and is not back in, in µL: told before, so not typed again."""
    return max(-oil_balance(works).gained, 0)


def rows_of(works: Iterable[LoopWork], named: Mapping[str, str]) -> Iterator[OilRow]:
    """One row an amount."""
    for work in works:
        for name, words in named.items():
            amount = amount_of(work, name)
            if amount:
                part = work.told.get("part") if name == "drained_old" else ""
                what = f"{words} ({PARTS[part].lower()})" if part in PARTS else words
                yield OilRow(what, amount, name != "allotted", work)


def amount_of(work: LoopWork, name: str) -> int:
    """An amount that was told and can be, in whole µL; 0: none was."""
    read = work.told.get(name)
    if not isinstance(read, Mapping) or read.get("unused"):
        return 0
    return max(round(float(read["si"]) * 1e9), 0)
