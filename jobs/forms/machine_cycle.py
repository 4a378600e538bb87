"""What a service machine does in one go: out, oil, vacuum, oil, in; told in one form."""

from collections.abc import Iterator
from typing import Any

from jobs.cylinder_limits import asked_into
from jobs.forms.charge import FULL_AFTER, IntoCar
from jobs.forms.cylinder_asked import ask_limits
from jobs.forms.fields import Line, Tap, Why
from jobs.forms.loop_work import NOTHING_TOLD, CylinderTap, milliliters
from jobs.forms.quantity import Quantity
from jobs.forms.recovery import OutOfCar
from jobs.models.evacuations import AS_DEEP_AS
from jobs.models.vehicles import WITH_HIGH_VOLTAGE
from jobs.told import Moved

SHOWN_AS = {
    "micron": "Deep vacuum, a figure",
    "needle": "A needle, at its end",
    "not_read": "Not read",
}


class MachineCycleForm(OutOfCar, IntoCar):
    """One cycle: what of it was not done stays empty."""

    WHAT = "machine_cycle"
    cylinder = CylinderTap("Which tank of the machine?")
    cylinder_why = Why()
    depth_read = Tap("Its vacuum gauge", SHOWN_AS, "The machine’s own gauge, not one at the car.")
    depth = Quantity(
        *("Depth", ("micron", "Pa", "mbar"), (10, 30_000), (0, 760_000), "machine_depth_out"),
        hint="As the machine shows it.",
        absolute=True,
        tells_range=False,
    )
    minutes = Quantity(
        *("Minutes under vacuum", ("min", "h"), (1, 600), (0, 5000), "machine_minutes_out"),
        tells_range=False,
    )
    oil_in = milliliters("Oil put back in", "0 where none was.")
    oil_type = Line(40, "Which oil", "As its bottle says.")
    out = 0

    def look(self, said: dict[str, Any]) -> None:
        """Out first, then in: the tank may take the one and has to have the other."""
        self.out = self.mg("grams_out")
        self.look_at_charge()
        if not (self.read or said.get("note") or self.has_photo):
            self.add_error("grams_out", NOTHING_TOLD)
        if self.system.drive in WITH_HIGH_VOLTAGE and self.microliters("oil_in"):
            self.asks("oil_in", "oil_injected_high_voltage")
        held = self.held()
        if held is None:
            return
        if self.out:
            limits = asked_into(held, self.out, self.gas_code(), self.day)
            ask_limits(self, "cylinder", limits, self.unit)
        if "cylinder" not in self.errors:
            self.look_at_cylinder(held.with_more(self.out, self.gas_code()))

    @property
    def is_full(self) -> bool:
        """After a recovery or a vacuum it is the whole charge."""
        return bool(self.read.keys() & {*FULL_AFTER})

    def did(self) -> Iterator[str]:
        """In the machine's order."""
        if "grams_out" in self.read:
            yield from self.out_did(self.out, told=True)
        elif self.microliters("oil_out"):
            yield "oil_out"
        depth = self.si("depth")
        if depth is not None:
            yield "evacuated" if depth <= AS_DEEP_AS else "shallow"
        elif {"depth", "minutes"} & self.read.keys():
            yield "pumped"
        if self.microliters("oil_in"):
            yield "oil_in"
        if self.charged:
            yield "charged" if self.is_full and not self.is_foreign else "topped_up"

    def sums(self) -> dict[str, int]:
        """What came out and what went in."""
        told = {"out_mg": self.out} if "grams_out" in self.read else {}
        return told | self.charge_sums()

    def moved(self) -> Iterator[Moved]:
        """The same moves as by hand."""
        yield from self.into(self.out, self.gas_code())
        yield from self.oil_moved()
        if ul := self.microliters("oil_in"):
            yield Moved("oil", ul, "stock", "car", self.cleaned_data.get("oil_type", ""))
        yield from self.charge_moved()

    def words(self) -> str:
        """Machine cycle: 410 g out, vacuum, 650 g in."""
        told = []
        if "grams_out" in self.read:
            told.append(f"{self.shown(self.out)} out")
        if {"depth", "minutes"} & self.read.keys():
            told.append("vacuum")
        if self.charged:
            told.append(f"{self.shown(self.charged)} in")
        said = f": {', '.join(told)}" if told else ", figures not told"
        return f"Machine cycle{said}{self.leak_said()}"
