"""Oil of the loop: what came out, what a new part brought, what went in. Nothing counts twice."""

from collections.abc import Iterator
from functools import cached_property
from typing import Any

from diagnostics.physics.shown_units import ShownIn
from jobs.forms.cylinder_asked import is_late
from jobs.forms.fields import Line, Lines, Tap, WhatWasWrong, Why, WhyAsked
from jobs.forms.quantity import Quantity, WithQuantities
from jobs.models import Job, LoopWork
from jobs.models.amounts import CAR, DYE, OIL
from jobs.models.changes import PARTS
from jobs.models.loop_works import touched_by
from jobs.models.oil_works import oil_then
from jobs.models.oils import ARRIVED, HOW_IN, OIL_PARTS, OIL_SOURCES, OILS, YES_NO
from jobs.models.vehicles import WITH_HIGH_VOLTAGE
from jobs.told import LoopWorked, Moved

VOLUMES = ("mL", "fl oz")
# Our judgement: what one part or one loop of a car holds; coaches have up to 20 L.
IN_A_CAR, IN_A_COACH = (0.0, 500.0), (0.0, 20_000.0)
NOTHING_TOLD = "Type what came out or what went in."
MISTAKE = {"yes": "Nothing of this was done, entered by mistake"}


def volume(label: str, hint: str = "", *, odd: str = "oil_amount_out") -> Quantity:
    """A volume of oil."""
    return Quantity(label, VOLUMES, IN_A_CAR, IN_A_COACH, odd, hint, tells_range=False)


class OilForm(WithQuantities):
    """One telling; several parts are several tellings. What is left empty was not measured."""

    mistake = Tap("Was it done at all?", MISTAKE)
    oil = Tap("Which oil goes in?", OILS, "By compressor, never by guess: two types do not mix.")
    oil_name = Line(80, "Name on the bottle", "As it stands there.")
    source = Tap("Specification read from", OIL_SOURCES)
    by_maker = Tap("Is it the oil that the compressor’s maker names?", YES_NO)
    with_refrigerant = volume("Out with the refrigerant", "What the machine set apart.")
    part = Tap("Which old part was drained?", {code: PARTS[code] for code in OIL_PARTS})
    drained_old = volume("Drained from the old part")
    floor = volume("Maker’s floor", "Never less than this goes in, however little came out.")
    allotted = volume("For other parts replaced", "By the maker’s table; nobody measures it.")
    arrived = Tap("How did it come?", ARRIVED)
    drained_new = volume("Drained from the new part", "It never was in the car.")
    prefilled = volume("Left in the new part", "What it was fitted with.")
    system = volume("The whole loop’s oil", "By its label, with every branch.")
    added = volume("Put in from the bottle", "Poured or injected, all together.")
    how = Tap("How did it go in?", HOW_IN)
    dye = Quantity("Dye put in", VOLUMES, (0.0, 30.0), (0.0, 1000.0), "dye_out",
                   "Booked as dye, not as oil.", tells_range=False)  # fmt: skip
    note = Lines(500, "Anything else?", "Color, smell, what was flushed. Stands on the record.")
    corrected_why = WhatWasWrong()
    why_asked = WhyAsked()

    oil_why, by_maker_why, how_why = Why(), Why(), Why()

    @cached_property
    def job(self) -> Job | None:
        """The job with its A/C, once it is known to be here."""
        rows = Job.objects.select_related("vehicle__system")
        return rows.filter(key=self.job_key).first() if self.job_key else None

    def clean(self) -> dict[str, Any]:
        """Hold what was told against itself, the car and what was told before."""
        said = super().clean()
        self.ask_what_was_wrong()
        if said.get("mistake"):
            return said
        told = self.read.keys() | {name for name in ("oil", "allotted") if said.get(name)}
        if not (told or self.errors or (self.entry_told and self.entry_told.photos)):
            self.add_error("added", NOTHING_TOLD)
        for name, odd in self.odd_among():
            self.asks(name, odd)
        for name, odd in self.odd_beside_others():
            if self.entry_told and is_late(self.entry_told):  # nobody stands there to be asked
                self.marks.append({"code": odd, "field": name, "figures": {}})
            else:
                self.asks(name, odd)
        return said

    def odd_among(self) -> Iterator[tuple[str, str]]:
        """What does not go together: (field, code of a mark)."""
        said = self.cleaned_data
        arrived, added = said.get("arrived"), self.microliters("added") or 0
        prefilled = self.microliters("prefilled") or 0
        brought = prefilled or self.microliters("drained_new")
        if arrived in ("dry", "kept") and brought:
            yield ("prefilled" if prefilled else "drained_new"), "oil_arrived_without"
        if arrived == "whole_system" and added and not self.read.get("drained_new"):
            yield "added", "oil_counted_twice"
        floor = self.microliters("floor")
        if floor and 0 < added + prefilled < floor:
            yield "floor", "oil_below_floor"
        goes_in = bool(self.microliters("added") or self.microliters("prefilled"))
        if self.job and self.job.vehicle.system.drive in WITH_HIGH_VOLTAGE and goes_in:
            if said.get("by_maker") != "yes":
                yield "by_maker", "oil_high_voltage"
            if said.get("how") == "port":
                yield "how", "oil_injected_high_voltage"

    def odd_beside_others(self) -> Iterator[tuple[str, str]]:
        """What was told otherwise, or already, by what stands of this job."""
        if self.job is None:
            return
        said, then = self.cleaned_data, oil_then(self.job, but=self.corrects)
        if said.get("oil") and then.types - {said["oil"]}:
            yield "oil", "oil_second_type"
        if self.microliters("with_refrigerant") and then.by_machine:
            yield "with_refrigerant", "oil_told_by_recovery"

    def worked(self) -> LoopWorked:
        """The work as rows keep it, with what it moved."""
        said = self.cleaned_data
        names = ("oil", "oil_name", "source", "by_maker", "part", "arrived", "how", "note")
        told: dict[str, Any] = {name: said[name] for name in names if said.get(name)}
        moved = [] if said.get("mistake") else list(self.moved())
        did = [] if said.get("mistake") else list(self.did(moved))
        return LoopWorked(
            what="oil",
            told=told | self.read,
            words=self.words(moved),
            did=did,
            touches=touched_by(did),
            moved=moved,
            corrected_why=said["corrected_why"],
            mistake=bool(said.get("mistake")),
            marks=self.marks,
        )

    def moved(self) -> Iterator[Moved]:
        """The moves, as far as they were measured: what is allotted by a table is none."""
        gas = self.cleaned_data.get("oil", "")
        for name, substance, start, end in (
            ("with_refrigerant", OIL, CAR, "waste"),
            ("drained_old", OIL, CAR, "waste"),
            ("drained_new", OIL, "part", "waste"),
            ("prefilled", OIL, "part", CAR),
            ("added", OIL, "stock", CAR),
            ("dye", DYE, "stock", CAR),
        ):
            amount = self.microliters(name)
            if amount:
                yield Moved(substance, amount, start, end, gas if substance == OIL else "")

    def did(self, moved: list[Moved]) -> Iterator[str]:
        """What the moves did to the loop: out comes before in."""
        if self.microliters("drained_old"):
            yield "oil_drained"
        elif any(one.from_place == CAR for one in moved):
            yield "oil_out"
        if any(one.to_place == CAR and one.substance == OIL for one in moved):
            yield "oil_in"

    def words(self, moved: list[Moved]) -> str:
        """The work in a few words: Oil: 60 mL out, 90 mL in."""
        if self.cleaned_data.get("mistake"):
            return "Oil: nothing done, entered by mistake"
        out = sum(one.amount for one in moved if one.from_place == CAR)
        into = sum(one.amount for one in moved if one.to_place == CAR and one.substance == OIL)
        dye = sum(one.amount for one in moved if one.substance == DYE)
        parts = [
            f"{ShownIn().text(amount * 1e-9, 'mL')} {words}"
            for amount, words in ((out, "out"), (into, "in"), (dye, "of dye in"))
            if amount
        ]
        if allotted := self.microliters("allotted"):
            by_table = ShownIn().text(allotted * 1e-9, "mL")
            parts.append(f"{by_table} more out by the maker’s table, not measured")
        return f"Oil: {', '.join(parts)}" if parts else "Oil: specification told"


def first_told(job: Job) -> dict[str, str]:
    """What a new telling begins with: the type and where it was read, as told last."""
    last = oil_then(job).last
    return specified(last) if last else {}


def specified(work: LoopWork) -> dict[str, str]:
    """Type, name and source of an oil as told."""
    return {name: work.told[name] for name in ("oil", "oil_name", "source") if name in work.told}
