"""Fields that several forms share: one line, many lines, a tap, and the reason for an odd value."""

import uuid
from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from jobs.logbook import Told
from jobs.models import Job
from jobs.models.marks import odd_words
from jobs.told import NOT_KNOWN, Mark, one_line

ASKS_AGAIN = "Type it again, or keep it and say why."
SAY_WHY = "Say in a few words why it stays as typed."
SAY_WHAT_WAS_WRONG = "Say in a few words what was wrong with it."
TOO_LONG = "That is %(show_value)d characters; %(limit_value)d fit here. Shorten it."
NO_SUCH_JOB = "The shop server has no such job."
NOT_LISTED = "This answer is not in the list. Tap one of those shown."


class Line(forms.CharField):
    """One line of words. The browser does not cut what is too long; the form says so."""

    def __init__(self, length: int, label: str, hint: str = "", **kwargs: Any) -> None:
        kwargs.setdefault("required", False)
        kwargs.setdefault("error_messages", {})
        kwargs["error_messages"] = {"max_length": TOO_LONG, **kwargs["error_messages"]}
        super().__init__(max_length=length, label=label, help_text=hint, **kwargs)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        """No maxlength: a browser would drop the rest of a pasted text without a word."""
        attrs = super().widget_attrs(widget)
        attrs.pop("maxlength", None)
        return {"autocomplete": "off", **attrs}

    def to_python(self, value: Any) -> str:
        """As a row keeps it; the logbook keeps it as typed."""
        return one_line(super().to_python(value) or "")


class Lines(Line):
    """Words on several lines, kept as typed."""

    widget = forms.Textarea

    def __init__(self, length: int, label: str, hint: str = "", **kwargs: Any) -> None:
        super().__init__(length, label, hint, **kwargs)
        self.widget.attrs["rows"] = "3"

    def to_python(self, value: Any) -> str:
        """Without blanks around it; empty when there is nothing to read in it."""
        text = str(forms.CharField.to_python(self, value) or "")
        return text if one_line(text) else ""


class Typed(Line):
    """A number as text, with comma or point; the form that holds it reads it.

    `unit` stands at the right of the field; `number` makes it large.
    """

    def __init__(
        self, label: str, hint: str = "", unit: str = "", *, number: bool = True, **kwargs: Any
    ) -> None:
        super().__init__(60, label, hint, **kwargs)
        self.unit = unit
        self.number = number
        self.widget.attrs.setdefault("inputmode", "decimal")


class Why(Line):
    """Why an odd value stays: named after its field with `_why` behind."""

    def __init__(self) -> None:
        super().__init__(300, "Keep it as typed, because")


class WhatWasWrong(Line):
    """Why an earlier entry is corrected: named `corrected_why`."""

    def __init__(self) -> None:
        super().__init__(300, "What was wrong with the earlier one?", "Stands on the record.")


class WhyAsked(forms.CharField):
    """Whether the page asked what was wrong: a form that is empty there does not say it was.

    `says` is asked on the tablet, before the correction is kept (static/offline/entry.js).
    """

    widget = forms.HiddenInput
    says = SAY_WHAT_WAS_WRONG

    def __init__(self) -> None:
        super().__init__(required=False, max_length=1)


class Tap(forms.ChoiceField):
    """One answer of a few, as large buttons; none tapped means not asked.

    `elsewhere` are answers that do not fit here: their buttons stay out of sight. `needed` is said
    where it is asked and has no answer, before an entry is kept that the shop server sends back.
    """

    widget = forms.RadioSelect
    elsewhere: Sequence[str] = ()
    needed = ""

    def __init__(
        self, label: str, answers: dict[str, str], hint: str = "", *, required: bool = False
    ) -> None:
        super().__init__(
            label=label,
            choices=list(answers.items()),
            help_text=hint,
            required=required,
            error_messages={"invalid_choice": NOT_LISTED, "required": "Tap one of these."},
        )


class Taps(forms.MultipleChoiceField):
    """Several answers of a few, as large buttons. `elsewhere` as those of Tap."""

    widget = forms.CheckboxSelectMultiple
    elsewhere: Sequence[str] = ()

    def __init__(self, label: str, answers: dict[str, str], hint: str = "") -> None:
        super().__init__(
            label=label,
            choices=list(answers.items()),
            help_text=hint,
            required=False,
            error_messages={"invalid_choice": NOT_LISTED},
        )


NOT_KNOWN_ASKED = "Untick “Not known”, or the others."
DASHES = "-\u2010\u2011\u2012\u2013\u2014\u2212"
DASH = "-"  # the code of the tap that says the same


class ToldForm(forms.Form):
    """A form of an entry: `entry_told` is what came, None while the form is only shown."""

    use_required_attribute = False

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, **kwargs)
        self.entry_told = told

    @property
    def corrects(self) -> uuid.UUID | None:
        """The key of the entry that this one corrects."""
        return self.entry_told.corrects if self.entry_told else None


class EntryForm(ToldForm):
    """A form whose content is a fact: odd values ask once; with a reason they stay, marked."""

    marks: list[Mark]

    def full_clean(self) -> None:
        """Start without marks."""
        self.marks = []
        super().full_clean()

    @property
    def may_ask(self) -> bool:
        """Whether somebody has this form in front."""
        return self.entry_told is None or self.entry_told.asked

    def asks(self, name: str, odd: str, **figures: int | str) -> None:
        """Ask about a value that is `odd` (a code of marks.ODD), or mark that it stays."""
        if self.cleaned_data.get(f"{name}_why") or not self.may_ask:
            self.marks.append({"code": odd, "field": name, "figures": figures})
        else:
            self.add_error(name, f"{odd_words(odd, figures)} {ASKS_AGAIN}")
            self.add_error(f"{name}_why", SAY_WHY)


def answers_of(field: forms.ChoiceField) -> list[tuple[str, str]]:
    """The answers of a field, code and words."""
    return [(str(code), str(words)) for code, words in field.widget.choices]


def is_dash(told: str) -> bool:
    """Whether all that was typed is one dash, of whichever length the keyboard makes."""
    return len(told) == 1 and told in DASHES


class OnJob(EntryForm):
    """A form about a job that is here already, filled as far as something is known."""

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        job_key: uuid.UUID | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        self.job_key = told.job_key if told else job_key
        self.emptied: set[str] = set()
        for name in self.MAY_WAIT:
            self.fields[name].required = False
        for name in self.MAY_BE_UNKNOWN:
            field = self.fields[name]
            if isinstance(field, forms.ChoiceField):
                field.choices = [*answers_of(field), (DASH, "Not known")]

    def ask_what_was_wrong(self) -> None:
        """Ask for the reason of a correction, where the page asked for it and says so: `why_asked`.

        What was changed on a tablet before it was sent corrects without a word: no page asked.
        """
        if (
            self.may_ask
            and self.corrects
            and self.data.get("why_asked")
            and not self.cleaned_data.get("corrected_why")
        ):
            self.add_error("corrected_why", SAY_WHAT_WAS_WRONG)

    MAY_WAIT: tuple[str, ...] = ()
    # Fields that a dash empties: what stood there was wrong, and what is right nobody knows.
    MAY_BE_UNKNOWN: tuple[str, ...] = ()

    def take_out_dashes(self) -> None:
        """Note which fields say “not known” and leave them empty for those who read them."""
        for name in self.MAY_BE_UNKNOWN:
            told = self.cleaned_data.get(name, "")
            listed = told if isinstance(told, list) else [told]
            if not any(is_dash(one) for one in listed):
                continue
            if len(listed) > 1:
                self.add_error(name, NOT_KNOWN_ASKED)
                continue
            self.emptied.add(name)
            self.cleaned_data[name] = [] if isinstance(told, list) else ""

    def known(self, values: dict[str, Any], named: dict[str, str]) -> dict[str, Any]:
        """A row's values, NOT_KNOWN where a dash emptied them. `named`: {column: another field}."""
        return {
            column: NOT_KNOWN if named.get(column, column) in self.emptied else value
            for column, value in values.items()
        }

    def clean(self) -> dict[str, Any]:
        """The job must be here before what is said of it."""
        self.take_out_dashes()
        said = super().clean() or {}
        if not self.job_key or not Job.objects.filter(key=self.job_key).exists():
            self.add_error(None, NO_SUCH_JOB)
        return said
