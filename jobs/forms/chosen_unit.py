"""A number asked in the unit that the shop chose, and sent with the unit that its page showed.

A page that a tablet kept may show the unit chosen before: what was typed under it is meant in it.
"""

from django import forms

from diagnostics.physics.shown_units import ShownIn
from jobs.forms.fields import Typed


def ask_in_chosen(form: forms.Form, name: str, units: tuple[str, ...], chosen: ShownIn) -> None:
    """Show the field `name` in one of its units, the usual one first, and send which one."""
    sent = form.data.get(f"{name}_unit") if form.is_bound else None
    unit = sent if sent in units else chosen.start(units)
    field = form.fields[name]
    if not isinstance(field, Typed):
        raise TypeError(f"{name} is no number")
    field.unit = unit
    others = [one for one in units if one != unit]
    hint = chosen.sentence(str(field.help_text))
    also = f"{' or '.join(others)} behind it, too." if others else ""
    field.help_text = f"{hint} {also}".strip()
    # The unit that is shown beside the number has the id of this name.
    hidden = forms.HiddenInput({"id": f"id_{name}_unit_told"})
    form.fields[f"{name}_unit"] = forms.CharField(
        required=False, max_length=10, widget=hidden, initial=unit
    )


def unit_asked(form: forms.Form, name: str, units: tuple[str, ...]) -> str:
    """The unit a bare number is in; a page that sent none asked in the usual one."""
    sent = form.cleaned_data.get(f"{name}_unit")
    return sent if sent in units else units[0]
