"""What is asked back at the counter: at intake, or later on the customer's page."""

from typing import Any

from django import forms

from jobs.forms.fields import Line, Tap, Taps
from jobs.models.said import ASKED
from jobs.models.wordings import PAYERS, SINCE, WARM_WHEN, YES_NO


class AskedPart(forms.Form):
    """The tapped questions about the complaint, and who pays."""

    since = Tap("Since when?", SINCE)
    warm_when = Taps("When does it blow warm?", WARM_WHEN)
    topped_up = Tap("Topped up before?", YES_NO)
    topped_up_with = Line(200, "With what, and when?")
    accident = Tap("An accident or repair at the front?", YES_NO)
    other_work = Tap("Other work on the car before it began?", YES_NO)
    other_work_what = Line(500, "What was done?")
    payer = Tap("Who pays?", PAYERS)

    @property
    def answers(self) -> dict[str, Any]:
        """The tapped answers that were given, {question: code, codes or words}."""
        told = self.cleaned_data
        return {name: told[name] for name in ASKED if told.get(name)}
