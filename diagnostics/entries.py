"""The entry kinds of this room."""

from typing import Any, cast

from django import forms

from diagnostics.actions.close import close_job
from diagnostics.actions.decision import record_decision
from diagnostics.actions.issue import freeze, set_paper
from diagnostics.actions.options import record_prices
from diagnostics.actions.points import override, waive
from diagnostics.actions.stage import move_job
from diagnostics.actions.step import record_step
from diagnostics.actions.verified import record_verified
from diagnostics.forms.close import CloseForm
from diagnostics.forms.decision import DecisionForm
from diagnostics.forms.issue import IssueForm
from diagnostics.forms.options import OptionsForm
from diagnostics.forms.other_page import ENTRY_VERSION
from diagnostics.forms.points import OverrideForm, WaiveForm
from diagnostics.forms.stage import StageForm
from diagnostics.forms.step import StepForm
from diagnostics.forms.verified import VerifiedForm
from diagnostics.options_now import options_now
from jobs.actions.job import job_with
from jobs.logbook import Apply, EntryKind, Told
from jobs.models import Entry
from jobs.models.people import BAY, OWNER, ROLES


def apply_issue(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """An issue of the record, set and frozen in one go."""
    asked = cast("IssueForm", form).asked()
    return freeze(entry, asked, set_paper(entry, asked))


def set_ahead(form: forms.Form, told: Told) -> Apply:
    """The same with the paper set now and frozen later."""
    asked = cast("IssueForm", form).asked()
    paper = set_paper(told, asked)
    return lambda entry, _form: freeze(entry, asked, paper)


def apply_stage(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A job moved to another stage."""
    return move_job(entry, cast("StageForm", form).moved())


def apply_close(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A job closed."""
    return close_job(entry, cast("CloseForm", form).closed())


def apply_waive(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """An open point waived."""
    return waive(entry, *(form.cleaned_data[name] for name in ("code", "about", "reason")))


def apply_override(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A job that may go against an order."""
    return override(entry, form.cleaned_data["order"], form.cleaned_data["reason"])


def apply_step(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A test made, or why it could not be."""
    return record_step(entry, cast("StepForm", form).told())


def apply_prices(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Hours, prices and terms of one job."""
    return record_prices(entry, cast("OptionsForm", form).told())


def weighed_ahead(_form: forms.Form, told: Told) -> Apply:
    """The same once the ways are worked out, which takes long: within the lock they are there."""
    options_now(job_with(told.job_key))
    return apply_decision


def apply_decision(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Which way to repair was chosen."""
    return record_decision(entry, cast("DecisionForm", form).decided())


def apply_verified(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Caps and service label, as seen after the work."""
    return record_verified(entry, cast("VerifiedForm", form).told())


# A technician needs what the job's tests needed (record/qualified.py); the action refuses others.
# An issue freezes what its issuer looked at, so it is made on its page and never sent later.
ISSUE = EntryKind(
    "issue",
    1,
    IssueForm,
    apply_issue,
    BAY,
    fact=False,
    online=True,
    ahead=set_ahead,
)
STEP = EntryKind("step", ENTRY_VERSION, StepForm, apply_step, BAY, fact=True, alike=("test_kind",))
# Facts: a price that was read, a word that was given. What a choice does not rest on is said beside
# it and refuses nothing.
PRICES_TYPED = EntryKind("prices_typed", 1, OptionsForm, apply_prices, frozenset(ROLES), fact=True)
DECISION = EntryKind(
    "decision",
    1,
    DecisionForm,
    apply_decision,
    frozenset(ROLES),
    fact=True,
    ahead=weighed_ahead,
)
VERIFIED = EntryKind("verified", 1, VerifiedForm, apply_verified, BAY, fact=True)

# Decisions: refused where what they rest on was replaced, or what they say were not true.
STAGE = EntryKind("stage", 1, StageForm, apply_stage, frozenset(ROLES), fact=False)
CLOSE = EntryKind("close", 1, CloseForm, apply_close, frozenset(ROLES), fact=False)
# An owner's word against an order or a point is given while looking at it.
WAIVE = EntryKind("waive", 1, WaiveForm, apply_waive, frozenset({OWNER}), fact=False, online=True)
OVERRIDE = EntryKind(
    "override", 1, OverrideForm, apply_override, frozenset({OWNER}), fact=False, online=True
)

ENTRIES: dict[str, EntryKind] = {
    kind.name: kind
    for kind in (STEP, ISSUE, PRICES_TYPED, DECISION, VERIFIED, STAGE, CLOSE, WAIVE, OVERRIDE)
}
