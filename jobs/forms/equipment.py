"""An instrument or machine: what stands on its plate, what it reads, when it was checked."""

import uuid
from typing import Any

from django import forms
from django.utils import timezone

from diagnostics.physics.errors import Malformed
from diagnostics.physics.quantities import QUANTITIES, stated
from jobs.forms.day import Day
from jobs.forms.fields import Line, Tap, Taps, ToldForm
from jobs.models import Check, Equipment
from jobs.models.equipment import KINDS, READS, RECOVERY_CLASSES

NO_SUCH_THING = "The shop’s list has no such instrument."
STILL_TO_COME = "That day is still to come. Type the day on which it was checked."
UNTIL_FIRST = "It is to be checked again before it was checked. Look at both days again."
NOT_ITS_CHECK = "What this corrects is no check of this instrument."
REPLACED = "That check was corrected already. Open the page again."
NO_TABLET = "This browser is not known as a tablet. Sign in here once more, then tap again."
MAKES_RECOVERY = ("recovery_machine", "service_machine")
STATED = {name: one for name, one in QUANTITIES.items() if one.units}
ACCURACY = "accuracy_"


def thing_of(key: uuid.UUID | None) -> Equipment:
    """The thing of a key.

    Raises:
        forms.ValidationError: the list has none.

    """
    found = Equipment.objects.filter(key=key).first() if key else None
    if found is None:
        raise forms.ValidationError(NO_SUCH_THING)
    return found


class EquipmentForm(ToldForm):
    """A thing told anew, or one that is in the list told as it is now (`thing` is its key)."""

    thing = forms.UUIDField(required=False, widget=forms.HiddenInput)
    kind = Tap("What is it?", KINDS, required=True)
    recovery_class = Tap(
        "By the standard on its plate", RECOVERY_CLASSES, "Of a machine that recovers."
    )
    name = Line(80, "What it is called here", "Empty: its kind and the next number.")
    maker = Line(80, "Maker")
    model = Line(80, "Model")
    serial = Line(80, "Serial number")
    made = Line(40, "Made", "Month or year on the plate.")
    standard = Line(120, "Standard on its plate", "As printed, such as EN 837-1 class 1.6.")
    reads = Taps(
        "What does it read?",
        {name: one.words for name, one in QUANTITIES.items()},
        "None tapped: what its kind usually reads.",
    )
    checked_on = Day("Last checked")
    until = Day("To be checked again by")
    out_of_use_since = Day("Out of use since", "From that day on it is offered nowhere.")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, one in STATED.items():
            label = f"{one.words} ±"
            self.fields[f"{ACCURACY}{name}"] = Line(60, label, f"Such as {one.example}.")

    def clean_thing(self) -> Equipment | None:
        """The thing that is told of again; its field is hidden, so what is wrong stands on top."""
        key = self.cleaned_data["thing"]
        found = Equipment.objects.filter(key=key).first() if key else None
        if key and found is None:
            self.add_error(None, NO_SUCH_THING)
        return found

    def clean(self) -> dict[str, Any]:
        """The accuracies as numbers, both days in order."""
        said = super().clean() or {}
        self.accuracy = {name: told for name in STATED if (told := self.accuracy_told(name))}
        in_order(self, said)
        if said.get("until") and not said.get("checked_on") and "checked_on" not in self.errors:
            self.add_error("checked_on", "Type when it was checked, or take the other day out.")
        return said

    def accuracy_told(self, name: str) -> dict[str, Any] | None:
        """One accuracy as a row has it; None: not told, or not to be read."""
        typed = self.cleaned_data.get(f"{ACCURACY}{name}", "")
        if not typed:
            return None
        try:
            told = stated(typed, name)
        except Malformed as wrong:
            self.add_error(f"{ACCURACY}{name}", wrong.sentence)
            return None
        return {"typed": told.typed, "share": told.share, "fixed": told.fixed}

    def columns(self) -> dict[str, Any]:
        """The thing as a row has it; what has an accuracy is read, tapped or not."""
        told = self.cleaned_data
        names = ("kind", "maker", "model", "serial", "made", "standard", "out_of_use_since")
        tapped = told["reads"] or READS.get(told["kind"], ())
        recovers = told["kind"] in MAKES_RECOVERY
        return {name: told[name] for name in names} | {
            "name": told["name"],
            "recovery_class": told["recovery_class"] if recovers else "",
            "reads": [one for one in QUANTITIES if one in tapped or one in self.accuracy],
            "accuracy": self.accuracy,
        }


def in_order(form: forms.Form, said: dict[str, Any]) -> None:
    """The check has been made, and the day by which the next is due comes after it."""
    checked, until = said.get("checked_on"), said.get("until")
    if checked and checked > timezone.localdate():
        form.add_error("checked_on", STILL_TO_COME)
    if checked and until and until < checked:
        form.add_error("until", UNTIL_FIRST)


def typed_in(row: Equipment) -> dict[str, Any]:
    """A thing as it stands, to begin a change with; its checks have their own form."""
    names = ("kind", "recovery_class", "name", "maker", "model", "serial", "made", "standard")
    first = {name: getattr(row, name) for name in (*names, "reads", "out_of_use_since")}
    told = {f"{ACCURACY}{name}": one["typed"] for name, one in row.accuracy.items()}
    return first | told | {"thing": row.key}


class CheckForm(ToldForm):
    """A check that was made, or the correction of one."""

    thing = forms.UUIDField(widget=forms.HiddenInput)
    checked_on = Day("Checked on", missing="Type the day on which it was checked.")
    until = Day("To be checked again by", "Empty: the paper says no day.")
    corrected: Check | None = None

    def clean_thing(self) -> Equipment:
        """The thing that was checked."""
        return thing_of(self.cleaned_data["thing"])

    def clean(self) -> dict[str, Any]:
        """Both days in order; what it corrects is a check of the same thing."""
        said = super().clean() or {}
        in_order(self, said)
        if self.corrects and said.get("thing"):
            rows = Check.objects.filter(key=self.corrects, equipment=said["thing"])
            self.corrected = rows.first()
            if self.corrected is None:
                self.add_error(None, NOT_ITS_CHECK)
            elif self.corrected.superseded_by_id:
                self.add_error(None, REPLACED)
        return said


class TabletForm(ToldForm):
    """Which instruments lie beside this tablet; none tapped: none."""

    things = forms.MultipleChoiceField(required=False, widget=forms.CheckboxSelectMultiple)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["things"]
        if isinstance(field, forms.ChoiceField):
            field.error_messages["invalid_choice"] = NO_SUCH_THING
            field.choices = [(str(one.key), one.name) for one in Equipment.objects.all()]

    def clean(self) -> dict[str, Any]:
        """It is about the tablet on which it was tapped."""
        if self.entry_told and self.entry_told.tablet is None:
            self.add_error(None, NO_TABLET)
        return super().clean() or {}
