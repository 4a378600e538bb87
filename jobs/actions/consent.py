"""Writing a consent: who agreed to which text, how, when, up to how much; and which one counts."""

from collections.abc import Sequence
from uuid import UUID

from jobs.actions.corrections import entries_in_order, link
from jobs.models import Consent, Entry, Job
from jobs.models.wordings import text_hash
from jobs.told import Agreed


def give_consent(job: Job, entry: Entry, told: Agreed | None) -> None:
    """Keep a consent with its exact text and the text's hash, and let one that it corrects go.

    What repeats the consent that it corrects word for word is not a second one. A corrected intake
    that tells of none takes the consent of the one before back.
    """
    around = ("entry", "superseded_by", "withdrawn_by")
    kept = {one.entry.key: one for one in job.consents.select_related(*around)}
    corrected = kept.get(entry.corrects) if entry.corrects else None
    if told and not (corrected and same(corrected, told)):
        kept[entry.key] = keep(job, entry, told, len(kept) + 1)
    if kept:
        told_of = Entry.objects.filter(job_key=job.key, kind=entry.kind)
        let_go(entries_in_order(told_of, entry), kept)


def same(one: Consent, told: Agreed) -> bool:
    """Whether the very same was agreed."""
    given = (one.amount, one.currency, one.given_by, one.how, one.text)
    return given == (told.amount, told.currency, told.given_by, told.how, told.text)


def keep(job: Job, entry: Entry, told: Agreed, number: int) -> Consent:
    """The row of a consent."""
    return Consent.objects.create(
        job=job,
        number=number,
        entry=entry,
        amount=told.amount,
        currency=told.currency,
        given_by=told.given_by,
        how=told.how,
        text=told.text,
        text_sha256=text_hash(told.text),
        given_at=entry.happened_at,
    )


def let_go(family: Sequence[Entry], kept: dict[UUID, Consent]) -> None:
    """Of entries that correct one another, let the consent of the last count, and no other.

    `kept` are the job's consents by their entry's key.
    """
    rows: list[Consent] = []
    for entry in family:
        row = consent_of(entry, kept)
        if row:  # what is told once more stands where it was told last
            rows = [*(one for one in rows if one.pk != row.pk), row]
    link(rows)
    last = family[-1]
    for row in rows:
        gone = last if row is rows[-1] and not tells(last) else None
        if row.withdrawn_by != gone:
            row.withdrawn_by = gone
            row.save(update_fields=["withdrawn_by"])


def consent_of(entry: Entry, kept: dict[UUID, Consent]) -> Consent | None:
    """The consent that an entry tells of; without a row of its own it is the one it corrects."""
    if not tells(entry):
        return None
    return kept.get(entry.key) or (kept.get(entry.corrects) if entry.corrects else None)


def tells(entry: Entry) -> bool:
    """Whether a consent was told in an entry."""
    return any(text.strip() for text in entry.fields.get("consent_amount", ()))
