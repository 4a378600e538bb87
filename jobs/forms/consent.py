"""Consent: find the fault, up to an amount."""

from typing import Any

from django import forms

from jobs.forms.fields import EntryForm, Line, OnJob, Tap, Typed
from jobs.models import Shop
from jobs.models.wordings import CONSENT_NOW, CONSENT_TEXTS, CONSENT_WAYS
from jobs.money import DECIMALS, NotAnAmount, minor
from jobs.told import Agreed

AMOUNT_MISSING = "Up to how much? A consent needs its amount; 0 if it costs nothing."
NO_CURRENCY = "The shop’s currency is not set yet; leave this empty until it is."


class ConsentPart(EntryForm):
    """Amount, way and giver, under the exact text that is shown."""

    consent_amount = Typed("Up to how much?", "Tax included. Left empty: not asked yet.")
    consent_how = Tap("How was it given?", CONSENT_WAYS)
    consent_by = Line(200, "Given by", "Left empty: by the customer.")
    consent_text = forms.ChoiceField(
        choices=[(code, code) for code in CONSENT_TEXTS],
        widget=forms.HiddenInput,
        initial=CONSENT_NOW,
        required=False,
        error_messages={"invalid_choice": "This page’s consent text is not known here; reload it."},
    )
    consent_units: int | None = None
    currency = ""
    law = ""  # the wording that the shop typed for its place

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        shop = Shop.objects.first()
        if shop and shop.currency in DECIMALS:
            self.currency = shop.currency
        if shop:
            self.law = shop.law
        self.fields["consent_amount"].unit = self.currency  # type: ignore[attr-defined]

    @property
    def exact_text(self) -> str:
        """What the person agrees to, word for word."""
        code = self["consent_text"].value() or CONSENT_NOW
        return CONSENT_TEXTS.get(code, CONSENT_TEXTS[CONSENT_NOW])

    def clean(self) -> dict[str, Any]:
        """Read the amount in the shop's currency."""
        said = super().clean() or {}
        if said.get("consent_amount") and not self.currency:
            self.add_error("consent_amount", NO_CURRENCY)
        elif said.get("consent_amount"):
            try:
                self.consent_units = minor(said["consent_amount"], self.currency)
            except NotAnAmount as wrong:
                self.add_error("consent_amount", str(wrong))
        elif said.get("consent_how") or said.get("consent_by"):
            self.add_error("consent_amount", AMOUNT_MISSING)
        return said

    def agreed(self, customer: str) -> Agreed | None:
        """The consent, if one was given; by the customer where nobody else is named."""
        told = self.cleaned_data
        if self.consent_units is None:
            return None
        return Agreed(
            amount=self.consent_units,
            currency=self.currency,
            given_by=told["consent_by"] or customer,
            how=told["consent_how"],
            text=CONSENT_TEXTS[told["consent_text"] or CONSENT_NOW],
        )


class ConsentForm(OnJob, ConsentPart):
    """A consent given after intake."""

    def clean(self) -> dict[str, Any]:
        """The amount is what this page is for."""
        said = super().clean()
        if not said.get("consent_amount") and "consent_amount" not in self.errors:
            self.add_error("consent_amount", AMOUNT_MISSING)
        return said
