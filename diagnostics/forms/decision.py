"""Which way was chosen, by whom, how that was told, and why."""

from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from diagnostics.decided import DECIDERS, OTHER_WAY, OTHER_WORDS, REASONS
from diagnostics.evidence.options.repairs import OPTIONS
from diagnostics.told import Decided
from jobs.forms.fields import Line, Lines, OnJob, Tap, Taps, WhatWasWrong, WhyAsked
from jobs.logbook import Told
from jobs.models.wordings import CONSENT_WAYS

SAY_WHICH = "Say in a few words what was chosen."
SAY_WHY = "Why? Tap one, or say it in words."
PLAN_LONG = 200


class PlanTap(Tap):
    """One of the ways offered; another tablet may have been offered others."""

    def valid_value(self, value: Any) -> bool:
        """Codes of repairs that there are, joined, each once; what repairs nothing stands alone."""
        told = str(value)
        codes = told.split("+")
        known = all(code in OPTIONS for code in codes) and len({*codes}) == len(codes)
        alone = len(codes) == 1 or all(OPTIONS[code].repairs for code in codes if code in OPTIONS)
        return told == OTHER_WAY or (known and alone and len(told) <= PLAN_LONG)


class DecisionForm(OnJob):
    """One decision. Whatever is chosen is taken; what it does not rest on is said beside it."""

    plan = PlanTap("Which way?", {OTHER_WAY: OTHER_WORDS}, required=True)
    plan_words = Line(300, "What, in a few words?", "Where none of these was chosen.")
    decided_by = Tap("Who decided?", DECIDERS, required=True)
    told_how = Tap("How was it told?", CONSENT_WAYS, "May wait.")
    reasons = Taps("Why?", REASONS)
    why = Lines(1000, "In own words", "Stands on the record.")
    seen = forms.CharField(required=False, max_length=12, widget=forms.HiddenInput)
    corrected_why = WhatWasWrong()
    why_asked = WhyAsked()

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        self.fields["reasons"].error_messages["required"] = SAY_WHY

    def offer(self, ways: dict[str, str]) -> None:
        """The ways to choose from, by their codes."""
        self.fields["plan"].choices = [  # type: ignore[attr-defined]
            *ways.items(),
            (OTHER_WAY, OTHER_WORDS),
        ]

    def clean(self) -> dict[str, Any]:
        """Something else is said in words, and a reason is told."""
        said = super().clean()
        if said.get("plan") == OTHER_WAY and not said.get("plan_words"):
            self.add_error("plan_words", SAY_WHICH)
        if not (said.get("reasons") or said.get("why")) and not {"reasons", "why"} & {*self.errors}:
            self.add_error("reasons", SAY_WHY)
        self.ask_what_was_wrong()
        return said

    def decided(self) -> Decided:
        """The decision as rows keep it."""
        told = self.cleaned_data
        seen = told["seen"]
        return Decided(
            plan=told["plan"],
            words=told["plan_words"],
            decided_by=told["decided_by"],
            told_how=told["told_how"],
            reasons=told["reasons"],
            why=told["why"],
            page_saw=int(seen) if seen.isascii() and seen.isdigit() and len(seen) < 9 else None,
            corrected_why=told["corrected_why"],
        )
