"""Caps and service label as seen after the work: taps, and what stands on the label."""

from typing import Any

from django.utils.datastructures import MultiValueDict

from diagnostics.models import CAPS, LABELS
from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.told import Seen
from jobs import ledger
from jobs.forms.chosen_unit import ask_in_chosen, unit_asked
from jobs.forms.day import Day
from jobs.forms.fields import Line, OnJob, Tap, Typed, WhatWasWrong, Why, WhyAsked
from jobs.forms.masses import SMALL
from jobs.logbook import Told
from jobs.models import Job
from jobs.models.balances import balance_of_job
from jobs.models.shop import units_chosen

NOTHING_TOLD = "Tap or type at least one of these."
SAME_MG = 5_000  # what rounding and a scale make of the same charge; our judgement
ON_LABEL = ("label_refrigerant", "label_oil", "label_on")


def charged_on(job_key: Any) -> int | None:
    """What the last charge put into a job's car, in mg; None: no charge is booked."""
    job = Job.objects.select_related("vehicle__system").filter(key=job_key).first()
    cycles = balance_of_job(job).cycles if job else ()
    return cycles[-1].into_car if cycles and cycles[-1].charged_at else None


class VerifiedForm(OnJob):
    """One look; what was not looked at stays empty."""

    caps = Tap("Caps of both service ports", CAPS)
    label = Tap("Service label", LABELS, "Under the hood: what was put in, and when.")
    label_refrigerant = Line(60, "Refrigerant on it", "As it stands there.")
    label_grams = Typed("Grams on it", "The amount put in, all branches together.", "g")
    label_grams_why = Why()
    label_oil = Line(100, "Oil on it", "Type and amount.")
    label_on = Day("Day on it")
    corrected_why = WhatWasWrong()
    why_asked = WhyAsked()
    mg: int | None = None
    unit = ""

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        ask_in_chosen(self, "label_grams", SMALL, units_chosen())

    def clean(self) -> dict[str, Any]:
        """Read the grams; something must be told."""
        said = super().clean()
        self.ask_what_was_wrong()
        if said.get("label_grams"):
            self.read_grams(said["label_grams"])
        names = ("caps", "label", "label_grams", *ON_LABEL)
        if not self.errors and not any(said.get(name) for name in names):
            self.add_error("caps", NOTHING_TOLD)
        return said

    def read_grams(self, typed: str) -> None:
        """Whole milligrams; what cannot be is kept as typed and asked about."""
        try:
            read = ledger.mass(typed, unit_asked(self, "label_grams", SMALL))
        except Malformed as wrong:
            self.add_error("label_grams", str(wrong))
        except Impossible as wrong:
            below = str(wrong) == ledger.BELOW_ZERO
            self.asks("label_grams", "label_below_zero" if below else "label_beyond")
        else:
            self.mg, self.unit = read.mg, read.unit
            charged = charged_on(self.job_key)
            if charged is not None and abs(charged - read.mg) > SAME_MG:
                self.asks("label_grams", "label_not_charged")

    def told(self) -> Seen:
        """The row's columns; what stands on the label tells that there is one."""
        said = self.cleaned_data
        on_it = {name: said[name] for name in ON_LABEL} | {"label_mg": self.mg}
        label = said["label"] or ("updated" if any(on_it.values()) else "")
        columns = {"caps": said["caps"], "label": label, "label_unit": self.unit, **on_it}
        return Seen(columns, said["corrected_why"], self.marks)
