"""The A/C of a job's car, looked at later."""

from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from jobs import ledger
from jobs.forms.fields import Tap, Typed, Why
from jobs.forms.filled import FilledForm
from jobs.forms.gap import GAP_UNITS, can_be_a_gap, gap_um
from jobs.forms.parts import AS_TAPPED, SystemPart
from jobs.models import Job
from jobs.models.vehicles import EXPANSIONS, FIGURE_SOURCES, shown_mm, shown_ohm
from jobs.told import NOT_KNOWN

OHM = ("", "ohm", "ohms", "Ω", "Ω")  # both omegas: the letter and the sign
# Far wider than the coils of cars and trucks: only what cannot be a coil's figure. Our judgement.
COIL_LOW, COIL_HIGH = Decimal(1), Decimal(40)
GAP_FIELDS = ("gap_low", "gap_high")


class SystemForm(FilledForm, SystemPart):
    """The A/C of a job's car, with what its maker gives for the clutch's coil and air gap."""

    expansion = Tap(
        "Expansion device",
        EXPANSIONS,
        "At the front. A receiver-drier goes with a valve, an accumulator with an orifice tube.",
    )
    coil = Typed(
        "Clutch coil, the vehicle’s own figure",
        "At 20 °C, from workshop data for this car. Left empty, the coil is held to what"
        " 12 V coils usually have.",
        "Ω",
    )
    coil_why = Why()
    coil_source = Tap("Figure read from", FIGURE_SOURCES)
    gap_low = Typed(
        "Air gap of the clutch, the smallest allowed",
        "From workshop data for this car, with the largest. Left empty, the gap is held to what"
        " clutches usually have.",
    )
    gap_low_why = Why()
    gap_high = Typed("Air gap of the clutch, the largest allowed")
    gap_high_why = Why()
    gap_unit = Tap("Unit of the air gap", {unit: unit for unit in GAP_UNITS}, "Untapped it is mm.")
    gap_source = Tap("Air gap read from", FIGURE_SOURCES)
    milliohm: int | None = None
    gap_um: tuple[int, int] | None = None
    MAY_BE_UNKNOWN = (
        *AS_TAPPED,
        "expansion",
        "label_charge",
        "coil",
        *GAP_FIELDS,
    )
    NAMED = {
        "label_charge_mg": "label_charge",
        "label_charge_source": "label_charge",
        "coil_milliohm": "coil",
        "coil_milliohm_source": "coil",
    } | dict.fromkeys(("gap_low_um", "gap_high_um", "gap", "gap_source"), "gap_low")
    TOGETHER = {
        "label_charge": ("label_charge_unit", "label_charge_source"),
        "coil": ("coil_source",),
        "gap_low": ("gap_high", "gap_unit", "gap_source"),
    }

    @staticmethod
    def filled(job: Job) -> dict[str, Any]:
        """The form's fields as the rows have them; the label charge in grams."""
        fitted = job.vehicle.system
        charge = fitted.label_charge_mg
        return {name: getattr(fitted, name) for name in (*AS_TAPPED, "expansion")} | {
            "label_charge": "" if charge is None else ledger.plain_grams(charge),
            "label_charge_unit": "" if charge is None else "g",
            "label_charge_source": fitted.sources.get("label_charge", ""),
            "coil": "" if fitted.coil_milliohm is None else shown_ohm(fitted.coil_milliohm),
            "coil_source": fitted.sources.get("coil_milliohm", ""),
            "gap_low": "" if fitted.gap_low_um is None else shown_mm(fitted.gap_low_um),
            "gap_high": "" if fitted.gap_high_um is None else shown_mm(fitted.gap_high_um),
            "gap_unit": "" if fitted.gap_low_um is None else "mm",
            "gap_source": fitted.sources.get("gap", ""),
        }

    def clean(self) -> dict[str, Any]:
        """Read the coil's figure too."""
        said = super().clean() or {}
        if said.get("coil"):
            self.milliohm = self.read_coil(said["coil"])
        self.gap_um = self.read_gap({name: said[name] for name in GAP_FIELDS if said.get(name)})
        return said

    def take_out_dashes(self) -> None:
        """A dash in one limit of the gap, and nothing in the other, takes out both."""
        super().take_out_dashes()
        told = [name for name in GAP_FIELDS if self.cleaned_data.get(name)]
        if not told and self.emptied & set(GAP_FIELDS):
            self.emptied |= set(GAP_FIELDS)

    def read_gap(self, typed: dict[str, str]) -> tuple[int, int] | None:
        """Smallest and largest in whole micrometers; None unless both are there and can be."""
        read = {name: self.micrometers(name, text) for name, text in typed.items()}
        low, high = (read.get(name) for name in GAP_FIELDS)
        if len(typed) == 1:
            self.asks(next(iter(typed)), "gap_alone")
        elif low is not None and high is not None and low >= high:
            self.asks("gap_high", "gap_turned")
            return None
        return None if low is None or high is None else (low, high)

    def micrometers(self, name: str, typed: str) -> int | None:
        """One limit of the gap; None when it is no number, or no clutch has it."""
        try:
            um = gap_um(typed, self.cleaned_data.get("gap_unit") or GAP_UNITS[0])
        except Malformed as wrong:
            self.add_error(name, str(wrong))
            return None
        if not can_be_a_gap(um):
            self.asks(name, "gap_out")
            return None  # kept as typed and marked, and never computed with
        return um

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
        system["expansion"] = self.cleaned_data["expansion"]
        system["coil_milliohm"] = self.milliohm
        system["gap_low_um"], system["gap_high_um"] = self.gap_um or (None, None)
        for figure, field in (("coil_milliohm", "coil"), ("gap", "gap")):
            if self.cleaned_data[f"{field}_source"]:
                system["sources"][figure] = self.cleaned_data[f"{field}_source"]
        for figure, field in (
            ("label_charge", "label_charge"),
            ("coil_milliohm", "coil"),
            ("gap", "gap_low"),
        ):
            if field in self.emptied:  # without a figure there is no place it was read
                system["sources"][figure] = NOT_KNOWN
        return {"system": self.known(system, self.NAMED)}
