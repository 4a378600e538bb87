"""The form of a test step, made from its kind."""

from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from diagnostics.assess import around_job
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Field, Number, Text
from diagnostics.evidence.in_units import told_in
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.problems import Problem, unlisted
from diagnostics.evidence.readings import Reading, Readings, parse
from diagnostics.evidence.system import can_be_such
from diagnostics.forms.other_page import answers_with, other_page_marks, told_twice_marks
from diagnostics.forms.read_with import named_in, read_with_fields, typed_in_with
from diagnostics.models import ODDLY_TOLD, TOLD, Step
from diagnostics.physics.errors import Malformed
from diagnostics.told import ToldStep
from jobs.forms.fields import SAY_WHY, Line, Lines, OnJob, Tap, Typed, WhatWasWrong, Why, WhyAsked
from jobs.logbook import Told
from jobs.models import Equipment

NO_SUCH_KIND = "The shop server does not know this kind of test; it may be older than this tablet."
NOT_DONE_LENGTH = 40  # of the column; a longer code can only be unknown, and its mark has it whole
NOTHING_TOLD = "Nothing was read, tapped or seen. Read something, or say why it could not be done."


class Quantity(Typed):
    """A number as text with its unit beside it; other units may be typed behind the number."""

    def __init__(self, number: Number, around: Circumstances, unit: str) -> None:
        begins = number.starts(around.units)
        others = "".join(f", {other} too" for other in number.units if other != begins)
        hint = f"{number.hint} {number.range_words(around.system, around.units)}{others}."
        super().__init__(number.question, hint, unit)
        self.asked = number
        self.widget.attrs["data-quantity"] = number.name


class StepForm(OnJob):
    """All fields of a kind, why odd values stay, and why it could not be done."""

    test_kind = forms.CharField(max_length=40, widget=forms.HiddenInput)
    test_version = forms.IntegerField(widget=forms.HiddenInput, min_value=1, max_value=32_767)

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        kind: Kind | None = None,
        around: Circumstances | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        self.around = around_job(self.job_key) if around is None else around
        meant = kind or KINDS.get(data.get("test_kind") or "" if data else "")
        self.kind = told_in(meant, self.around.units) if meant else None
        self.readings: dict[str, Reading | str] = {}
        self.step_marks: list[dict[str, str]] = []
        self.named: dict[str, Equipment] = {}
        # Whether it comes with a step told before: what lies beside this tablet is then no preset.
        self.begun = self.is_bound or bool(kwargs.get("initial"))
        if self.kind:
            self.fields.update(read_with_fields(self.kind))
            self.initial.update(test_kind=self.kind.name, test_version=self.kind.version)
            for asked in self.kind.fields:
                self.add_asked(asked)
            reasons = {reason.code: reason.words for reason in self.kind.not_done}
            reasons = answers_with(reasons, self.begun_with("not_done"))
            self.fields["not_done"] = Tap("Could not be done, because", reasons)
        self.fields["not_done_words"] = Line(300, "In a few words, if it needs any")
        self.fields["corrected_why"] = WhatWasWrong()
        self.fields["why_asked"] = WhyAsked()
        self.fields["seen"] = Lines(2000, "Anything else seen, heard or smelled?")

    def begun_with(self, name: str) -> str:
        """What was told, or what the form begins with, before anything is checked."""
        return str((self.data if self.is_bound else self.initial).get(name) or "")

    def add_asked(self, asked: Field) -> None:
        """The form's fields for one of the kind's; any can be odd, be it beside another."""
        if isinstance(asked, Number):
            begins = asked.starts(self.around.units)
            told = self.begun_with(f"{asked.name}_unit")
            stands = told if told in asked.units else begins
            self.fields[asked.name] = Quantity(asked, self.around, stands)
            # The unit that is shown beside the number has the id of this name.
            hidden = forms.HiddenInput({"id": f"id_{asked.name}_unit_told"})
            unit = forms.CharField(required=False, max_length=10, widget=hidden)
            unit.initial = begins
            self.fields[f"{asked.name}_unit"] = unit
        elif isinstance(asked, Text):
            self.fields[asked.name] = Line(asked.length, asked.question, asked.hint)
        else:
            answers = {answer.code: answer.words for answer in asked.answers}
            answers = answers_with(answers, self.begun_with(asked.name))
            tap = Tap(asked.question, answers, asked.hint)
            tap.initial = asked.preset
            tap.elsewhere = [
                one.code for one in asked.answers if not can_be_such(one.on, self.around.system)
            ]
            self.fields[asked.name] = tap
        self.fields[f"{asked.name}_why"] = Why()

    def clean(self) -> dict[str, Any]:
        """Read the numbers, then ask about what is odd, all at once."""
        said = super().clean()
        if self.kind is None:
            self.add_error(None, NO_SUCH_KIND)
            return said
        self.readings = dict(self.read(self.kind))
        for problems in self.kind.problems(self.readings, self.around, self.kept()).values():
            for problem in problems:
                self.meet(problem)
        version, not_done = said.get("test_version", 0), said.get("not_done", "")
        self.step_marks += other_page_marks(
            self.entry_told, self.kind, version, not_done, list(self.fields)
        )
        self.step_marks += told_twice_marks(self.entry_told, self.fields)
        self.named, unknown = named_in(self.kind, said)
        self.step_marks += unknown
        self.ask_what_was_wrong()
        if not self.errors and not self.is_worth_keeping(self.kind):
            self.add_error(None, NOTHING_TOLD)
        return said

    def read(self, kind: Kind) -> Readings:
        """What was read and tapped; text that is no number is an error at its field."""
        found: dict[str, Reading | str] = {}
        for asked in kind.fields:
            told = self.cleaned_data.get(asked.name, "")
            if not told:
                continue
            found[asked.name] = told
            if isinstance(asked, Number):
                unit = self.cleaned_data.get(f"{asked.name}_unit") or asked.unit
                try:
                    found[asked.name] = parse(told, asked.units, unit)
                except Malformed as wrong:
                    del found[asked.name]
                    self.add_error(asked.name, wrong.sentence)
        return found

    def kept(self) -> dict[str, str]:
        """Why odd values stay, by field."""
        names = [name.removesuffix("_why") for name in self.fields if name.endswith("_why")]
        told = {name: self.cleaned_data.get(f"{name}_why", "") for name in names}
        return {name: why for name, why in told.items() if why}

    def meet(self, problem: Problem) -> None:
        """Ask once about what is odd; mark it when a reason is given or nothing is to be asked."""
        if problem.weight == "ask" and self.may_ask and not self.cleaned_data.get("not_done"):
            self.add_error(problem.field, f"{problem.sentence} {problem.asks}")
            self.add_error(f"{problem.field}_why", SAY_WHY)
            return
        why = self.kept().get(problem.field, "")
        self.step_marks.append(self.mark_of(problem) | {"why": why})

    def mark_of(self, problem: Problem) -> dict[str, str]:
        """A problem as a mark; an answer that its question does not list stands beside it."""
        mark = {"field": problem.field, "code": problem.code, "sentence": problem.sentence}
        told = self.readings.get(problem.field)
        asked = self.kind.asked(problem.field) if self.kind else None
        if problem.code != "unknown_answer" or not asked or not isinstance(told, str):
            return mark
        return mark | {"sentence": unlisted(asked.question, TOLD), "told": told}

    def tells_something(self, kind: Kind) -> bool:
        """Whether there is more than circumstances."""
        said = self.cleaned_data if self.is_bound else {}
        return kind.tells(self.readings) or bool(said.get("seen") or said.get("not_done"))

    def is_worth_keeping(self, kind: Kind) -> bool:
        """Whether there is something for a person to look at: a photo, or what we do not ask."""
        photos = self.entry_told.photos if self.entry_told else ()
        odd = any(mark["code"] in ODDLY_TOLD for mark in self.step_marks)
        return self.tells_something(kind) or bool(photos) or odd

    def told(self) -> ToldStep:
        """The step as rows keep it."""
        said, kind = self.cleaned_data, self.kind
        if kind is None:
            raise TypeError(NO_SUCH_KIND)
        return ToldStep(
            kind=kind.name,
            kind_version=said["test_version"],
            readings={
                name: told.as_json() if isinstance(told, Reading) else told
                for name, told in self.readings.items()
            },
            kept={mark["field"]: mark["why"] for mark in self.step_marks if mark["why"]},
            marks=self.step_marks,
            seen=said["seen"],
            not_done=said["not_done"][:NOT_DONE_LENGTH],
            not_done_words=said["not_done_words"] if said["not_done"] else "",
            corrected_why=said["corrected_why"],
            named=self.named,
        )


def typed_in(step: Step) -> dict[str, str]:
    """A step as it was typed, to begin its correction with."""
    first = {f"{name}_why": why for name, why in step.kept.items()}
    for name, told in step.readings.items():
        if isinstance(told, str):
            first[name] = told
        else:
            first |= {name: told["typed"], f"{name}_unit": told["unit"]}
    told = {"seen": step.seen, "not_done_words": step.not_done_words}
    return first | typed_in_with(step) | told
