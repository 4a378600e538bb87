"""Who else may say yes: somebody whom the customer, or who pays, named."""

from django import forms

from jobs.forms.fields import Line, OnJob, Tap
from jobs.models.named import SPEAKS_FOR

WHO = "Type the name of who may say yes."


class NamedForm(OnJob):
    """One person; a correction may end it."""

    named_name = Line(200, "Name", required=True, error_messages={"required": WHO})
    named_phone = Line(60, "Phone", widget=forms.TextInput({"inputmode": "tel"}))
    speaks_for = Tap("May say yes", SPEAKS_FOR, required=True)
    ended = forms.BooleanField(label="May not say yes any more", required=False)
