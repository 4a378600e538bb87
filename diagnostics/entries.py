"""The entry kinds of this room."""

from typing import Any, cast

from django import forms

from diagnostics.actions.issue import freeze
from diagnostics.forms.issue import IssueForm
from jobs.logbook import EntryKind
from jobs.models import Entry
from jobs.models.people import OWNER, TECHNICIAN


def apply_issue(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """An issue of the record, frozen."""
    return freeze(entry, cast("IssueForm", form).asked())


# A technician needs the qualification that a job's refrigerant moves need; no move can be entered
# yet.
ISSUE = EntryKind("issue", 1, IssueForm, apply_issue, frozenset({OWNER, TECHNICIAN}), fact=False)

ENTRIES: dict[str, EntryKind] = {kind.name: kind for kind in (ISSUE,)}
