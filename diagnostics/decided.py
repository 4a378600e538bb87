"""What was decided on a job, in words; it is no consent and no estimate."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import QuerySet

from diagnostics.models import Decision
from jobs.models import Change, Job
from jobs.models.changes import NO_REPAIR, standing
from jobs.models.corrected import by_whom
from jobs.models.estimates import in_force
from jobs.models.wordings import CONSENT_WAYS, words

OTHER_WAY = "other"
NOTHING = "nothing"
OTHER_WORDS = "Something else than was offered"
DECIDERS = {
    "customer": "The customer",
    "payer": "Who pays for it",
    "technician": "The technician",
    "owner": "The owner of the shop",
}
REASONS = {
    "shown": "It is what the tests show",
    "price": "It costs least today",
    "once": "Wants it done once",
    "keeps_short": "Gives up the car soon",
    "keeps_long": "Keeps the car for long",
    "part": "Parts can be had",
    "soon": "Car is needed soon",
    "payer": "Who pays asks for it",
}
NO_TOTAL = "no total: prices were missing"
NO_DECISION = (
    "Repair began and no decision is noted: which way was chosen, by whom, and what was set aside."
)
OTHER_DECISION = "{} has the lines of a decision that is not the last one: write it anew"


def decisions_of(job: Job) -> QuerySet[Decision]:
    """All that was decided on a job, each with its entry and who told it."""
    return job.decisions.select_related("entry__author", "superseded_by", "supersedes")


def in_time(rows: Iterable[Decision]) -> list[Decision]:
    """Those that stand, the last to happen last."""
    stand = [one for one in rows if not one.superseded_by_id]
    return sorted(stand, key=lambda one: (one.entry.done_at, one.entry.happened_at, one.entry_id))


def last_of(rows: Iterable[Decision]) -> Decision | None:
    """The one that counts: the last to happen."""
    standing_now = in_time(rows)
    return standing_now[-1] if standing_now else None


def who_and_when(one: Decision) -> str:
    """Decided by the customer, by phone; noted by R. Sand, 30 Nov 2026, 14:10."""
    by = words(DECIDERS, one.decided_by)
    how = f", {words(CONSENT_WAYS, one.told_how).lower()}" if one.told_how else ""
    noted = f"noted {'' if one.entry.put_right_at else 'by '}{by_whom(one.entry)}"
    return f"Decided by {by[:1].lower()}{by[1:]}{how}; {noted}."


def reason_words(one: Decision) -> str:
    """Why, in one line; empty: nobody said."""
    tapped = [words(REASONS, code) for code in one.reasons]
    return ". ".join(text.rstrip(".") for text in (*tapped, one.why) if text)


@dataclass(frozen=True)
class SetAside:
    """One way that was offered and not chosen, with what it cost then."""

    words: str
    cost: str


def set_aside(one: Decision) -> list[SetAside]:
    """What was offered beside the one that was chosen."""
    return [
        SetAside(row["words"], row["shown"] or NO_TOTAL) for row in one.offered if not row["chosen"]
    ]


def was_open(one: Decision) -> list[str]:
    """What the way that was chosen did not rest on when it was chosen, in sentences."""
    row = next((row for row in one.offered if row["chosen"]), None)
    return [text for text in (row["warning"], *row["unshown"]) if text] if row else []


def is_to_be_done(one: Decision, changes: Iterable[Change]) -> bool:
    """Whether what was decided asks for work, and none is noted since."""
    since = (change for change in changes if change.entry.done_at >= one.entry.done_at)
    return one.plan != NOTHING and not any(change.what not in NO_REPAIR for change in since)


def other_than_estimated(job: Job) -> str:
    """That the estimate in force is of a decision that another took the place of; empty: it is not.

    Its job came with its estimates and decisions.
    """
    estimate = in_force(job.estimates.all())
    if estimate is None or estimate.decision is None:
        return ""
    last = last_of(job.decisions.all())
    return OTHER_DECISION.format(estimate.words) if last and last.key != estimate.decision else ""


def lacks_decision(job: Job) -> bool:
    """Whether the car was repaired and nobody noted what was decided."""
    if job.stage in ("intake", "testing", "deciding"):
        return False
    begun = any(change.what not in NO_REPAIR for change in standing(job.changes.all()))
    return begun and not any(not one.superseded_by_id for one in job.decisions.all())
