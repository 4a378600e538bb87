"""A change on the car: what, on which parts, which came in, and what a part seller asks."""

from collections.abc import Iterator, Mapping
from typing import Any

from django.utils.datastructures import MultiValueDict

from diagnostics.physics.errors import Malformed
from jobs.forms.chosen_unit import ask_in_chosen, unit_asked
from jobs.forms.fields import Line, Lines, OnJob, Tap, Taps, Typed, WhatWasWrong, Why, WhyAsked
from jobs.forms.gap import GAP_UNITS, can_be_a_gap, gap_um
from jobs.logbook import Told
from jobs.models.changes import (
    ALSO,
    BRANCHED,
    NOTHING,
    NOTHING_WORDS,
    OF_BRANCH,
    PARTS,
    SOURCES,
    WHATS,
    Change,
    branch_words,
)
from jobs.models.loop_parts import field_of
from jobs.models.shop import units_chosen
from jobs.models.vehicles import shown_mm
from jobs.told import Changed

# What is done on a part: without one it says too little of the car.
ON_A_PART = ("fitted", "cleaned", "wire", "adjusted", "flushed", "other")
WHICH_PART = "Which part? Tap one, or say in words what was changed."
ONLY_ADDED = "only added to; what was told before stays as it was"
FRONT = "front"
BRANCH_WORDS = {FRONT: "Front", "rear": "Rear", "battery": "Battery chiller"}
# The parts changed in the same opening, by one code for part and branch.
TOGETHER = {
    field_of(part, branch): (part, branch)
    for branch in ("", *OF_BRANCH)
    for part in (ALSO if not branch else BRANCHED)
}
TOGETHER_WORDS = {code: branch_words(PARTS[part], of) for code, (part, of) in TOGETHER.items()}
TOGETHER_WHEN = ("fitted", "flushed")
NEVER_FLUSHED = ("compressor", "drier", "expansion_device")
GAP_POINTS = tuple(f"gap_{point}" for point in range(1, 7))
TYPED = ("serial", "part_number", "seller", "proof", "old_serial", "old_part_number")


class RepairForm(OnJob):
    """One change on one part or on several; what is not known yet, such as a number, may wait."""

    what = Tap("What was done?", WHATS, required=True)
    part = Tap("On which part?", PARTS)
    part_why = Why()
    branch = Tap("In which branch?", BRANCH_WORDS, "Untapped: the front.")
    source = Tap("The part is", SOURCES)
    serial = Line(60, "Serial number", "As stamped. May wait.")
    part_number = Line(60, "Part number", "May wait.")
    also = Taps(
        "What else, in the same opening?",
        TOGETHER_WORDS,
        "Done the same way, and as new or used as the first. It is one state of the car.",
    )
    flushed_how = Line(200, "Flushed how?", "With what, which way, how long. May wait.")
    old_serial = Line(60, "Serial number of the old one", "As stamped. It leaves with the part.")
    old_part_number = Line(60, "Part number of the old one")
    seller = Line(120, "Bought from", "The seller, as on the bill.")
    proof = Line(60, "Proof of purchase", "The number of the bill or delivery note.")
    where = Lines(300, "Where, and what else?", "In a few words. Stands on the record.")
    corrected_why = WhatWasWrong()
    why_asked = WhyAsked()

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        corrects: bool = False,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        if corrects or (told and told.corrects):
            answers = {**WHATS, NOTHING: NOTHING_WORDS}
            self.fields["what"] = Tap("What was done?", answers, required=True)
        for code, name in TOGETHER_WORDS.items():
            hint = "Part or serial number, as stamped. May wait."
            self.fields[f"number_{code}"] = Line(60, name, hint)
        chosen = units_chosen()
        for point, name in enumerate(GAP_POINTS, 1):
            self.fields[name] = Typed(f"Gap, point {point}")
            self.fields[f"{name}_why"] = Why()
            ask_in_chosen(self, name, GAP_UNITS, chosen)
            if point > 1:
                self.fields[name].help_text = ""  # the first says it for all

    @property
    def numbers(self) -> Iterator[tuple[str, Any]]:
        """The numbers of the parts of the same opening: (code, field)."""
        return ((code, self[f"number_{code}"]) for code in TOGETHER)

    @property
    def gaps(self) -> Iterator[tuple[Any, Any]]:
        """The points of the new part's gap: (field, its hidden unit)."""
        return ((self[name], self[f"{name}_unit"]) for name in GAP_POINTS)

    def clean(self) -> dict[str, Any]:
        """What is done on a part names it; what cannot be flushed and odd gaps are asked about."""
        said = super().clean()
        what, part = said.get("what", ""), said.get("part", "")
        if what in ON_A_PART and not (part or said.get("also") or said.get("where")):
            self.add_error("part", WHICH_PART)
        if self.only_adds(said):
            said["corrected_why"] = ONLY_ADDED
        self.ask_what_was_wrong()
        if what == "flushed":
            self.ask_of_flushed({part, *(TOGETHER[one][0] for one in said.get("also") or ())})
        said["gap_um"] = list(self.read_gaps(said)) if what == "fitted" else []
        return said

    def only_adds(self, said: Mapping[str, Any]) -> bool:
        """Whether a correction without a reason leaves all that was told before as it was."""
        if not (self.corrects and self.job_key) or said.get("corrected_why"):
            return False
        earlier = Change.objects.filter(key=self.corrects, job__key=self.job_key).first()
        if earlier is None:
            return False
        before = as_typed(earlier).items()
        return all(stays(value, said.get(name)) for name, value in before if value)

    def ask_of_flushed(self, parts: set[str]) -> None:
        """What keeps what a flush does not reach."""
        if "condenser" in parts:
            self.asks("part", "flat_tubes")
        if parts.intersection(NEVER_FLUSHED):
            self.asks("part", "not_flushed")

    def read_gaps(self, said: Mapping[str, Any]) -> Iterator[int]:
        """The points in whole micrometers; what no clutch has stays as typed, with a mark."""
        for name in GAP_POINTS:
            if not said.get(name):
                continue
            try:
                um = gap_um(said[name], unit_asked(self, name, GAP_UNITS))
            except Malformed as wrong:
                self.add_error(name, str(wrong))
                continue
            if can_be_a_gap(um):
                yield um
            else:
                self.asks(name, "new_gap_out")

    def changed(self) -> Changed:
        """The change as rows keep it."""
        said = self.cleaned_data
        names = ("source", *TYPED, "flushed_how", "gap_um", "where", "corrected_why")
        first, *others = self.places() or [("", "")]
        codes = {place: code for code, place in TOGETHER.items()}
        return Changed(
            what=said["what"],
            part=first[0],
            branch=first[1],
            also=[
                {"part": part, "branch": of, "number": said.get(f"number_{codes[part, of]}", "")}
                for part, of in others
            ],
            **{name: said[name] for name in names},
            marks=self.marks,
        )

    def places(self) -> list[tuple[str, str]]:
        """Part and branch of all that it was done on, the part that was tapped first before all."""
        said = self.cleaned_data
        part, of = said["part"], said["branch"]
        tapped = [(part, of if of != FRONT and part in BRANCHED else "")] if part else []
        together = said["also"] if said["what"] in TOGETHER_WHEN else []
        others = [TOGETHER[code] for code in TOGETHER if code in together]
        return [*tapped, *(place for place in others if place not in tapped)]


def stays(before: Any, now: Any) -> bool:
    """Whether what was told is told again; of several taps, all of them."""
    return set(before) <= set(now or ()) if isinstance(before, list) else before == now


def as_typed(change: Change) -> dict[str, Any]:
    """A change as it was typed, to begin its correction with."""
    names = ("what", "part", "source", *TYPED, "flushed_how", "where")
    told: dict[str, Any] = {name: getattr(change, name) for name in names}
    told["branch"] = change.branch
    codes = {field_of(one["part"], one["branch"]): one["number"] for one in change.also}
    told["also"] = list(codes)
    told |= {f"number_{code}": number for code, number in codes.items()}
    for name, um in zip(GAP_POINTS, change.gap_um, strict=False):
        told[name] = f"{shown_mm(um)} mm"  # whichever unit the page asks in
    return told
