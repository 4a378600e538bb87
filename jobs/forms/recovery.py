"""Refrigerant taken out of a car: into what, how much, how well, and the oil that came with it."""

from collections.abc import Iterator
from typing import Any

from diagnostics.physics.recovery import MACHINES
from diagnostics.physics.uncertainty import measured
from jobs.cylinder_limits import NEVER_FILLED, NO_REFRIGERANT, asked_into
from jobs.forms.cylinder_asked import ask_limits
from jobs.forms.fields import Tap
from jobs.forms.loop_work import (
    NOTHING_TOLD,
    PRESSURES,
    TEMPERATURES,
    CylinderTap,
    LoopWorkForm,
    by_scale,
    grams,
    milliliters,
)
from jobs.forms.quantity import Quantity
from jobs.told import Moved

MACHINE_CLASSES = {
    "older": "Older, SAE J2210",
    "newer": "Newer, SAE J2788",
    "not_known": "Not known",
}
if set(MACHINES) - set(MACHINE_CLASSES):
    raise RuntimeError("a class of recovery machines has no words here")
READ_BY = {"scale": "The cylinder’s scale", "machine": "The machine’s own figure"}
GASES = {
    "identified": "As the label, identified",
    "label": "As the label says, not identified",
    "unknown": "Unknown, or a mixture",
}
WAITED = {
    "again": "Waited, and recovered again",
    "steady": "Waited: it did not come back",
    "no": "Not waited",
}
HOSES = {
    "emptied": "Emptied into the cylinder",
    "left": "Something stayed in them",
    "machine": "The machine empties them",
}


class OutOfCar(LoopWorkForm):
    """The fields of a recovery, which a machine's cycle has too."""

    grams_out = grams("Recovered", "Oil and hose content aside. At least so much was in it.")
    machine = Tap("The machine", MACHINE_CLASSES, "Its plate names the standard.")
    temperature = Quantity(
        "Temperature in the bay", TEMPERATURES, (0, 45), (-60, 70), "bay_out", tells_range=False
    )
    gas = Tap("Which gas is it?", GASES, "Unknown gas goes into a cylinder of its own, marked so.")
    oil_out = milliliters("Oil that came out with it", "0 where none came. Empty: not measured.")

    def gas_code(self) -> str:
        """The refrigerant's code; "": nobody knows."""
        return "" if self.cleaned_data.get("gas") == "unknown" else self.label_gas

    def out_did(self, total: int, told: bool) -> Iterator[str]:
        """What a recovery did: next to nothing may have come, or nobody told how much."""
        if not told:
            yield "recovery"
        elif is_next_to_nothing(total):
            yield "nothing_came"
        else:
            yield "recovered"
        if self.microliters("oil_out"):
            yield "oil_out"

    def oil_moved(self) -> Iterator[Moved]:
        """The oil that came out, once; it is waste until somebody says otherwise."""
        if ul := self.microliters("oil_out"):
            yield Moved("oil", ul, "car", "waste")


class RecoveryForm(OutOfCar):
    """One recovery, with its second pull."""

    WHAT = "recovery"
    NEVER = dict.fromkeys(NEVER_FILLED, "never filled again") | dict.fromkeys(
        NO_REFRIGERANT, "not for refrigerant"
    )
    cylinder = CylinderTap("Into which cylinder or tank?")
    read_by = Tap("Read from", READ_BY)
    scale_before = by_scale("Scale before", "The cylinder as it stood there.")
    scale_after = by_scale("Scale after", "With a second pull: after both.")
    waited = Tap("Waited about 5 minutes?", WAITED, "Pressure that comes back is more refrigerant.")
    came_back = Quantity(
        *("It came back to", PRESSURES, (-100, 700), (-101, 3000), "came_back_out"),
        hint="By the low-side gauge.",
        tells_range=False,
    )
    grams_again = grams("Recovered the second time", "Beside the first.")
    hoses = Tap("The hoses afterwards", HOSES)
    first = again = 0

    def look(self, said: dict[str, Any]) -> None:
        """Grams by what was typed or by the scale; then what the cylinder may take."""
        self.again = self.mg("grams_again")
        of_first = max(self.scale_changed(goes_up=True) - self.again, 0)
        self.first = self.weighed("grams_out", self.mg("grams_out"), of_first)
        if not (self.read or said.get("waited") or said.get("note") or self.has_photo):
            self.add_error("grams_out", NOTHING_TOLD)
        total, held = self.first + self.again, self.held()
        self.hold_scale_to_book(held)
        if held and total:
            ask_limits(
                self, "cylinder", asked_into(held, total, self.gas_code(), self.day), self.unit
            )

    def did(self) -> Iterator[str]:
        """Refrigerant came out, and perhaps oil."""
        yield from self.out_did(self.first + self.again, self.is_told)

    @property
    def is_told(self) -> bool:
        """Whether anybody told how much came out."""
        both = {"scale_before", "scale_after"} <= set(self.read)
        return both or "grams_out" in self.read or "grams_again" in self.read

    def sums(self) -> dict[str, int]:
        """What came out, both pulls together; none where nobody told."""
        return {"out_mg": self.first + self.again} if self.is_told else {}

    def moved(self) -> Iterator[Moved]:
        """Each pull, and the oil."""
        for mg in (self.first, self.again):
            yield from self.into(mg, self.gas_code())
        yield from self.oil_moved()

    def words(self) -> str:
        """Recovery: 410 g into Cylinder 3."""
        where = f" into {self.cylinder_said()}" if self.cylinder_said() else ""
        if not self.is_told:
            return f"Recovery{where}, grams not told"
        return f"Recovery: {self.shown(self.first + self.again)}{where}"


def is_next_to_nothing(mg: int) -> bool:
    """Whether a scale tells so little from nothing."""
    return mg / 1e6 <= measured(mg / 1e6, 0.001, "scale").expanded
