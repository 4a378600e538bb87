"""People: what is typed on the page, and the entries it becomes.

Two kinds of forms: those of the page hold PIN and password as typed; those of the entries hold
their hashes. Nothing but a hash ever reaches the logbook.
"""

import uuid
from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import Line, Tap, ToldForm
from jobs.forms.sign_in import PinInput, SecretInput
from jobs.logbook import Told
from jobs.models import Person
from jobs.models.people import OWNER, ROLES, TECHNICIAN
from jobs.pins import PASSWORD_MAX, PIN_DIGITS, is_hash, password_problem, pin_problem

NAME_MISSING = "Type the name, as it stands on the tablets and on records."
NAME_TAKEN = "Somebody of that name is in the list already. Add a letter to tell them apart."


def person_of(key: uuid.UUID) -> Person:
    """The person of a key.

    Raises:
        forms.ValidationError: nobody has it.

    """
    person = Person.objects.filter(key=key).first()
    if person is None:
        raise forms.ValidationError("Nobody of that key is in the list.")
    return person


class NameField(Line):
    """A person's name."""

    def __init__(self, label: str = "Name", missing: str = NAME_MISSING) -> None:
        super().__init__(80, label, required=True, error_messages={"required": missing})


class PinField(forms.CharField):
    """A new PIN, as typed."""

    def __init__(self, *, required: bool = False) -> None:
        super().__init__(
            label="PIN",
            help_text=f"{PIN_DIGITS.capitalize()}. It works on the shop’s tablets only.",
            required=required,
            max_length=40,
            widget=PinInput,
            error_messages={"required": f"Type a PIN: {PIN_DIGITS}."},
        )

    def validate(self, value: Any) -> None:
        """Hold it to what a PIN can be."""
        super().validate(value)
        problem = pin_problem(value) if value else ""
        if problem:
            raise forms.ValidationError(problem)


class PasswordField(forms.CharField):
    """A new password, as typed."""

    def __init__(self, *, required: bool = False) -> None:
        super().__init__(
            label="Password",
            help_text="10 characters or more. For front desk and owner; works in any browser.",
            required=required,
            max_length=PASSWORD_MAX,
            strip=False,
            widget=SecretInput,
            error_messages={"required": "Type a password of 10 characters or more."},
        )

    def validate(self, value: Any) -> None:
        """Hold it to what a password can be."""
        super().validate(value)
        problem = password_problem(value) if value else ""
        if problem:
            raise forms.ValidationError(problem)


class PasswordTwice(forms.Form):
    """A new password typed twice, where nobody could give another after a slip."""

    password = PasswordField(required=True)
    password_again = forms.CharField(
        label="Password again",
        strip=False,
        widget=SecretInput,
        error_messages={"required": "Type the password once more; nobody else can look it up."},
    )

    def clean(self) -> dict[str, Any]:
        """Catch a slip."""
        said = super().clean() or {}
        password, again = said.get("password"), said.get("password_again")
        if password and again and password != again:
            self.add_error("password_again", "The two are not the same. Type both again.")
        return said


class OwnersPassword(PasswordTwice):
    """A new password for one of the owners."""

    use_required_attribute = False
    field_order = ("owner", "password", "password_again")

    def __init__(self, data: MultiValueDict[str, str] | None, owners: Sequence[Person]) -> None:
        super().__init__(data)
        names = {str(owner.key): owner.name for owner in owners}
        self.fields["owner"] = Tap("Which owner?", names, required=True)
        self.initial["owner"] = next(iter(names)) if len(names) == 1 else ""
        self.order_fields(self.field_order)


class HashField(forms.CharField):
    """A hash, as it comes with an entry."""

    def __init__(self) -> None:
        super().__init__(required=False, max_length=128)

    def validate(self, value: Any) -> None:
        """Let nothing pass that was typed."""
        super().validate(value)
        if value and not is_hash(value):
            raise forms.ValidationError("This is no hash; PINs and passwords are set under People.")


class NewPerson(forms.Form):
    """Somebody new, as typed on the page."""

    use_required_attribute = False
    name = NameField()
    role = Tap("Role", ROLES, required=True)
    pin = PinField()
    password = PasswordField()

    def clean(self) -> dict[str, Any]:
        """Hold PIN and password to what the role signs in with."""
        said = super().clean() or {}
        role, pin, password = (said.get(name, "") for name in ("role", "pin", "password"))
        if role == TECHNICIAN and not pin and "pin" not in self.errors:
            self.add_error("pin", f"A technician signs in by PIN: {PIN_DIGITS}.")
        if role == TECHNICIAN and password:
            self.add_error("password", "A technician signs in by PIN; leave this empty.")
        if role == OWNER and not password and "password" not in self.errors:
            self.add_error("password", "An owner signs in by password: 10 characters or more.")
        if role and not self.errors and not pin and not password:
            self.add_error("pin", "Give a PIN or a password, or nobody can sign in by that name.")
        return said


class PersonEntry(ToldForm):
    """The entry of somebody new."""

    name = NameField()
    role = Tap("Role", ROLES, required=True)
    pin_hash = HashField()
    password_hash = HashField()

    def clean_name(self) -> str:
        """Tell two people apart."""
        name: str = self.cleaned_data["name"]
        if Person.objects.filter(name__iexact=name).exists():
            raise forms.ValidationError(NAME_TAKEN)
        return name


class PersonChange(ToldForm):
    """The entry of one change to a person; of the values only the one that is changed counts."""

    person = forms.UUIDField()
    change = forms.CharField(max_length=20)
    name = NameField()
    role = Tap("Role", ROLES, required=True)
    pin_hash = HashField()
    password_hash = HashField()
    VALUE = {"name": "name", "role": "role", "pin": "pin_hash", "password": "password_hash"}
    BARE = ("unlock", "end", "back", "end_sign_ins")

    def __init__(self, data: MultiValueDict[str, str], told: Told | None = None) -> None:
        super().__init__(data, told)
        counts = self.VALUE.get(str(data.get("change", "")))
        for name in self.VALUE.values():
            if name == counts:
                self.fields[name].required = True
            else:
                del self.fields[name]

    def clean_change(self) -> str:
        """Hold it to the list."""
        change: str = self.cleaned_data["change"]
        if change not in self.VALUE and change not in self.BARE:
            raise forms.ValidationError("This change is none that can be made here.")
        return change

    def clean_person(self) -> Person:
        """The person meant."""
        return person_of(self.cleaned_data["person"])

    def clean(self) -> dict[str, Any]:
        """Tell two people apart."""
        said = super().clean() or {}
        person, name = said.get("person"), said.get("name")
        if person and name and Person.objects.filter(name__iexact=name).exclude(pk=person.pk):
            self.add_error("name", NAME_TAKEN)
        return said

    @property
    def value(self) -> str:
        """What it is changed to; empty for a change that has no value."""
        return str(self.cleaned_data.get(self.VALUE.get(self.cleaned_data["change"], ""), ""))


class NewName(forms.Form):
    """Another name, as typed."""

    use_required_attribute = False
    name = NameField()


class NewRole(forms.Form):
    """Another role, as tapped."""

    use_required_attribute = False
    role = Tap("Role", ROLES, required=True)


class NewPin(forms.Form):
    """Another PIN, as typed."""

    use_required_attribute = False
    pin = PinField(required=True)


class NewPassword(forms.Form):
    """Another password, as typed."""

    use_required_attribute = False
    password = PasswordField(required=True)
