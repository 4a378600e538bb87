"""The entry kinds of this room."""

from typing import Any, cast

from django import forms

from diagnostics.actions.issue import freeze, set_paper
from diagnostics.actions.step import record_step
from diagnostics.forms.issue import IssueForm
from diagnostics.forms.other_page import ENTRY_VERSION
from diagnostics.forms.step import StepForm
from jobs.logbook import Apply, EntryKind, Told
from jobs.models import Entry
from jobs.models.people import OWNER, TECHNICIAN


def apply_issue(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """An issue of the record, set and frozen in one go."""
    asked = cast("IssueForm", form).asked()
    return freeze(entry, asked, set_paper(entry, asked))


def set_ahead(form: forms.Form, told: Told) -> Apply:
    """The same with the paper set now and frozen later."""
    asked = cast("IssueForm", form).asked()
    paper = set_paper(told, asked)
    return lambda entry, _form: freeze(entry, asked, paper)


def apply_step(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A test made, or why it could not be."""
    return record_step(entry, cast("StepForm", form).told())


# A technician needs what the job's tests needed (record/qualified.py); the action refuses others.
# An issue freezes what its issuer looked at, so it is made on its page and never sent later.
ISSUE = EntryKind(
    "issue",
    1,
    IssueForm,
    apply_issue,
    frozenset({OWNER, TECHNICIAN}),
    fact=False,
    online=True,
    ahead=set_ahead,
)
STEP = EntryKind(
    "step", ENTRY_VERSION, StepForm, apply_step, frozenset({TECHNICIAN, OWNER}), fact=True
)

ENTRIES: dict[str, EntryKind] = {kind.name: kind for kind in (STEP, ISSUE)}
