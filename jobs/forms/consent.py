"""Consent: to find the fault at intake, and each later one."""

from typing import Any

from django import forms

from jobs.forms.consent_asked import SIGN, WHICH_WORK, AskedPart
from jobs.forms.fields import EntryForm, Line, Tap, Typed
from jobs.models import Shop
from jobs.models.consents import (
    AGREED,
    CUSTOMER,
    FIND_FAULT,
    IN_PERSON,
    NOT_REACHED,
    OTHER,
    UNSIGNED,
    WORK,
    YES,
)
from jobs.models.wordings import CONSENT_NOW, CONSENT_TEXTS, CONSENT_WAYS
from jobs.money import DECIMALS, MINOR_MAX, TOO_MUCH, NotAnAmount, minor
from jobs.told import Agreed

TAP_ONE = "Tap one of these."
AMOUNT_MISSING = "Up to how much? A consent needs its amount; 0 if it costs nothing."
TOTAL_HINT = "Tax included. Left empty: what was agreed before and the added cost, added up."
ADDED_MISSING = "How much more than was agreed before? 0 if nothing."
WAS_REACHED = (
    "Somebody signed or chose, so somebody was reached. Tap what came of it, or take that back."
)
IS_SIGNED = "It is signed. Tap that it was agreed to, or clear the signature."
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
            self.amount_alone()
        return said

    def amount_alone(self) -> None:
        """A way or a giver without an amount is half a consent."""
        self.add_error("consent_amount", AMOUNT_MISSING)

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
            giver=OTHER if told["consent_by"] not in ("", customer) else CUSTOMER,
        )


class ConsentForm(AskedPart, ConsentPart):
    """A consent asked for after intake; a page kept from before asks to find the fault only."""

    about, outcome, giver, by = FIND_FAULT, AGREED, CUSTOMER, ""
    added: int | None = None

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["consent_added"].unit = self.currency  # type: ignore[attr-defined]
        self.fields["consent_outcome"].needed = TAP_ONE  # type: ignore[attr-defined]
        self.fields["consent_amount"].label = "Up to how much in all?"
        self.fields["consent_amount"].help_text = TOTAL_HINT

    def clean(self) -> dict[str, Any]:
        """Held to what each outcome needs; who did not say yes agreed to no amount."""
        said = super().clean()
        if said.get("consent_asked") and not said.get("consent_outcome"):
            self.add_error("consent_outcome", TAP_ONE)
        outcome = said.get("consent_outcome") or AGREED
        about = self.read_about(said)
        self.read_signature(said)
        self.read_tries(said)
        giver, name = self.read_who(said)
        if about == WORK and not said.get("work"):
            self.add_error("work", WHICH_WORK)
        added = self.read_sums(said, about, outcome)
        self.ask_signature(said, about, outcome)
        self.hold_together(said, outcome)
        self.about, self.outcome, self.added = about, outcome, added
        self.giver, self.by = giver, name
        return said

    def amount_alone(self) -> None:
        """Nothing: whether an amount is missed depends on what came of it."""

    def read_sums(self, said: dict[str, Any], about: str, outcome: str) -> int | None:
        """The added cost; total and added cost are worked out of each other where one is told."""
        added = self.read_added(said)
        if about == "estimate" or {"consent_amount", "consent_added"} & set(self.errors):
            return None
        before: int | None = said.get("consent_before")
        total = self.consent_units
        if total is None and added is not None and before is not None:
            total = self.consent_units = before + added
            if total > MINOR_MAX:
                self.add_error("consent_added", TOO_MUCH)
        needed = outcome in YES
        if total is None and needed:
            self.add_error("consent_amount", AMOUNT_MISSING)
        if about == FIND_FAULT or total is None:
            return added
        if added is None and before is not None:
            return total - before
        if added is None and needed:
            self.add_error("consent_added", ADDED_MISSING)
        elif added is not None and before is not None and before + added != total:
            self.asks("consent_amount", "consent_sum")
        return added

    def read_added(self, said: dict[str, Any]) -> int | None:
        """The added cost as typed, in the currency's smallest unit."""
        typed = said.get("consent_added")
        if not typed:
            return None
        if not self.currency:
            self.add_error("consent_added", NO_CURRENCY)
            return None
        try:
            return minor(typed, self.currency)
        except NotAnAmount as wrong:
            self.add_error("consent_added", str(wrong))
            return None

    def ask_signature(self, said: dict[str, Any], about: str, outcome: str) -> None:
        """Who stands there and agrees to more than finding the fault signs, or it is said why not.

        What was recorded on a page that did not ask is taken as it is and is an open point.
        """
        signed = self.strokes or said.get("signed_name")
        in_person = said.get("consent_how") == IN_PERSON and outcome == AGREED
        asked = said.get("consent_asked") and about != FIND_FAULT and "signature" not in self.errors
        if asked and in_person and not signed:
            self.add_error("signature", SIGN)

    def hold_together(self, said: dict[str, Any], outcome: str) -> None:
        """Who was not reached signed and chose nothing, and who refused to sign did not sign."""
        signed = self.strokes or said.get("signed_name")
        if outcome == NOT_REACHED and (signed or said.get("old_parts")):
            self.add_error("consent_outcome", WAS_REACHED)
        elif outcome == UNSIGNED and signed:
            self.add_error("consent_outcome", IS_SIGNED)

    def told(self, customer: str) -> Agreed:
        """What came of it, as rows keep it; `customer` is the name of who brought the car."""
        said, about = self.cleaned_data, self.about
        fault = about == FIND_FAULT
        return Agreed(
            amount=self.estimate.total if self.estimate else self.consent_units,
            currency=self.estimate.currency if self.estimate else self.currency,
            given_by=self.by or customer,
            how=said["consent_how"],
            text=CONSENT_TEXTS[said["consent_text"] or CONSENT_NOW] if fault else "",
            about=about,
            outcome=self.outcome,
            estimate=self.estimate.key if self.estimate else None,
            work=said["work"] if about == WORK else "",
            added=self.added,
            before=said.get("consent_before"),
            giver=self.giver,
            named=self.named.key if self.named else None,
            number_called=said["number_called"],
            tries=self.tries,
            strokes=self.strokes,
            signed_name=said["signed_name"],
            wording=said["work_text"],
            chosen=said["old_parts"],
            marks=self.marks,
        )
