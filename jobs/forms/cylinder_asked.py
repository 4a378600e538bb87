"""Limits of cylinders in a form: asked while it can be done otherwise, booked when it is done.

A form that moves refrigerant has a field `is_done`. What came late is done anyway, and nobody
stands there to be asked: it is booked, and what is wrong with it is a mark.
"""

from collections.abc import Iterable

from django.utils import timezone

from jobs.cylinder_limits import Limit
from jobs.forms.fields import EntryForm, Tap
from jobs.forms.when import happened
from jobs.logbook import Told
from jobs.models.entries import LATE

DONE = "done"
NOT_DONE_YET = "Not done yet? Then choose otherwise. Done already? Tap that below: it is booked."
TAP_DONE = "Tap it if it is done already. What is wrong with it stays an open point."


class IsDone(Tap):
    """Whether what a limit speaks against is done already: named `is_done`."""

    def __init__(self) -> None:
        super().__init__("Is it done already?", {DONE: "It is done: book it as it is"})


def ask_limits(form: EntryForm, name: str, limits: Iterable[Limit], unit: str = "g") -> None:
    """Ask about a cylinder told in the field `name`, or mark what is wrong with a move done."""
    listed = list(limits)
    if not listed:
        return
    late = form.entry_told and is_late(form.entry_told)
    if form.cleaned_data.get("is_done") == DONE or late or not form.may_ask:
        for one in listed:
            figures = {**one.figures, "unit": unit}
            form.marks.append({"code": one.code, "field": name, "figures": figures})
        return
    form.add_error(name, [*(one.sentence(unit) for one in listed), NOT_DONE_YET])
    form.add_error("is_done", TAP_DONE)


def is_late(told: Told) -> bool:
    """Whether it happened so long ago that whoever did it is past being asked."""
    return timezone.now() - happened(told) > LATE
