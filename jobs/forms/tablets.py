"""Tablets: what an owner says of one."""

from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import Line, ToldForm
from jobs.logbook import Told
from jobs.models import Tablet

NAME_MISSING = "Type what the tablet is called in the shop, such as Bay 2 or Desk."
NAME_TAKEN = "Another tablet has that name. Add a word to tell them apart."
CHANGES = ("name", "revoke", "back")


class TabletChange(ToldForm):
    """One change to a tablet; the name counts where that is what is changed."""

    tablet = forms.UUIDField(widget=forms.HiddenInput)
    change = forms.CharField(max_length=20, widget=forms.HiddenInput)
    name = Line(60, "Name", required=True, error_messages={"required": NAME_MISSING})

    def __init__(self, data: MultiValueDict[str, str], told: Told | None = None) -> None:
        super().__init__(data, told)
        if data.get("change") != "name":
            del self.fields["name"]

    def clean_change(self) -> str:
        """Hold it to the list."""
        change: str = self.cleaned_data["change"]
        if change not in CHANGES:
            raise forms.ValidationError("This change is none that can be made here.")
        return change

    def clean_tablet(self) -> Tablet:
        """The tablet meant."""
        tablet = Tablet.objects.filter(key=self.cleaned_data["tablet"]).first()
        if tablet is None:
            raise forms.ValidationError("No tablet of that key is in the list.")
        return tablet

    def clean(self) -> dict[str, Any]:
        """Tell two tablets apart."""
        said = super().clean() or {}
        tablet, name = said.get("tablet"), said.get("name")
        same = Tablet.objects.filter(name__iexact=name) if name else None
        if tablet and same is not None and same.exclude(pk=tablet.pk).exists():
            self.add_error("name", NAME_TAKEN)
        return said


class TabletName(forms.Form):
    """A tablet's name, as typed on its page."""

    use_required_attribute = False
    name = Line(
        60,
        "Name",
        "What it is called in the shop: Bay 2, Desk.",
        required=True,
        error_messages={"required": NAME_MISSING},
    )
