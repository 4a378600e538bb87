"""Oil by drain and match, in whole microliters, nothing counted twice.

What left the loop goes back: what came out of the old compressor (not less than its maker's floor),
what came out with the refrigerant, and what stays in other parts that are replaced. What the new
compressor brings along counts against it. Common practice, no source; the maker's own figures come
first.
"""

from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.units import from_si, shown, with_unit

# dry: no oil in it. some: drained and measured. whole_system: filled with the oil of a whole loop.
# kept: the old compressor stays in.
Arrived = Literal["dry", "some", "whole_system", "kept"]
ARRIVED: tuple[Arrived, ...] = ("dry", "some", "whole_system", "kept")
MOST = 20_000_000  # microliters: a coach has less
CUP_U = 2_900  # microliters: a measuring cup read within 5 mL; our judgement

Fault = Literal["below_floor", "more_than_system", "no_system", "not_told"]


@dataclass(frozen=True)
class OilTold:
    """What is known, in microliters. None: not measured, not known; it is not taken as nothing.

    Raises:
        Impossible: below zero.
        Malformed: what is told does not agree, or too little is told to match anything.
        OutOfRange: more than any vehicle holds.

    """

    arrived: Arrived
    drained_old: int | None = None
    floor: int = 0
    with_refrigerant: int | None = None
    allotted: int | None = None  # what stays in other parts that are replaced
    drained_new: int | None = None
    system: int | None = None

    def __post_init__(self) -> None:
        amounts = (self.drained_old, self.floor, self.with_refrigerant, self.allotted)
        for amount in (one or 0 for one in (*amounts, self.drained_new, self.system)):
            if amount < 0:
                raise Impossible("Less than no oil: an amount is nothing or more.")
            if amount > MOST:
                raise OutOfRange("More than 20 L of oil: no vehicle holds that. Check the unit.")
        self._agree()

    def _agree(self) -> None:
        if self.arrived in ("dry", "kept") and self.drained_new:
            told = "arrived dry" if self.arrived == "dry" else "is the old one, kept"
            raise Malformed(
                f"The compressor {told}, yet {_milliliters(self.drained_new)} were drained of a "
                "new one: one of the two is wrong."
            )
        if self.arrived == "kept" and (self.drained_old or self.floor):
            raise Malformed(
                "The old compressor is kept: what was drained of it, and its floor, count only "
                "where it is replaced."
            )
        if self.arrived != "kept" and self.drained_old is None and not self.floor:
            raise Malformed(
                "Nothing to match: drain the old compressor and measure, or take the maker’s floor."
            )
        if self.arrived == "some" and self.drained_new is None:
            raise Malformed("The new compressor brings some oil: drain it and measure how much.")
        if self.arrived == "whole_system" and self.drained_new is None and self.system is None:
            raise Malformed(
                "The new compressor brings the whole loop's oil: how much is that? Take it from "
                "the label or drain and measure it."
            )


@dataclass(frozen=True)
class OilPlan:
    """What has to be done, in microliters.

    `needed`: what has to go back in all. `brought`: what the new compressor brings along. Of the
    two, `add` is missing or `drain` is too much; one of them is nothing.
    """

    needed: int
    brought: int
    add: int
    drain: int
    faults: tuple[Fault, ...]
    sentence: str


def match_oil(told: OilTold) -> OilPlan:
    """What to put in and what to drain, in microliters. Drain and match, common practice."""
    needed = max(told.drained_old or 0, told.floor)
    needed += (told.with_refrigerant or 0) + (told.allotted or 0)
    brought = _brought(told)
    add, drain = max(needed - brought, 0), max(brought - needed, 0)
    faults = tuple(_faults(told, needed))
    return OilPlan(needed, brought, add, drain, faults, _sentence(told, needed, brought))


def _brought(told: OilTold) -> int:
    if told.arrived in ("dry", "kept"):
        return 0
    if told.drained_new is not None:
        return told.drained_new
    return told.system or 0


def _faults(told: OilTold, needed: int) -> list[Fault]:
    faults: list[Fault] = []
    if told.drained_old is not None and told.drained_old < told.floor:
        faults.append("below_floor")
    if told.with_refrigerant is None or told.allotted is None:
        faults.append("not_told")
    if told.system is None:
        faults.append("no_system")
    elif needed > told.system:
        faults.append("more_than_system")
    return faults


def _sentence(told: OilTold, needed: int, brought: int) -> str:
    """What to do, in the trade's words."""
    back = f"{_milliliters(needed)} have to go back in all ({_parts(told)})."
    if told.arrived == "kept":
        return f"{back} Put in {_milliliters(needed)}."
    if not brought:
        return f"{back} The new compressor brings none: put in {_milliliters(needed)}."
    brings = f"The new compressor brings {_milliliters(brought)}:"
    if brought > needed:
        return f"{back} {brings} drain {_milliliters(brought - needed)} of it and add none."
    if brought == needed:
        return f"{back} {brings} just that. Drain none and add none."
    return (
        f"{back} {brings} leave it in, or pour it back, and add {_milliliters(needed - brought)}."
    )


def _parts(told: OilTold) -> str:
    parts = []
    drained = told.drained_old or 0
    if told.arrived != "kept" and drained < told.floor:
        parts.append(f"{_milliliters(told.floor)} as the maker’s floor")
    elif told.arrived != "kept":
        parts.append(f"{_milliliters(drained)} out of the old compressor")
    for amount, words in (
        (told.with_refrigerant, "out with the refrigerant"),
        (told.allotted, "for other parts replaced"),
    ):
        shown_as = "not told" if amount is None else _milliliters(amount)
        parts.append(f"{shown_as} {words}" if amount is not None else f"{words}: {shown_as}")
    return ", ".join(parts)


def _milliliters(microliter: int) -> str:
    return with_unit(shown(from_si(microliter * 1e-9, "mL"), 0), "mL")
