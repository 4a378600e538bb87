"""A customer who asks to be forgotten."""

from typing import Any

from django import forms

from jobs.forms.fields import EntryForm, Lines
from jobs.models import Customer

REASON_MISSING = "Say who asked for it, and when."
CHECKED_MISSING = "Say how you know that it was this person."
NOT_HERE = "The shop server has no such customer. Open the page from the job again."
PHOTO_MAX = 60  # letters of a photo's name: an entry's key and a number


class Photos(forms.MultipleChoiceField):
    """Photos by their entry's key and number."""

    widget = forms.CheckboxSelectMultiple

    def valid_value(self, value: Any) -> bool:
        """Those that are not of this customer are left out later."""
        return len(str(value)) <= PHOTO_MAX


class RedactForm(EntryForm):
    """Why, how the person was known, and which photos go, too."""

    customer = forms.UUIDField(widget=forms.HiddenInput, error_messages={"required": NOT_HERE})
    reason = Lines(
        1000,
        "Why",
        "Who asked, when, in writing or at the counter. Without name and phone: this stays.",
        required=True,
        error_messages={"required": REASON_MISSING},
    )
    checked = Lines(
        1000,
        "How was it checked that it is this person?",
        "Such as: came with the car’s papers. This stays, too.",
        required=True,
        error_messages={"required": CHECKED_MISSING},
    )
    photos = Photos(label="Photos that show the person or their papers", required=False)

    def clean(self) -> dict[str, Any]:
        """The customer is here."""
        said = super().clean() or {}
        key = said.get("customer")
        if key and not Customer.objects.filter(key=key).exists():
            self.add_error(None, NOT_HERE)
        return said
