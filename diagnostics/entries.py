"""The entry kinds of this room."""

from typing import Any, cast

from django import forms

from diagnostics.actions.issue import freeze
from diagnostics.actions.step import record_step
from diagnostics.forms.issue import IssueForm
from diagnostics.forms.other_page import ENTRY_VERSION
from diagnostics.forms.step import StepForm
from jobs.logbook import EntryKind
from jobs.models import Entry
from jobs.models.people import OWNER, TECHNICIAN


def apply_issue(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """An issue of the record, frozen."""
    return freeze(entry, cast("IssueForm", form).asked())


def apply_step(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A test made, or why it could not be."""
    return record_step(entry, cast("StepForm", form).told())


# A technician needs the qualification that a job's refrigerant moves need; no move can be entered
# yet.
# An issue freezes what its issuer looked at, so it is made on its page and never sent later.
ISSUE = EntryKind(
    "issue", 1, IssueForm, apply_issue, frozenset({OWNER, TECHNICIAN}), fact=False, online=True
)
STEP = EntryKind(
    "step", ENTRY_VERSION, StepForm, apply_step, frozenset({TECHNICIAN, OWNER}), fact=True
)

ENTRIES: dict[str, EntryKind] = {kind.name: kind for kind in (STEP, ISSUE)}
