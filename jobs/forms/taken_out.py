"""Where an old part went, and what is given back for it."""

import uuid
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import Lines, OnJob, Tap, Typed
from jobs.forms.settings_figures import currency_of_shop
from jobs.logbook import Told
from jobs.models.taken_out import WENT
from jobs.money import NotAnAmount, minor
from jobs.told import TakenOutTold, as_key

NO_PART = "Which part? Open this page from the list of what was fitted."
CURRENCY_MAY_WAIT = "Leave it empty until it is."


class TakenOutForm(OnJob):
    """One telling; the last that was told of a part counts."""

    change = forms.CharField(required=False, max_length=40, widget=forms.HiddenInput)
    went = Tap("Where is the old part?", WENT, required=True)
    core = Typed("Core price", "What the seller gives back for it. May wait.")
    note = Lines(300, "To whom, and with which paper?", "Stands on the record.")
    core_minor: int | None = None
    currency = ""

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        try:
            self.currency = currency_of_shop()
        except NotAnAmount:
            self.currency = ""
        self.fields["core"].unit = self.currency  # type: ignore[attr-defined]

    @property
    def part_told(self) -> uuid.UUID | None:
        """The change that the form names, as far as it can be read."""
        return as_key(self["change"].value())

    def clean_change(self) -> uuid.UUID | None:
        """The key of the change by which it was taken out."""
        key = as_key(self.cleaned_data["change"])
        if key is None:
            self.add_error(None, NO_PART)
        return key

    def clean_core(self) -> str:
        """Read the amount in the shop's currency."""
        typed = str(self.cleaned_data["core"])
        if not typed:
            return ""
        try:
            self.core_minor = minor(typed, self.currency or currency_of_shop())
        except NotAnAmount as wrong:
            may_wait = "" if self.currency else f" {CURRENCY_MAY_WAIT}"
            raise forms.ValidationError(f"{wrong}{may_wait}") from None
        return typed

    def told(self) -> TakenOutTold:
        """As rows keep it."""
        said = self.cleaned_data
        currency = "" if self.core_minor is None else self.currency
        return TakenOutTold(said["change"], said["went"], self.core_minor, currency, said["note"])
