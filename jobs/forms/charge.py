"""Refrigerant put into a car: from what, how much by weight, what stayed in the hose, dye."""

from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from typing import Any

from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.recovery import hose_content
from diagnostics.physics.refrigerants import REFRIGERANTS
from diagnostics.physics.saturation import ZERO_C
from diagnostics.physics.units import table
from jobs.cylinder_limits import NEVER_CHARGED_FROM, Held, asked_out_of
from jobs.forms.cylinder_asked import ask_limits
from jobs.forms.fields import Tap, Why
from jobs.forms.loop_work import (
    MASSES,
    CylinderTap,
    LoopWorkForm,
    beside,
    by_scale,
    grams,
    milliliters,
)
from jobs.forms.quantity import Quantity
from jobs.ledger import CHARGE_TOLERANCE_MG, KG, shown_mass
from jobs.models import Job, Move
from jobs.models.amounts import REFRIGERANT
from jobs.models.loop_works import is_emptied
from jobs.models.vehicles import WITH_HIGH_VOLTAGE
from jobs.told import Moved

FILLS = {"full": "The whole charge", "top_up": "On top of what is in it"}
HOSE = {
    "machine": "The machine allows for it",
    "into_car": "Drawn into the car",
    "vapor": "Vapor stayed in it",
    "liquid": "Liquid stayed in it",
}
LEAK = {
    "none": "None found, or repaired",
    "not_repaired": "Found, not repaired",
    "not_found": "Missing, place not found",
}
LEAKING = ("not_repaired", "not_found")
WHICH_FILL = "Tap one: the whole charge, or on top of what is in it?"
LENGTHS = ("m", "ft")
HOSE_LENGTH = 1.8  # m: of a set of hoses, where nobody told another
HOSE_BORE = 4.8e-3  # m: as the computation hose_content begins with
HOSE_KELVIN = ZERO_C + 20
# Typed into a machine's cycle, these make its charge the whole charge.
FULL_AFTER = ("grams_out", "depth", "minutes")
LEAK_SAID = {
    "not_repaired": "leak not repaired",
    "not_found": "leak not found",
}


class IntoCar(LoopWorkForm):
    """The fields of a charge, which a machine's cycle has too."""

    grams_in = grams("Charged", "By weight, as it left the cylinder.")
    hose = Tap("The hose at the end", HOSE)
    hose_length = Quantity(
        *("Length of the hose", LENGTHS, (0.3, 5), (0, 50), "hose_out"),
        hint="Empty: 1.8 m.",
        tells_range=False,
    )
    dye = milliliters("Dye put in", "It is no refrigerant, and counts aside.")
    leak = Tap("A leak?", LEAK)
    charged = in_hose = 0

    def look_at_charge(self, scale: int = 0) -> None:
        """Grams, hose and dye; then the label."""
        left = self.weighed("grams_in", self.mg("grams_in"), scale)
        self.in_hose = min(self.hose_mg(), left)
        self.charged = left - self.in_hose
        self.hold_to_label()
        high_voltage = self.system.drive in WITH_HIGH_VOLTAGE
        if high_voltage and self.microliters("dye"):
            self.asks("dye", "dye_high_voltage")

    def hose_mg(self) -> int:
        """What the hose kept, in mg; 0 where the machine allows for it, or it cannot be told."""
        how = self.cleaned_data.get("hose")
        if how not in ("vapor", "liquid"):
            return 0
        length = self.si("hose_length") or HOSE_LENGTH
        try:
            content = hose_content(self.label_gas, length, HOSE_BORE, HOSE_KELVIN)
        except PhysicsError:
            return 0
        return round(content[0 if how == "liquid" else 1] * 1_000_000)

    @property
    def is_full(self) -> bool:
        """Whether it is the whole charge."""
        return self.cleaned_data.get("fill") == "full"

    def hold_to_label(self) -> None:
        """Ask about a whole charge that is off the label, and about more on top than it says."""
        label = self.system.label_charge_mg
        if not (label and self.charged):
            return
        off = self.charged - label
        if off > CHARGE_TOLERANCE_MG or (self.is_full and off < -CHARGE_TOLERANCE_MG):
            self.asks(
                "grams_in",
                "off_label",
                said=self.shown(self.charged),
                label=shown_mass(label, self.unit),
            )

    def look_at_cylinder(self, held: Held | None) -> None:
        """What it is charged from, and whether it is the label's refrigerant."""
        left = self.charged + self.in_hose
        if held is None or not left:
            return
        ask_limits(self, "cylinder", asked_out_of(held, left, self.day, into_car=True), self.unit)
        label = self.label_gas
        if held.gas and label and held.gas != label:
            self.asks("cylinder", "charge_other_gas", gas=held.gas, label=label)

    def charge_gas(self) -> str:
        """The refrigerant that went in: the cylinder's, else as the label says.

        A correction is of what was booked out of the same cylinder, which may have another by now.
        """
        if self.is_foreign:
            return ""
        if self.chosen and self.corrects:
            booked = Move.objects.filter(entry__key=self.corrects, from_cylinder=self.chosen)
            before = booked.filter(substance=REFRIGERANT, undoes=None).order_by("-id").first()
            if before:
                return before.gas
        return (self.chosen.refrigerant if self.chosen else "") or self.label_gas

    @property
    def is_foreign(self) -> bool:
        """Whether it came from a cylinder that nobody charges from: then nothing is known by it."""
        return bool(self.chosen and self.chosen.kind in NEVER_CHARGED_FROM)

    def charge_sums(self) -> dict[str, int]:
        """What went into the car, and what stayed in the hose."""
        if not (self.charged or self.in_hose):
            return {}
        return {"in_mg": self.charged, "hose_mg": self.in_hose}

    def charge_moved(self) -> Iterator[Moved]:
        """Into the car, into the hose, and the dye."""
        gas = self.charge_gas()
        yield from self.out_of(self.charged, gas)
        yield from self.out_of(self.in_hose, gas, "hose")
        if ul := self.microliters("dye"):
            yield Moved("dye", ul, "stock", "car")

    def leak_said(self) -> str:
        """That it was charged into a leak; empty: nobody said so."""
        said = LEAK_SAID.get(self.cleaned_data.get("leak", ""), "")
        return f", {said}" if said else ""


class ChargeForm(IntoCar):
    """One charge."""

    WHAT = "charge"
    NEVER = dict.fromkeys(NEVER_CHARGED_FROM, "never charged from")
    cylinder = CylinderTap("From which cylinder or tank?")
    cylinder_why = Why()
    fill = Tap("How much of it?", FILLS)
    scale_before = by_scale("Scale before", "The cylinder as it stood there.")
    scale_after = by_scale("Scale after")

    def look(self, said: dict[str, Any]) -> None:
        """How much, from what, and what the label says."""
        if not said.get("fill"):
            self.add_error("fill", WHICH_FILL)
        self.look_at_charge(self.scale_changed(goes_up=False))
        held = self.held()
        self.hold_scale_to_book(held)
        self.look_at_cylinder(held)

    def did(self) -> Iterator[str]:
        """Charged, or topped up."""
        yield "charged" if self.is_full and self.charged and not self.is_foreign else "topped_up"

    def sums(self) -> dict[str, int]:
        """As charged."""
        return self.charge_sums()

    def moved(self) -> Iterator[Moved]:
        """All of the charge."""
        yield from self.charge_moved()

    def words(self) -> str:
        """Charge: 650 g from Cylinder 3."""
        where = f" from {self.cylinder_said()}" if self.cylinder_said() else ""
        what = "Charge" if self.is_full else "Topped up"
        told = (
            f": {self.shown(self.charged)}{where}" if self.charged else f"{where}, grams not told"
        )
        return f"{what}{told}{self.leak_said()}"


@cache
def hoses() -> dict[str, list[float]]:
    """What a meter of hose keeps of each refrigerant, in mg: liquid, vapor."""
    found = {}
    for gas in REFRIGERANTS:
        with suppress(PhysicsError):  # above its critical point, or not in the tables
            found[gas] = [one * KG for one in hose_content(gas, 1, HOSE_BORE, HOSE_KELVIN)]
    return found


def weighed_beside(job: Job | None) -> dict[str, Any]:
    """What the page shows beside its form, and what its script holds grams to as they are typed."""
    system = job.vehicle.system if job else None
    told = {
        "label": (system.label_charge_mg if system else None) or 0,
        "gas": system.refrigerant if system else "",
        "hoses": hoses(),
        "length": HOSE_LENGTH,
        "tolerance": CHARGE_TOLERANCE_MG,
        "masses": MASSES,
        "lengths": LENGTHS,
        "whole": FULL_AFTER,
    }
    return {**beside(job), "weighed": told, "unit_data": table([*MASSES, *LENGTHS])}


def first_charge(job: Job) -> dict[str, str]:
    """What it begins with: the whole charge, where the loop was emptied since it was filled."""
    return {"fill": "full"} if is_emptied(job.car_states.all()) else {}
