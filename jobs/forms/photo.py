"""A photo of the car: the files, the place on its A/C, a word about it."""

import uuid
from typing import Any

from django import forms

from jobs.forms.fields import Line, OnJob, Tap
from jobs.models import Entry, Photo
from jobs.models.ac_places import WORDS
from jobs.models.photos import ABOUT
from jobs.told import Filed, as_key

NONE = "There is no photo in it yet. Take one, or choose a file."
NO_STEP = "This job has no such test on the shop server. Tap another, or none."
NO_PHOTO = "The shop server has no such photo in this job."


class Filing(OnJob):
    """Where a photo is filed: all of it may wait."""

    place = Tap("Where on the car?", WORDS)
    about = Tap("What is it of?", ABOUT)
    note = Line(200, "In a few words", "May wait.")
    personal = forms.BooleanField(
        label="It shows a person, or something private",
        help_text="If so, tap it: the photo stays off the customer’s paper, and is marked to go"
        " when the customer asks to be forgotten.",
        required=False,
    )
    step = forms.CharField(label="It belongs to test", required=False, max_length=40)

    def clean_step(self) -> uuid.UUID | None:
        """The key of the step it tells of; a step of this job that has arrived."""
        told = self.cleaned_data["step"]
        if not told:
            return None
        key = as_key(told)
        if (
            key is None
            or not Entry.objects.filter(key=key, job_key=self.job_key, kind="step").exists()
        ):
            raise forms.ValidationError(NO_STEP)
        return key

    def filed(self) -> Filed:
        """Where it is filed, as rows keep it."""
        told = self.cleaned_data
        return Filed(told["place"], told["about"], told["note"], told["personal"], told["step"])


class PhotoForm(Filing):
    """Photos taken: at least one file, unless it files those of an earlier entry anew."""

    photo = forms.FileField(label="Photos", required=False)

    def clean(self) -> dict[str, Any]:
        """There is a photo to file."""
        said = super().clean()
        told = self.entry_told
        if told and not told.photos and not self.corrects_photos():
            self.add_error("photo", NONE)
        return said

    def corrects_photos(self) -> bool:
        """Whether it corrects an earlier entry of photos that is here."""
        if self.corrects is None:
            return False
        rows = Entry.objects.filter(key=self.corrects, kind="photo", job_key=self.job_key)
        return rows.exists()


class FiledForm(Filing):
    """One photo filed anew: named by its entry's key and its number there."""

    of = forms.CharField(widget=forms.HiddenInput, max_length=40)
    number = forms.IntegerField(widget=forms.HiddenInput, min_value=1)

    def clean(self) -> dict[str, Any]:
        """The photo must be here."""
        said = super().clean()
        said["picture"] = self.picture(said.get("of", ""), said.get("number"))
        if said["picture"] is None:
            self.add_error(None, NO_PHOTO)
        return said

    def picture(self, of: str, number: int | None) -> Photo | None:
        """The photo it speaks of."""
        key = as_key(of)
        if key is None or number is None:
            return None
        rows = Photo.objects.select_related("entry", "filed_by")
        return rows.filter(entry__key=key, number=number, job_key=self.job_key).first()
