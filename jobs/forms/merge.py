"""Two customers or two cars that are one."""

import uuid
from typing import Any

from django import forms

from jobs.forms.fields import EntryForm
from jobs.models import Customer, Vehicle
from jobs.told import Merged

ABOUT: dict[str, type[Customer] | type[Vehicle]] = {"customer": Customer, "vehicle": Vehicle}
NOT_TWO = "These are not two: choose another one."
NOT_HERE = "The shop server has no such row. Open the page from the job again."
WHICH = "Tap the one that stays."


class MergeForm(EntryForm):
    """Both rows by key, and which of them stays."""

    about = forms.ChoiceField(choices=[(name, name) for name in ABOUT], widget=forms.HiddenInput)
    one = forms.UUIDField(widget=forms.HiddenInput)
    other = forms.UUIDField(widget=forms.HiddenInput)
    stays = forms.UUIDField(error_messages={"required": WHICH, "invalid": WHICH})

    def clean(self) -> dict[str, Any]:
        """Both are here, they are two, and one of them stays."""
        said = super().clean() or {}
        pair = {said[name] for name in ("one", "other") if said.get(name)}
        if not (said.get("one") and said.get("other") and said.get("about")):
            self.add_error(None, NOT_HERE)
        elif len(pair) < 2:
            self.add_error(None, NOT_TWO)
        elif ABOUT[said["about"]].objects.filter(key__in=pair).count() < 2:
            self.add_error(None, NOT_HERE)
        elif said.get("stays") and said["stays"] not in pair:
            self.add_error("stays", WHICH)
        return said

    def merged(self) -> Merged:
        """What the valid form says."""
        told = self.cleaned_data
        stays: uuid.UUID = told["stays"]
        goes = told["other"] if stays == told["one"] else told["one"]
        return Merged(told["about"], stays, goes)
