"""Closing a job: how it ended, and what that ending asks."""

from collections.abc import Callable
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.readings import parse
from diagnostics.models import Step
from diagnostics.physics.errors import Malformed
from diagnostics.told import Closed
from jobs.forms.chosen_unit import ask_in_chosen, unit_asked
from jobs.forms.fields import Line, Lines, OnJob, Tap, Taps, Typed, Why
from jobs.forms.parts import (
    NO_THOUSANDS,
    ODOMETER_COLUMN,
    ODOMETER_UNITS,
    TWO_WAYS,
    as_odometer,
    odometer_odd,
)
from jobs.logbook import Told
from jobs.models.closing import (
    ALWAYS,
    DECLINED_BY,
    ENDINGS,
    LEFT_HOW,
    LOOP_CAPPED,
    PICKED_UP,
    QUESTIONS,
    REFRIGERANT_AT,
    REFUSED_FOR,
    SAFE_BY,
    TAG,
    TOLD_HOW,
    Ending,
)
from jobs.models.jobs import OPEN, STAGES
from jobs.models.shop import units_chosen

ASKED = "This ending says nothing without it. Tap or type it."
NOT_WHOLE = "This page’s form is not whole. Open the page again."
HANG_IT = "Hang the tag in the car first: whoever gets in next must see it."
SAY_WHAT = "Say in a few words what it is."
TEMPERATURES = ("°C", "°F")
COLDEST, HOTTEST = -60.0, 60.0  # of air that anybody works in; our judgement
NO_SUCH_AIR = "No air anybody works in has that. Type it again."
# Questions of an ending, drawn in the order of QUESTIONS.
FIELDS: dict[str, Callable[[], forms.Field]] = {
    "declined_by": lambda: Tap("Who declined it?", DECLINED_BY),
    "refused_for": lambda: Taps("Because of", REFUSED_FOR),
    "safe_by": lambda: Taps("Made safe by", SAFE_BY),
    "air": lambda: Typed("Temperature of the air"),
    "come_back": lambda: Line(200, "When to come back?", "A day, a week, or the weather for it."),
    "left_how": lambda: Tap("How does it leave?", LEFT_HOW),
    "refrigerant_at": lambda: Tap("Where is the refrigerant?", REFRIGERANT_AT),
    "refrigerant_words": lambda: Line(300, "How much, whose, in which cylinder?", "May wait."),
    "loop_capped": lambda: Tap("The loop", LOOP_CAPPED),
    "passed_to": lambda: Line(200, "Passed on to whom?"),
    "told_how": lambda: Tap("How was the customer told?", TOLD_HOW),
    "tag": lambda: Tap("Tag “A/C must not be run”", TAG),
    "reason": lambda: Lines(1000, "In own words", "Stands on the customer’s page."),
    "picked_up": lambda: Tap("Who picks the car up?", PICKED_UP, "May wait."),
    "odometer_out": lambda: Typed("Odometer out", "As the car shows it. May wait."),
}


class CloseForm(OnJob):
    """One ending with its questions. Which they are is told by the ending."""

    closing_kind = forms.ChoiceField(
        choices=[(one.code, one.words) for one in ENDINGS.values()], widget=forms.HiddenInput
    )
    came_from = forms.ChoiceField(
        choices=list(STAGES.items()), required=False, widget=forms.HiddenInput
    )

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        ending: Ending | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        self.ending = ending or ENDINGS.get(data.get("closing_kind") or "" if data else "")
        if not self.ending:
            return
        may_wait = (*self.ending.may_ask, *ALWAYS)
        for name in QUESTIONS:
            if name in self.ending.asks or name in may_wait:
                self.add_question(name)

    def add_question(self, name: str) -> None:
        """The field of a question, with those that belong to it."""
        if name == "carried_by":
            self.fields[name] = Taps("Which tests carry this?", self.tests())
            return
        self.fields[name] = FIELDS[name]()
        if name == "air":
            ask_in_chosen(self, name, TEMPERATURES, units_chosen())
        if name == "odometer_out":
            self.fields["odometer_out_why"] = Why()
            self.fields["odometer_out_unit"] = Tap("Odometer reads", ODOMETER_UNITS)

    def tests(self) -> dict[str, str]:
        """The tests of the job by their number, each with its name."""
        steps = Step.objects.filter(superseded_by=None, not_done="")
        rows = steps.filter(job__key=self.job_key) if self.job_key else steps.none()
        listed = rows.order_by("number").values_list("number", "kind")
        return {
            str(number): f"Step {number}, {KINDS[kind].title if kind in KINDS else kind}"
            for number, kind in listed
        }

    def clean(self) -> dict[str, Any]:
        """What the ending cannot do without, and what cannot be."""
        said = super().clean()
        if not self.ending or not said.get("came_from"):
            self.add_error(None, NOT_WHOLE)
            return said
        for name in self.ending.asks:
            if not said.get(name) and name not in self.errors:
                self.add_error(name, ASKED)
        if said.get("tag") == "no" and "tag" in self.ending.asks:
            self.add_error("tag", HANG_IT)
        self.other_is_said(said)
        self.read_air(said)
        self.read_odometer(said)
        if said["came_from"] not in OPEN:
            self.add_error(None, "The job is closed already. It can be opened again.")
        return said

    def other_is_said(self, said: dict[str, Any]) -> None:
        """“Something else” says what."""
        taps = {*said.get("refused_for", ()), *said.get("safe_by", ())}
        if "other" in taps and not said.get("reason") and "reason" not in self.errors:
            self.add_error("reason", SAY_WHAT)

    def read_air(self, said: dict[str, Any]) -> None:
        """The air's temperature as it was typed, with its unit."""
        typed = said.get("air")
        if not typed:
            return
        try:
            read = parse(typed, TEMPERATURES, unit_asked(self, "air", TEMPERATURES))
        except Malformed as wrong:
            self.add_error("air", str(wrong))
            return
        if not COLDEST <= read.si - 273.15 <= HOTTEST:
            self.add_error("air", NO_SUCH_AIR)
            return
        said["air"] = {**read.as_json(), "shown": read.shown}

    def read_odometer(self, said: dict[str, Any]) -> None:
        """The odometer as a whole number, as at intake."""
        typed = said.get("odometer_out", "")
        said["odometer_out"] = None
        if not typed:
            return
        try:
            number, unit = as_odometer(typed)
        except Malformed as wrong:
            two_ways = getattr(wrong, "code", "") == "two_ways"
            self.add_error("odometer_out", TWO_WAYS.format(typed) if two_ways else str(wrong))
            return
        if unit.lower() in ODOMETER_UNITS:
            said["odometer_out_unit"] = unit.lower()
        elif unit or number.as_tuple().exponent == -3:
            self.add_error("odometer_out", NO_THOUSANDS.format(typed))
            return
        odd = odometer_odd(number)
        if odd:
            self.asks("odometer_out", odd.code, **odd.figures)
        said["odometer_out"] = int(number) if 0 <= number < ODOMETER_COLUMN else None

    def closed(self) -> Closed:
        """How it is closed, with what was answered and nothing else."""
        told = self.cleaned_data
        names = [*QUESTIONS, *(["odometer_out_unit"] if told.get("odometer_out") else [])]
        answers = {name: told[name] for name in names if told.get(name) not in (None, "", [])}
        return Closed(told["closing_kind"], told["came_from"], answers, self.marks)
