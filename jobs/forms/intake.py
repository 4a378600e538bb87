"""Taking in a car: one form, and everything but name, plate and complaint may wait."""

from collections.abc import Iterable
from typing import Any

from django import forms

from jobs.forms.asked import AskedPart
from jobs.forms.consent import ConsentPart
from jobs.forms.fields import EntryForm, Lines, Tap
from jobs.forms.parts import CarPart, CustomerPart, SystemPart
from jobs.models.jobs import BEFORE
from jobs.told import Before, Intake, Showing, as_key

COMPLAINT_MISSING = "What does the customer say? In the customer’s own words."
LONG = 10_000
NAMED = {
    "name": "customer_name",
    "vin_mark": "vin",
    "odometer_unit": "odometer",
    "label_charge_mg": "label_charge",
    "label_charge_source": "label_charge",
}
TOGETHER = {
    "odometer": ("odometer_unit",),
    "label_charge": ("label_charge_unit", "label_charge_source"),
}


class ComplaintPart(AskedPart):
    """What the customer says, and what is asked back."""

    complaint = Lines(
        LONG,
        "What does the customer say?",
        "In the customer’s own words.",
        required=True,
        error_messages={"required": COMPLAINT_MISSING},
    )


class BeforePart(EntryForm):
    """What is said of an earlier visit, where the shop knows plate or VIN already."""

    follows = forms.CharField(required=False, widget=forms.HiddenInput)
    before = Tap("Is it this car, and the same trouble?", BEFORE)

    @property
    def said_before(self) -> Before:
        """The earlier job and what it is to this one; a key that is none counts for none."""
        key = as_key(self.cleaned_data["follows"])
        return Before(key, self.cleaned_data["before"]) if key else Before()


class IntakeForm(BeforePart, ConsentPart, SystemPart, CarPart, ComplaintPart, CustomerPart):
    """All of it. Amounts are whole numbers of the shop's currency."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.order_fields(["customer_name", "phone", "plate", "complaint", *AskedPart.base_fields])

    @property
    def car_open(self) -> bool:
        """Whether something was told of the car beyond its plate, or needs mending there."""
        return self.has_told(name for name in CarPart.base_fields if name != "plate")

    @property
    def system_open(self) -> bool:
        """Whether something was told of the A/C, or needs mending there."""
        return self.has_told(SystemPart.base_fields)

    def has_told(self, names: Iterable[str]) -> bool:
        """Whether a part of the form that may wait was not left alone."""
        told = [name for name in names if not name.endswith("_unit")]  # begins with the shop's
        return self.is_bound and any(self[name].value() or name in self.errors for name in told)

    def taken_in(self) -> Intake:
        """What the valid form says, by row."""
        told = self.cleaned_data
        return Intake(
            customer={"name": told["customer_name"], "phone": told["phone"]},
            car=self.car(),
            system=self.system(),
            job={
                "complaint": told["complaint"],
                "complaint_answers": self.answers,
                "payer": told["payer"],
                **self.odometer_columns,
            },
            consent=self.agreed(told["customer_name"]),
            showing=Showing({}, NAMED, TOGETHER),
            before=self.said_before,
            marks=self.marks,
        )
