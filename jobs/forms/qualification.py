"""One card of one person: what it is for, its number, who gave it, from when to when."""

import uuid
from typing import Any

from django import forms

from jobs.forms.day import Day
from jobs.forms.fields import Line, Tap, ToldForm
from jobs.forms.people import person_of
from jobs.models import Person, Qualification
from jobs.models.qualifications import OTHER, QUALIFICATIONS

OWN_MISSING = "Say in a few words what it is for."
NO_END = "no_end"
END_MISSING = "Type its last day, or tap “No end date on it”."
END_TWICE = "There is an end date and a tap that there is none. Take one of them out."
ENDS_FIRST = "It runs out before it begins. Look at both days again."
NOT_THEIRS = "What this corrects is no qualification of this person."
REPLACED = "What this corrects was corrected already. Open the page again."


class QualificationForm(ToldForm):
    """A card told anew, or one that takes the place of another of the same person."""

    person = forms.UUIDField(widget=forms.HiddenInput)
    kind = Tap("What is it for?", QUALIFICATIONS, required=True)
    own_words = Line(120, "In its own words", "As the card has it; for something else, needed.")
    number = Line(80, "Number", "As printed. May wait.")
    issuer = Line(120, "Given by", "The body or school named on it. May wait.")
    valid_from = Day("Valid from", "Or the day it was given.", "Type from which day it holds.")
    valid_to = Day("Valid to", "Its last day.")
    open_end = Tap("Or", {NO_END: "No end date on it"})
    mistake = forms.BooleanField(
        required=False,
        label="Entered by mistake",
        help_text="It was never this person’s. It stays in the logbook and counts no more.",
    )
    corrected: Qualification | None = None

    def clean_person(self) -> Person:
        """Whose it is."""
        return person_of(self.cleaned_data["person"])

    def clean(self) -> dict[str, Any]:
        """Both days, own words where the list has none, and what it takes the place of."""
        said = super().clean() or {}
        if said.get("kind") == OTHER and not said.get("own_words"):
            self.add_error("own_words", OWN_MISSING)
        begins, ends, tapped = (said.get(one) for one in ("valid_from", "valid_to", "open_end"))
        if "valid_to" not in self.errors:
            if ends and tapped:
                self.add_error("valid_to", END_TWICE)
            elif not ends and not tapped:
                self.add_error("valid_to", END_MISSING)
            elif ends and begins and ends < begins:
                self.add_error("valid_to", ENDS_FIRST)
        if self.corrects and said.get("person"):
            self.find_corrected(said["person"], self.corrects)
        return said

    def find_corrected(self, person: Person, key: uuid.UUID) -> None:
        """The row whose place this takes."""
        rows = Qualification.objects.select_related("pictured")
        self.corrected = rows.filter(key=key, person=person).first()
        if self.corrected is None:
            self.add_error(None, NOT_THEIRS)
        elif self.corrected.superseded_by_id:
            self.add_error(None, REPLACED)

    def columns(self) -> dict[str, Any]:
        """The card as a row has it."""
        names = ("kind", "own_words", "number", "issuer", "valid_from", "valid_to", "mistake")
        return {name: self.cleaned_data[name] for name in names}


def typed_in(row: Qualification) -> dict[str, Any]:
    """A card as it stands, to begin its correction with."""
    names = ("kind", "own_words", "number", "issuer", "valid_from", "valid_to")
    first = {name: getattr(row, name) for name in names}
    return first | {"open_end": NO_END if row.valid_to is None else ""}
