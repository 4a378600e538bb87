"""The part of a step's form that names what it was read with."""

from typing import Any

from django import template
from django.utils import timezone

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.read_with import quantities_of
from diagnostics.forms.read_with import NOT_NAMED, WITH
from diagnostics.forms.step import StepForm
from diagnostics.physics.quantities import QUANTITIES
from jobs.models import Equipment
from jobs.models.equipment import beside, in_use
from jobs.views.tablet import this_tablet

register = template.Library()
IN_SIGHT = 3  # of those that do not lie beside the tablet; the others stand behind one touch


@register.inclusion_tag("diagnostics/_step_instruments.html", takes_context=True)
def step_instruments(context: dict[str, Any], kind: Kind, form: StepForm) -> dict[str, Any]:
    """One question for each quantity that the kind reads; none where nothing of the list does.

    On the page that a tablet keeps they stand as they were when it was kept, minutes ago at most
    while the shop server answers.
    """
    asked = quantities_of(kind)
    things = in_use(timezone.localdate()) if asked else []
    request = context.get("request")
    mine = beside(this_tablet(request), things) if things and request else []
    groups = [group(name, things, mine, form) for name in asked]
    return {"groups": [one for one in groups if one["options"]], "none": NOT_NAMED}


def group(
    quantity: str, things: list[Equipment], mine: list[Equipment], form: StepForm
) -> dict[str, Any]:
    """What reads one quantity, those beside the tablet first, and which of it is tapped."""
    reads = [one for one in things if quantity in one.reads]
    near = [one for one in mine if one in reads]
    listed = [*near, *(one for one in reads if one not in near)]
    name = f"{WITH}{quantity}"
    told = form.begun_with(name)
    preset = near[0].key.hex if near and not form.begun else NOT_NAMED
    tapped = told or preset
    options = [option(one, quantity, tapped) for one in listed]
    sight = max(IN_SIGHT, len(near))
    behind = [one for one in options[sight:] if not one["tapped"]]
    return {
        "name": name,
        "words": QUANTITIES[quantity].used_words,
        "options": [one for one in options if one not in behind],
        "behind": behind,
        "not_named": tapped == NOT_NAMED,
    }


def option(thing: Equipment, quantity: str, tapped: str) -> dict[str, Any]:
    """One instrument as it is tapped."""
    today = timezone.localdate()
    return {
        "value": thing.key.hex,  # a page kept on a tablet loses what looks like a form's key
        "name": thing.name,
        "accuracy": thing.accuracy_of(quantity),
        "check": thing.due_words(today),
        "over": bool(thing.overdue_on(today)),
        "tapped": tapped.replace("-", "") == thing.key.hex,
    }
