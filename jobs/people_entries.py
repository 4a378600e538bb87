"""The entry kinds by which an owner speaks of people and of tablets."""

from typing import Any, cast

from django import forms
from django.urls import reverse

from jobs.actions.people import add_person, change_person
from jobs.actions.tablets import change_tablet
from jobs.forms.people import PersonChange, PersonEntry
from jobs.forms.tablets import TabletChange
from jobs.logbook import EntryKind
from jobs.models import Entry
from jobs.models.people import OWNER

OWNERS = frozenset({OWNER})


def apply_person(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Somebody new."""
    told = form.cleaned_data
    add_person(entry, told["name"], told["role"], told["pin_hash"], told["password_hash"])
    return {"url": reverse("people")}


def apply_person_change(_entry: Entry, form: forms.Form) -> dict[str, Any]:
    """One change to a person."""
    told = cast("PersonChange", form)
    person = told.cleaned_data["person"]
    change_person(person, told.cleaned_data["change"], told.value)
    return {"url": f"{reverse('people')}?person={person.key}"}


def apply_tablet_change(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A tablet named, revoked, or let back."""
    told = form.cleaned_data
    change_tablet(entry, told["tablet"], told["change"], told.get("name", ""))
    return {"url": f"{reverse('tablets')}?tablet={told['tablet'].key}"}


PERSON = EntryKind("person", 1, PersonEntry, apply_person, OWNERS, fact=False, online=True)
PERSON_CHANGE = EntryKind(
    "person_change", 1, PersonChange, apply_person_change, OWNERS, fact=False, online=True
)
TABLET_CHANGE = EntryKind(
    "tablet_change", 1, TabletChange, apply_tablet_change, OWNERS, fact=False, online=True
)
PEOPLE_ENTRIES = (PERSON, PERSON_CHANGE, TABLET_CHANGE)
