"""Signing in: by PIN on a shop tablet, by name and password anywhere."""

import uuid
from typing import Any

from django import forms
from django.http import QueryDict

from jobs.models import Person
from jobs.pins import PASSWORD_MAX, PIN_DIGITS, try_password, try_pin


class PinInput(forms.PasswordInput):
    """A PIN as it is typed: hidden, with the number keys of a touch screen."""

    def __init__(self) -> None:
        super().__init__({"inputmode": "numeric", "autocomplete": "off", "data-pin": ""})


class SecretInput(forms.PasswordInput):
    """A password as it is typed: hidden, and not kept by the browser of a shared tablet."""

    def __init__(self) -> None:
        super().__init__({"autocomplete": "off", "autocapitalize": "none", "spellcheck": "false"})


class ByPin(forms.Form):
    """A name was tapped, the PIN is typed. `person` is set when it is right."""

    person = forms.UUIDField(widget=forms.HiddenInput, error_messages={"required": "Tap a name."})
    pin = forms.CharField(
        label="PIN",
        max_length=40,
        widget=PinInput,
        error_messages={"required": f"Type your PIN: {PIN_DIGITS}."},
    )
    who: Person

    def clean(self) -> dict[str, Any]:
        """Try the PIN once both parts are there."""
        said = super().clean() or {}
        if not self.errors:
            tried = try_pin(said["person"], said["pin"])
            if tried.person:
                self.who = tried.person
            else:
                self.add_error("pin", tried.why)
        return said


class ByPassword(forms.Form):
    """Name and password. `who` is set when they belong together."""

    name = forms.CharField(
        label="Name",
        max_length=80,
        widget=forms.TextInput({"autocomplete": "off", "autocapitalize": "words"}),
        error_messages={"required": "Type your name as it stands under People."},
    )
    password = forms.CharField(
        label="Password",
        max_length=PASSWORD_MAX,
        strip=False,
        widget=SecretInput,
        error_messages={"required": "Type your password."},
    )
    who: Person

    def clean(self) -> dict[str, Any]:
        """Try the password once both parts are there."""
        said = super().clean() or {}
        if not self.errors:
            tried = try_password(said["name"], said["password"])
            if tried.person:
                self.who = tried.person
            else:
                self.add_error("password", tried.why)
        return said


class SignInAgain(forms.Form):
    """The part of a held post by which somebody signs for it: a name, and PIN or password."""

    PREFIX = "held_"
    held_person = forms.ChoiceField(label="Who are you?", required=False, widget=forms.RadioSelect)
    held_pin = forms.CharField(label="Your PIN", required=False, max_length=40, widget=PinInput)
    held_name = forms.CharField(label="Your name", required=False, max_length=80)
    held_password = forms.CharField(
        label="Your password",
        required=False,
        max_length=PASSWORD_MAX,
        strip=False,
        widget=SecretInput,
    )
    person: Person

    def __init__(self, *args: Any, pins: bool, likely: Person | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.pins = pins
        if pins:
            people = Person.objects.filter(is_active=True).exclude(pin="")
            choices = [(str(person.key), person.name) for person in people]
            self.fields["held_person"] = forms.ChoiceField(
                label="Who are you?", required=False, choices=choices, widget=forms.RadioSelect
            )
            self.initial.setdefault("held_person", str(likely.key) if likely else "")
        else:
            del self.fields["held_person"], self.fields["held_pin"]
        self.initial.setdefault("held_name", likely.name if likely and not pins else "")

    def clean(self) -> dict[str, Any]:
        """Try what was typed: the PIN of the tapped name, or else name and password."""
        said = super().clean() or {}
        if self.errors:
            return said
        if said.get("held_pin") and said.get("held_person"):
            tried, field = try_pin(uuid.UUID(said["held_person"]), said["held_pin"]), "held_pin"
        elif said["held_name"] and said["held_password"]:
            tried = try_password(said["held_name"], said["held_password"])
            field = "held_password"
        else:
            missing = "Tap your name and type your PIN, or type name and password."
            raise forms.ValidationError(
                missing if "held_pin" in self.fields else "Type your name and your password."
            )
        if tried.person:
            self.person = tried.person
        else:
            self.add_error(field, tried.why)
        return said

    @classmethod
    def sent_with(cls, post: QueryDict) -> bool:
        """Whether a post carries such a part."""
        return any(name.startswith(cls.PREFIX) for name in post)

    @classmethod
    def without(cls, post: QueryDict) -> QueryDict:
        """The post as it was before somebody signed for it."""
        kept = QueryDict(mutable=True, encoding=post.encoding)
        for name, values in post.lists():
            if not name.startswith(cls.PREFIX):
                kept.setlist(name, values)
        return kept
