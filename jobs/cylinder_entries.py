"""The entry kinds of the refrigerant book: cylinders, and work on them outside a job.

All are made on pages of the shop server: what a book says has to be seen before it is told.
"""

from typing import Any, cast

from django import forms
from django.urls import reverse

from jobs.actions.cylinders import tell_of, work_on
from jobs.forms.cylinder_works import (
    GoneForm,
    PurchaseForm,
    ReclaimForm,
    TransferForm,
    WorkForm,
)
from jobs.forms.cylinders import CylinderForm
from jobs.forms.weighing import WeighingForm
from jobs.logbook import EntryForm, EntryKind
from jobs.models import Entry
from jobs.models.people import BAY


def apply_cylinder(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A cylinder, new or as it is now."""
    told = cast("CylinderForm", form)
    row = tell_of(entry, told.cleaned_data["cylinder"], told.columns())
    entry.marks = [*entry.marks, *told.marks]
    return {"url": f"{reverse('cylinders')}?cylinder={row.key}"}


def apply_work(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Work on a cylinder, and what it moves."""
    row = work_on(entry, cast("WorkForm", form).worked())
    return {"url": f"{reverse('cylinders')}?cylinder={row.cylinder.key}&told={entry.key}"}


def work_kind(name: str, form: EntryForm) -> EntryKind:
    """The kind of one sort of work."""
    return EntryKind(name, 1, form, apply_work, BAY, fact=True, online=True)


CYLINDER = EntryKind("cylinder", 1, CylinderForm, apply_cylinder, BAY, fact=True, online=True)
PURCHASE = work_kind("purchase", PurchaseForm)
WEIGHING = work_kind("weighing", WeighingForm)
TRANSFER = work_kind("transfer", TransferForm)
RECLAIM = work_kind("reclaim", ReclaimForm)
CYLINDER_GONE = work_kind("cylinder_gone", GoneForm)
CYLINDER_ENTRIES = (CYLINDER, PURCHASE, WEIGHING, TRANSFER, RECLAIM, CYLINDER_GONE)
