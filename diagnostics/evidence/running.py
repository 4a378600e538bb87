"""Two running pressures read as a pattern, or why nothing is made of them."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from diagnostics.evidence.cautions import NEVER_DRY
from diagnostics.evidence.charge_told import charge_words
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.loop_at_odds import liquid_at_odds, sides_at_odds
from diagnostics.evidence.loop_pressures import (
    EVAPORATOR_SORTED,
    THERMOMETER_U,
    TRANSCRITICAL,
    Loop,
    is_too_high,
    loop,
)
from diagnostics.evidence.readings import Reading, Readings, kept_aside, number, taps
from diagnostics.evidence.system import System
from diagnostics.physics.cycle import NOT_PUMPING, difference_u, judge_ratio
from diagnostics.physics.units import shown, to_si, with_unit

# Running, no loop with liquid in it has a high side so low: R-134a boils there at −10 °C; our
# judgement.
NEXT_TO_NOTHING = 100e3  # Pa, gauge
TURNS_NOT = to_si(50, "rpm")
FULL = to_si(70, "%")  # a command from here on asks for output; our judgement
BY_BELT = ("belt_clutch", "belt_clutchless")
ONE_IS_ENOUGH = (
    "Switch it off and read both sides at rest: one of these readings alone would ask for that."
)
Harm = Literal["dry", "vacuum", "too_high", ""]
COMMANDED = ("variable_outer", "speed", "")  # where a command decides; "" is not noted


@dataclass(frozen=True)
class Running:
    """Both sides with what was tapped.

    `charge` tells how it is known to be right, or is empty; `refuted` is true where somebody told
    so, and the high side tells that there is hardly any liquid.
    """

    loop: Loop
    taps: dict[str, str]
    charge: str
    stroke: Reading | None
    system: System
    aside: dict[str, str]
    refuted: bool = False

    @property
    def shaft(self) -> str:
        """Whether the shaft turns: yes, no, cannot_tell or empty."""
        return self.taps.get("shaft", "")

    @property
    def close(self) -> bool:
        """Whether both sides stand close together, beyond the gauges' error."""
        ratio = self.loop.ratio
        return ratio is not None and ratio.value + ratio.expanded < NOT_PUMPING

    @property
    def colder_than_any(self) -> bool:
        """Whether the high side stands below where liquid in a cold evaporator would rest."""
        kelvin = self.loop.high.kelvin
        return kelvin is not None and kelvin < EVAPORATOR_SORTED[0]

    @property
    def asks_for_output(self) -> str:
        """Whether the command asks for it: yes, no or empty (not known)."""
        if self.system.get("displacement", "") not in COMMANDED:
            return "yes"
        if self.stroke is None:
            return ""
        return "yes" if self.stroke.si >= FULL else "no"


def look(readings: Readings, around: Circumstances) -> Running:
    """The readings, each side sorted."""
    told = taps(readings)
    stroke, sides = number(readings, "stroke"), loop(readings, around)
    aside, charge = kept_aside(readings), charge_words(told)
    refuted = bool(charge) and hardly_liquid(sides, around)
    charge = "" if refuted else charge
    return Running(sides, told, charge, stroke, around.system, aside, refuted)


def hardly_liquid(sides: Loop, around: Circumstances) -> bool:
    """Whether the high side stands below where any liquid would rest in the air outside.

    Liquid in a condenser is never colder than the air, and its vapor presses at least so much.
    """
    over, high = sides.over_air, sides.high
    if over is None or high.pressure is None:
        return False
    gas = around.system.get("refrigerant", "")
    return over + 3 * difference_u(gas, high.pressure, THERMOMETER_U, high.u) < 0


def harms(seen: Running) -> Harm:
    """What makes it to be switched off at once, or empty."""
    low, high = seen.loop.low.reading, seen.loop.high.reading
    if seen.shaft == "no":
        return ""
    if high and high.si <= NEXT_TO_NOTHING:
        return "dry"
    if is_too_high(high, seen.system):
        return "too_high"
    return "vacuum" if low and low.si < 0 else ""


def stops(readings: Readings, around: Circumstances) -> Iterator[str]:
    """That it is switched off where one side alone asks for it, be the other what it may."""
    if harms(look(readings, around)):
        yield f"{ONE_IS_ENOUGH} {NEVER_DRY}"


def at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    """What both gauges cannot show, and a shaft that turned by the belt of an engine that stood."""
    yield from sides_at_odds(readings, around)
    yield from liquid_at_odds(readings)
    rpm, by_belt = number(readings, "rpm"), around.system.get("drive") in BY_BELT
    if rpm and rpm.si < TURNS_NOT and by_belt and taps(readings).get("shaft") == "yes":
        yield "rpm", "The engine stood, yet the shaft turned by its belt: one of the two is not so."


def not_judged(seen: Running) -> str:
    """Why nothing is made of it, or empty."""
    sides, gas = seen.loop, seen.system.get("refrigerant", "")
    unsorted = "so the sides are not sorted"
    reasons = (
        (sides.low.reading is None and sides.high.reading is None, "Neither side was read."),
        (seen.shaft == "no", "The shaft did not turn: these are no running pressures."),
        (gas == TRANSCRITICAL, "R-744: recorded, not judged."),
        (sides.low.reading is None, f"The low side {_unread(seen, 'low')}."),
        (sides.high.reading is None, f"The high side {_unread(seen, 'high')}."),
        (sides.charted, ""),
        (gas in ("", "other"), f"Which refrigerant it is, is not noted, {unsorted}."),
        (sides.ambient is None, f"The air’s temperature {_unread(seen, 'ambient')}, {unsorted}."),
        (
            not sides.hot_enough,
            f"Below {with_unit('20', '°C')} outside too little heat is taken up, {unsorted}.",
        ),
        (not (sides.low.where and sides.high.where), "Outside what the refrigerant’s table has."),
        (
            seen.close and seen.shaft != "yes",
            "The two sides stand close together, and whether the shaft turns was not told.",
        ),
    )
    return next(sentence for holds, sentence in (*reasons, (True, "")) if holds)


def _unread(seen: Running, name: str) -> str:
    return "is kept as typed, not used" if name in seen.aside else "was not read"


def pattern(seen: Running) -> str:
    """The outcome's code."""
    if not_judged(seen):
        return "nothing_told"
    low, high = seen.loop.low.where, seen.loop.high.where
    if seen.close and seen.shaft == "yes" and seen.loop.hot_enough:
        return "close_together"
    if "cannot_tell" in (low, high):
        return "one_side_off" if {"above", "below"} & {low, high} else "at_the_edge"
    if low == "toward_vacuum" and high != "below":
        return "starved"
    if low == high == "inside":
        return "inside_vents_warm" if seen.taps.get("vents") == "warm" else "inside"
    found = {
        ("below", "below"): "low_low",
        ("toward_vacuum", "below"): "low_low",
        ("above", "above"): "high_high",
        ("above", "below"): "high_low",
        ("below", "above"): "starved",
    }
    return found.get((low, high), "one_side_off")


_WHERE = {"below": "low", "above": "high", "inside": "inside", "cannot_tell": "at the edge"}
_SENTENCES = {
    "inside": "Both sides stand inside.",
    "inside_vents_warm": "Both sides stand inside, and the vents are warm.",
    "low_low": "Both sides stand low.",
    "high_high": "Both sides stand high.",
    "high_low": "The low side stands high and the high side low.",
    "starved": "The low side stands low and the high side high.",
}


def sentence(seen: Running, code: str) -> str:
    """The outcome in one sentence."""
    low, high = seen.loop.low.where, seen.loop.high.where
    if code == "nothing_told":
        return not_judged(seen)
    if code == "one_side_off":
        return f"The low side stands {_WHERE[low]}, the high side {_WHERE[high]}."
    if code == "at_the_edge":
        names = [n for n, where in (("low", low), ("high", high)) if where == "cannot_tell"]
        sides = " and the ".join(names)
        return f"Whether the {sides} side stands inside cannot be told with these gauges."
    if code == "close_together" and seen.loop.ratio:
        ratio = shown(seen.loop.ratio.value, 1)
        return (
            f"With the shaft turning the two sides stand close together (ratio {ratio}, absolute)."
        )
    if low == "toward_vacuum" and code == "starved":
        return "The low side stands toward vacuum while the high side does not stand low."
    return _SENTENCES[code]


def ratio_place(seen: Running) -> str:
    """Where the ratio stands to the band that is worked out for such air, or empty."""
    if seen.loop.ratio is None or seen.loop.band is None:
        return ""
    return judge_ratio(seen.loop.ratio, seen.loop.band)
