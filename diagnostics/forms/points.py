"""An owner's reason for waiving an open point, or for letting a job go against an order."""

from django import forms

from diagnostics.evidence.orders import ORDERS
from jobs.forms.fields import Line, OnJob

REASON = "Why? It prints with your name."
REASON_MISSING = "Say why. It stands on the job and on the record, with your name."


def reason() -> Line:
    """The reason, which cannot be left out."""
    return Line(300, REASON, required=True, error_messages={"required": REASON_MISSING})


class WaiveForm(OnJob):
    """Which point, by its code and what it is about, and why it is waived."""

    code = forms.CharField(max_length=60, widget=forms.HiddenInput)
    about = forms.CharField(max_length=200, widget=forms.HiddenInput)
    reason = reason()


class OverrideForm(OnJob):
    """Which order, and why the job may go against it."""

    order = forms.ChoiceField(choices=[(code, code) for code in ORDERS], widget=forms.HiddenInput)
    reason = reason()
