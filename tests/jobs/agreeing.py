"""Jobs with estimates, and consents to them, as a test tells them."""

import json
import uuid
from datetime import datetime, timedelta
from typing import Any

from django.utils import timezone

from jobs.entries import CONSENT
from jobs.logbook import Outcome, enter
from jobs.models import Consent, Entry, Estimate, Job
from jobs.models.consents import in_force
from tests.factories import make_job, make_person, make_told

# A hand across the field, in two strokes.
DRAWN = json.dumps([[100, 150, 300, 90, 500, 200], [520, 120, 800, 180]])
DOT = json.dumps([[500, 150, 510, 152]])


def ago(minutes: float) -> datetime:
    return timezone.now() - timedelta(minutes=minutes)


def came_in(**fields: Any) -> Job:
    """A car that was taken in two hours ago, with consent no. 1 to 150."""
    job = make_job(**fields)
    job.consents.update(given_at=ago(120))
    return job


def make_estimate(job: Job, total: int | None = 56000, at: datetime | None = None) -> Estimate:
    """The next version, written at that time; it supersedes the one before."""
    moment = at or ago(30)
    entry = Entry.objects.create(
        key=uuid.uuid4(),
        kind="estimate",
        version=1,
        job_key=job.key,
        fields={},
        fingerprint="0" * 64,
        author=make_person(),
        typed_at=moment,
        arrived_at=moment,
        happened_at=moment,
        done_at=moment,
        result={},
    )
    before = job.estimates.order_by("number").last()
    tax, rest = (None, None) if total is None else (total // 10, total - total // 10)
    line = {
        "words": "Clutch, complete, new",
        "quantity": "1",
        "unit": "piece",
        "minutes": None,
        "much": None,
        "price": rest,
        "per": "piece",
        "source": "",
        "taxed": "parts",
        "amount": rest,
    }
    made = Estimate.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        number=before.number + 1 if before else 1,
        currency="EUR",
        lines=[{"code": "part_clutch", "sort": "part", **line}],
        taxes=[] if tax is None else [taxed(rest or 0, tax)],
        tax_rounding="total",
        tax_halves="up",
        subtotal=rest,
        tax=tax,
        total=total,
    )
    if before:
        before.superseded_by = made
        before.save(update_fields=["superseded_by"])
    return made


def taxed(base: int, tax: int) -> dict[str, Any]:
    """A sales tax on parts as a version keeps it."""
    name = {"name": "Sales tax", "millionths": 111_111, "on": ["parts"]}
    return {**name, "base": base, "amount": tax}


def ask(job: Job, about: Any, at: Any = None, corrects: Any = None, **fields: Any) -> Outcome:
    """Somebody is asked to agree to an estimate, or to what `about` says."""
    told = {
        "consent_about": str(about.key) if isinstance(about, Estimate) else about,
        "consent_outcome": "agreed",
        "consent_how": "phone",
        "consent_who": "customer",
        "number_called": "555 010 0199",
        "consent_asked": "1",
        **fields,
    }
    kept = {name: text for name, text in told.items() if text is not None}
    return enter(CONSENT, make_told(kept, job_key=job.key, happened_at=at, corrects=corrects))


def last() -> Consent:
    return Consent.objects.latest("number")


def holding(job: Job) -> Consent:
    """The one in force; there is one."""
    one = in_force(job.consents.all())
    if one is None:
        raise AssertionError("nothing is agreed")
    return one


def wrong(outcome: Outcome, name: str) -> str:
    """The sentence at a field of a form that came back."""
    if outcome.form is None:
        raise AssertionError(f"the form did not come back: {outcome.state}")
    return " ".join(map(str, outcome.form.errors.get(name, [])))
