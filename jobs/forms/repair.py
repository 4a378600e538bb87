"""A change on the car: what, on which part, which part came in."""

from typing import Any

from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import Line, Lines, OnJob, Tap, WhatWasWrong, Why, WhyAsked
from jobs.logbook import Told
from jobs.models.changes import NOTHING, NOTHING_WORDS, PARTS, SOURCES, WHATS
from jobs.told import Changed

# What is done on a part: without one it says too little of the car.
ON_A_PART = ("fitted", "cleaned", "wire", "adjusted", "flushed", "other")
WHICH_PART = "Which part? Tap one, or say in words what was changed."


class RepairForm(OnJob):
    """One change; what is not known yet, such as a serial number, may wait."""

    what = Tap("What was done?", WHATS, required=True)
    part = Tap("On which part?", PARTS)
    part_why = Why()
    source = Tap("The part is", SOURCES)
    serial = Line(60, "Serial number", "As stamped. May wait.")
    part_number = Line(60, "Part number", "May wait.")
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

    def clean(self) -> dict[str, Any]:
        """What is done on a part names it; a flushed condenser is asked about."""
        said = super().clean()
        what, part = said.get("what", ""), said.get("part", "")
        if what in ON_A_PART and not (part or said.get("where")):
            self.add_error("part", WHICH_PART)
        self.ask_what_was_wrong()
        if what == "flushed" and part == "condenser":
            self.asks("part", "flat_tubes")
        return said

    def changed(self) -> Changed:
        """The change as rows keep it."""
        names = ("what", "part", "source", "serial", "part_number", "where", "corrected_why")
        return Changed(**{name: self.cleaned_data[name] for name in names}, marks=self.marks)
