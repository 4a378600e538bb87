"""What the form pack (templates/crispy) asks about a field."""

from django import forms, template
from django.forms.boundfield import BoundField

from jobs.models import said

register = template.Library()
WHY = "_why"


@register.filter
def why(field: BoundField) -> BoundField | None:
    """The field that takes the reason why an odd value stays: `<name>_why`, if the form has one."""
    name = f"{field.name}{WHY}"
    return field.form[name] if name in field.form.fields else None


@register.inclusion_tag("jobs/_field_of.html")
def field_of(form: forms.Form, letter: str, row: int) -> dict[str, BoundField]:
    """One of a row of alike fields, named by a letter and the row's number, with its unit."""
    return {"field": form[f"{letter}{row}"], "unit": form[f"{letter}{row}_unit"]}


@register.filter
def is_why(field: BoundField) -> bool:
    """Whether a field is such a reason: it is drawn inside the field it speaks of."""
    return field.name.endswith(WHY) and field.name.removesuffix(WHY) in field.form.fields


@register.filter
def shape(field: BoundField) -> str:
    """How a field is drawn: hidden, choices, tick or line."""
    widget = field.field.widget
    if widget.is_hidden:
        return "hidden"
    if isinstance(widget, forms.RadioSelect | forms.CheckboxSelectMultiple):
        return "choices"
    return "tick" if isinstance(widget, forms.CheckboxInput) else "line"


@register.filter
def width(field: BoundField) -> str:
    """The class for choices with long words: "", wide, widest (over 6 and over 10 letters)."""
    longest = max(
        (len(word) for answer in field for word in str(answer.choice_label).split()), default=0
    )
    return "widest" if longest > 10 else "wide" if longest > 6 else ""


@register.filter
def described_by(field: BoundField) -> str:
    """The ids of hint, unit and problem: read aloud after the field's name."""
    ids = [f"{field.auto_id}_helptext"] if field.help_text else []
    if getattr(field.field, "unit", ""):
        ids.append(f"{field.auto_id}_unit")
    return " ".join([*ids, f"{field.auto_id}_error"])


@register.filter
def to_mend(form: forms.Form) -> list[BoundField]:
    """The fields with a problem, in the page's order; a reason asked for counts with its field."""
    return [field for field in form if field.errors and not is_why(field)]


@register.filter
def retyped(form: forms.Form) -> bool:
    """Whether the form asks for a PIN or password: a browser gets those back empty."""
    return any(isinstance(field.widget, forms.PasswordInput) for field in form.fields.values())


# What a question that fills no column of its name is about.
SHORT = {
    "consent_amount": "amount agreed to",
    "consent_how": "how the consent was given",
    "consent_about": "what the consent is about",
    "consent_outcome": "what came of it",
    "consent_who": "who was asked",
    "work": "which work it is",
    "old_parts": "what becomes of the old parts",
    "choice": "what becomes of the old parts",
    "coil": "clutch coil",
    "coil_source": "where the coil’s figure was read",
    "gap_low": "smallest air gap",
    "gap_high": "largest air gap",
    "gap_unit": "unit of the air gap",
    "gap_source": "where the gap’s limits were read",
    "unit": "what the price is for",
    "why": "why it goes back",
}


@register.filter
def short(field: BoundField) -> str:
    """The field's short name where its label is a whole question; else empty."""
    name = SHORT.get(field.name) or said.in_a_line(said.SAID.get(field.name, ""))
    return "" if name == said.in_a_line(str(field.label)) else name


@register.filter
def in_a_line(field: BoundField) -> str:
    """A field's name inside a sentence."""
    return short(field) or said.in_a_line(str(field.label))
