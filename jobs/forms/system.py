"""The A/C of a job's car, looked at later."""

from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from jobs import ledger
from jobs.forms.fields import Tap, Typed, Why
from jobs.forms.filled import FilledForm
from jobs.forms.parts import SystemPart
from jobs.models import Job
from jobs.models.vehicles import FIGURE_SOURCES, shown_ohm
from jobs.told import NOT_KNOWN

OHM = ("", "ohm", "ohms", "Ω", "Ω")  # both omegas: the letter and the sign
# Far wider than the coils of cars and trucks: only what cannot be a coil's figure. Our judgement.
COIL_LOW, COIL_HIGH = Decimal(1), Decimal(40)


class SystemForm(FilledForm, SystemPart):
    """The A/C of a job's car, with the figure its maker gives for the clutch coil."""

    coil = Typed(
        "Clutch coil, the vehicle’s own figure",
        "At 20 °C, from workshop data for this car. Left empty, the coil is held to what"
        " 12 V coils usually have.",
        "Ω",
    )
    coil_why = Why()
    coil_source = Tap("Figure read from", FIGURE_SOURCES)
    milliohm: int | None = None
    MAY_BE_UNKNOWN = (
        "drive",
        "displacement",
        "voltage",
        "switched_side",
        "refrigerant",
        "label_charge",
        "branches",
        "coil",
    )
    NAMED = {
        "label_charge_mg": "label_charge",
        "label_charge_source": "label_charge",
        "coil_milliohm": "coil",
        "coil_milliohm_source": "coil",
    }
    TOGETHER = {
        "label_charge": ("label_charge_unit", "label_charge_source"),
        "coil": ("coil_source",),
    }

    @staticmethod
    def filled(job: Job) -> dict[str, Any]:
        """The form's fields as the rows have them; the label charge in grams."""
        fitted = job.vehicle.system
        names = ("drive", "displacement", "voltage", "switched_side", "refrigerant", "branches")
        charge = fitted.label_charge_mg
        return {name: getattr(fitted, name) for name in names} | {
            "label_charge": "" if charge is None else ledger.plain_grams(charge),
            "label_charge_unit": "" if charge is None else "g",
            "label_charge_source": fitted.sources.get("label_charge", ""),
            "coil": "" if fitted.coil_milliohm is None else shown_ohm(fitted.coil_milliohm),
            "coil_source": fitted.sources.get("coil_milliohm", ""),
        }

    def clean(self) -> dict[str, Any]:
        """Read the coil's figure too."""
        said = super().clean() or {}
        if said.get("coil"):
            self.milliohm = self.read_coil(said["coil"])
        return said

    def read_coil(self, typed: str) -> int | None:
        """The figure in milliohm; None when it is no number, or no column holds it."""
        try:
            ohm, unit = split(typed)
        except Malformed as wrong:
            self.add_error("coil", str(wrong))
            return None
        if unit not in OHM:
            self.add_error("coil", f"“{typed}” is not in Ω. Type the figure in Ω.")
            return None
        if not COIL_LOW <= ohm <= COIL_HIGH:
            self.asks("coil", "coil_out")
            return None  # kept as typed and marked, and never computed with
        return int((ohm * 1000).to_integral_value(ROUND_HALF_UP))

    def parts(self) -> dict[str, dict[str, Any]]:
        """The rows and columns it fills."""
        system = self.system()
        system["coil_milliohm"] = self.milliohm
        if self.cleaned_data["coil_source"]:
            system["sources"]["coil_milliohm"] = self.cleaned_data["coil_source"]
        for figure, field in (("label_charge", "label_charge"), ("coil_milliohm", "coil")):
            if field in self.emptied:  # without a figure there is no place it was read
                system["sources"][figure] = NOT_KNOWN
        return {"system": self.known(system, self.NAMED)}
