"""What evacuations of a job told, in words and as the test that reads the hold begins."""

from collections.abc import Iterator, Mapping
from typing import Any

from diagnostics.physics.units import shown, with_unit
from jobs.models.amounts import LoopWork

GAUGES = {
    "system": "Micron gauge at the system",
    "machine": "Micron gauge at the machine",
    "needle": "Needle only",
}
PUMPED_ROWS = tuple(range(1, 5))  # minutes and pressures while the pump is on
HELD_ROWS = tuple(range(1, 9))  # behind the shut valve, as the test vacuum_hold has them
# What that test asks, too, by the same names.
OF_HOLD = (
    *("gauge", "depth", "needle", "needle_after", "pumped", "temperature"),
    *(f"{letter}{row}" for row in HELD_ROWS for letter in "tp"),
)
# The target by a gauge at the system, trade article; a machine's own gauge tells less.
AS_DEEP_AS = 133.322 * 20  # Pa: at which water boils at 22 °C; our judgement
NO_DEPTH = "how deep is not told"
BLIND = "a needle cannot show how deep"


def number(told: Mapping[str, Any], name: str) -> str:
    """A number of it as typed, with its unit; empty: none, or one that cannot be."""
    read = told.get(name)
    if not isinstance(read, Mapping) or read.get("unused"):
        return ""
    digits = len(str(read["typed"]).partition(".")[2])
    return with_unit(shown(read["typed"], digits), str(read["unit"]))


def in_a_line(told: Mapping[str, Any]) -> str:
    """It in a few words: Evacuation: 430 micron, pumped for 45 min, loop at 24 °C."""
    return f"Evacuation: {', '.join(parts(told))}"


def parts(told: Mapping[str, Any]) -> Iterator[str]:
    """What was told, one part each."""
    depth, needle = number(told, "depth"), number(told, "needle")
    if depth:
        yield depth
    elif needle:
        yield f"{needle} of vacuum by needle, which cannot show how deep"
    else:
        yield NO_DEPTH
    pumped, warm = number(told, "pumped"), number(told, "temperature")
    if pumped:
        yield f"pumped for {pumped}"
    if warm:
        yield f"loop at {warm}"


def details(told: Mapping[str, Any]) -> list[str]:
    """What else was read and done, one line each."""
    lines = [GAUGES.get(str(told.get("gauge", "")), "")]
    for rows, letters, words in (
        (PUMPED_ROWS, "mv", "While pumping"),
        (HELD_ROWS, "tp", "After the valve was shut"),
    ):
        pairs = [
            f"{number(told, letters[1] + str(row))} at {number(told, letters[0] + str(row))}"
            for row in rows
            if number(told, letters[1] + str(row)) and number(told, letters[0] + str(row))
        ]
        if pairs:
            lines.append(f"{words}: {', '.join(pairs)}")
    if told.get("nitrogen") in ("once", "more"):
        lines.append("Broken with dry nitrogen in between")
    return [line for line in lines if line]


def hold_of(work: LoopWork) -> dict[str, str]:
    """What an evacuation read, as the test vacuum_hold begins with it.

    What cannot be is left out: the test asks for it anew.
    """
    first: dict[str, str] = {}
    for name in OF_HOLD:
        value = work.told.get(name)
        if isinstance(value, str):
            first[name] = value
        elif value and not value.get("unused"):
            first |= {name: value["typed"], f"{name}_unit": value["unit"]}
    return first
