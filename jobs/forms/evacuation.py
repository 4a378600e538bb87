"""A loop pumped down: how deep, by which gauge, how long, and how it held. What was done, no more.

Its numbers have the names of the test `vacuum_hold`, which reads what the rise shows.
"""

from collections.abc import Iterator
from typing import Any

from diagnostics.physics.units import to_si
from jobs.forms.fields import Lines, Tap, WhatWasWrong, WhyAsked
from jobs.forms.oil import MISTAKE
from jobs.forms.quantity import Quantity, WithQuantities
from jobs.models.evacuations import AS_DEEP_AS, GAUGES, HELD_ROWS, PUMPED_ROWS, in_a_line
from jobs.models.loop_works import touched_by
from jobs.models.shop import Shop
from jobs.told import LoopWorked

DEPTHS = ("micron", "Pa", "mbar")
MINUTES = ("min", "s", "h")
NO_PRESSURE = (0.0, 770_000.0)  # micron: perfect vacuum, and more than the air presses anywhere
SEA_LEVEL = 101_325.0  # Pa, ISO 2533; where the shop's air is not set
NEEDLE_OFF = to_si(0.5, "inHg")  # how far a needle's zero may be off; our judgement
NEEDLE_LEAST = to_si(20, "inHg")  # what a needle shows where the air is thin; our judgement
NITROGEN = {"no": "No", "once": "Once", "more": "More than once"}
NEEDLE_AFTER = {"stayed": "Stayed", "came_back": "Came back"}
NOTHING_TOLD = "Type what was read, or how long it was pumped."


def minute(row: str) -> Quantity:
    """When a reading was made."""
    ends = (0.0, 180.0), (0.0, 10_080.0)
    return Quantity(f"Minute {row}", MINUTES, *ends, "minute_out", tells_range=False, quiet=True)


def reading(row: str, usual: tuple[float, float], odd: str) -> Quantity:
    """A pressure above perfect vacuum."""
    return Quantity(
        *(f"Reading {row}", DEPTHS, usual, NO_PRESSURE, odd),
        absolute=True,
        tells_range=False,
        quiet=True,
    )


def air_here() -> float:
    """What the air presses with at the shop, in Pa; at sea level where that was not set."""
    return Shop.objects.values_list("air_pa", flat=True).first() or SEA_LEVEL


class EvacuationForm(WithQuantities):
    """One evacuation; what was not looked at stays empty."""

    mistake = Tap("Was it done at all?", MISTAKE)
    gauge = Tap("Read by", GAUGES, "A gauge at the machine reads deeper than the loop stands.")
    depth = Quantity(
        "Depth when the valve was shut", DEPTHS, (20.0, 5000.0), NO_PRESSURE, "vacuum_out",
        "Target 500 micron or lower.", absolute=True,
    )  # fmt: skip
    needle = Quantity(
        "Needle shows", ("inHg", "kPa", "mbar"), (20.0, 30.0), (0.0, 32.0), "needle_out",
        "Inches of vacuum, without a minus.",
    )  # fmt: skip
    needle_after = Tap("Needle after the hold", NEEDLE_AFTER)
    pumped = Quantity("Pumped for", ("min", "h"), (5.0, 300.0), (0.0, 10_080.0), "pumped_out")
    temperature = Quantity(
        "Temperature of the loop", ("°C", "°F"), (0.0, 60.0), (-60.0, 120.0), "loop_temperature_out"
    )
    nitrogen = Tap("Broken with dry nitrogen in between?", NITROGEN)
    note = Lines(500, "Anything else?", "Car warmed, pump’s oil changed. Stands on the record.")
    corrected_why = WhatWasWrong()
    why_asked = WhyAsked()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        for row in PUMPED_ROWS:
            self.base_fields.setdefault(f"m{row}", minute(f"{row}, pump on"))
            pumping = reading(f"{row}, pump on", NO_PRESSURE, "vacuum_above_air")
            self.base_fields.setdefault(f"v{row}", pumping)
        for row in HELD_ROWS:
            self.base_fields.setdefault(f"t{row}", minute(str(row)))
            held = reading(str(row), (20.0, 30_000.0), "vacuum_read_out")
            self.base_fields.setdefault(f"p{row}", held)
        super().__init__(*args, **kwargs)

    def clean(self) -> dict[str, Any]:
        """Hold what was read against the air and the clock."""
        said = super().clean()
        self.ask_what_was_wrong()
        if said.get("mistake"):
            return said
        told = self.read or said.get("gauge") or said.get("needle_after")
        if not (told or self.errors or (self.entry_told and self.entry_told.photos)):
            self.add_error("pumped", NOTHING_TOLD)
        for name, odd in [*self.beyond_the_air(), *self.out_of_order()]:
            if name not in self.errors and not any(one["field"] == name for one in self.marks):
                self.asks(name, odd)
        return said

    def beyond_the_air(self) -> Iterator[tuple[str, str]]:
        """No vacuum, and one that is deeper than perfect where the shop stands."""
        air = air_here()
        for name, read in self.read.items():
            if name[0] in "dpv" and name != "pumped" and read["si"] > air:
                yield name, "vacuum_above_air"
                read["unused"] = True
        needle = self.read.get("needle")
        if needle and needle["si"] > air + NEEDLE_OFF:
            yield "needle", "needle_deeper"
            needle["unused"] = True

    def out_of_order(self) -> Iterator[tuple[str, str]]:
        """Minutes that do not go on."""
        for rows, letter in ((PUMPED_ROWS, "m"), (HELD_ROWS, "t")):
            last = 0.0
            for row in rows:
                at = self.si(f"{letter}{row}")
                if at is not None and (at < last or (letter == "t" and at == last)):
                    yield f"{letter}{row}", "minutes_back"
                last = at if at is not None else last

    def did(self) -> str:
        """How deep it was at last, a code of loop_works.DID; the gauge goes before the needle."""
        needle = self.si("needle")
        read = [self.si(name) for name in ("depth", *(f"p{row}" for row in HELD_ROWS))]
        depths = [one for one in read if one is not None]
        if depths:  # what it rose to behind the shut valve is how it stands
            return "evacuated" if depths[-1] <= AS_DEEP_AS else "shallow"
        if needle is not None:
            return "evacuated" if needle >= NEEDLE_LEAST else "shallow"
        return "pumped"

    def worked(self) -> LoopWorked:
        """The work as rows keep it; it moves nothing."""
        said, mistake = self.cleaned_data, bool(self.cleaned_data.get("mistake"))
        names = ("gauge", "needle_after", "nitrogen", "note")
        told: dict[str, Any] = {name: said[name] for name in names if said.get(name)}
        told |= self.read
        did = [] if mistake else [self.did()]
        words = "Evacuation: not done, entered by mistake" if mistake else in_a_line(told)
        return LoopWorked(
            what="evacuation",
            told=told,
            words=words,
            did=did,
            touches=touched_by(did),
            moved=(),
            corrected_why=said["corrected_why"],
            mistake=mistake,
            marks=self.marks,
        )
