"""Writing a consent: who agreed to which text, how, when, up to how much; and which one counts."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from jobs.actions.corrections import link
from jobs.actions.old_part import keep_choice
from jobs.logbook import Refused
from jobs.models import Consent, Entry, Estimate, Job, Named
from jobs.models.agreed_texts import (
    WORK_NOW,
    Sums,
    last_line,
    role_words,
    shown_text,
    unseen_text,
    what_in_words,
    what_of_estimate,
)
from jobs.models.consents import FIND_FAULT, NOT_REACHED, YES, agreed_before, in_force
from jobs.models.corrected import entries_in_order
from jobs.models.wordings import in_shop_time, text_hash
from jobs.told import Agreed

REPLACED = "{new} replaced {old}, {at}. Ask again with {new}."


def consent_told(entry: Entry, job: Job, told: Agreed) -> None:
    """Keep what came of asking somebody, and what they chose of the old parts.

    A consent to a version that a later one had replaced when it was given is refused: nobody may be
    held to a price that was not the shop's any more. One given before that, by the times at which
    both happened, is a fact however late it arrives: it is kept and counts up to its amount, and
    the newer version stays an open point until it has a consent of its own. So is one that corrects
    how such a consent was noted: it happened when it was first told. So are a refusal and a try
    that reached nobody: they bind nobody, and are kept whatever they were about.

    Raises:
        Refused: somebody agreed to a version that had been replaced.

    """
    estimate = estimate_of(job, told)
    if estimate and told.outcome in YES:
        refuse_old(estimate, given_at(job, entry))
    entry.marks = [*entry.marks, *told.marks]
    give_consent(job, entry, told)
    if told.chosen:
        keep_choice(job, entry, told.chosen, told.how)


def estimate_of(job: Job, told: Agreed) -> Estimate | None:
    """The version that it is about; its form looked for it."""
    return job.estimates.get(key=told.estimate) if told.estimate else None


def given_at(job: Job, entry: Entry) -> datetime:
    """When it was given: a correction tells of what happened when the corrected was first told."""
    corrected = job.consents.filter(entry__key=entry.corrects).first() if entry.corrects else None
    return corrected.given_at if corrected else entry.happened_at


def refuse_old(estimate: Estimate, at: datetime) -> None:
    """Turn a consent away where a later version was there when it was given.

    Raises:
        Refused: one was.

    """
    later = Estimate.objects.filter(job=estimate.job_id, number__gt=estimate.number)
    there = later.filter(entry__happened_at__lte=at).select_related("entry")
    newest = there.order_by("number").last()
    if newest:
        since = in_shop_time(newest.entry.happened_at)
        raise Refused(REPLACED.format(new=newest.words, old=estimate.words, at=since))


def give_consent(job: Job, entry: Entry, told: Agreed | None) -> None:
    """Keep a consent with its exact text and the text's hash, and let one that it corrects go.

    What repeats the consent that it corrects word for word is not a second one. A corrected intake
    that tells of none takes the consent of the one before back.
    """
    around = ("entry", "superseded_by", "withdrawn_by")
    kept = {one.entry.key: one for one in job.consents.select_related(*around)}
    corrected = kept.get(entry.corrects) if entry.corrects else None
    if told and not (corrected and same(corrected, told)):
        others = [one for one in kept.values() if one != corrected]
        kept[entry.key] = keep(job, entry, told, len(kept) + 1, others)
    if kept:
        told_of = Entry.objects.filter(job_key=job.key, kind=entry.kind)
        let_go(entries_in_order(told_of, entry), kept)


def same(one: Consent, told: Agreed) -> bool:
    """Whether the very same was agreed to find the fault; any other is a row of its own."""
    given = (one.about, one.outcome, one.amount, one.currency, one.given_by, one.how, one.text)
    again = (FIND_FAULT, told.outcome, told.amount, told.currency, told.given_by, told.how)
    return given == (*again, told.text)


def keep(job: Job, entry: Entry, told: Agreed, number: int, others: Sequence[Consent]) -> Consent:
    """The row of a consent; `others` are those of the job that it does not correct."""
    estimate = estimate_of(job, told)
    named = job.named.filter(key=told.named).first() if told.named else None
    moment = given_at(job, entry)
    last = in_force(one for one in others if one.given_at <= moment)
    stood = agreed_before(last, told.currency)
    if told.before not in (None, stood):
        entry.marks = [*entry.marks, {"code": "agreed_meanwhile"}]
    money = amounts(told, estimate, stood)
    text = told.text
    if told.about != FIND_FAULT:
        what = what_of_estimate(estimate, job.number) if estimate else what_in_words(told.work)
        sums = Sums(money["before"], money["added"], money["amount"], told.currency)
        lines = shown_text(what, sums, told.wording or WORK_NOW)
        if told.outcome == NOT_REACHED:
            lines = unseen_text(what, sums)
        text = f"{lines}\n{how_it_came(told, moment, named)}"
    return Consent.objects.create(
        job=job,
        number=number,
        entry=entry,
        about=told.about,
        outcome=told.outcome,
        estimate=estimate,
        work=told.work,
        currency=told.currency,
        given_by=told.given_by,
        giver=told.giver,
        named=named,
        how=told.how,
        number_called=told.number_called,
        tries=[one.isoformat() for one in told.tries],
        strokes=[list(stroke) for stroke in told.strokes],
        signed_name=told.signed_name,
        text=text,
        text_sha256=text_hash(text),
        given_at=moment,
        **money,
    )


def how_it_came(told: Agreed, at: datetime, named: Named | None) -> str:
    """The end of the text: who by role, how, when."""
    who = role_words(told.giver, named.speaks_for if named else "")
    return last_line(told.outcome, who, told.how, at, told.tries)


def amounts(told: Agreed, estimate: Estimate | None, stood: int | None) -> dict[str, Any]:
    """Revised total, added cost and what was agreed before.

    The page says what it showed as agreed before; where it showed nothing, an estimate is held
    against what `stood` then, in the smallest unit. None: it stood in another currency, and nobody
    knows what that is in this one.
    """
    if told.about == FIND_FAULT:
        return {"amount": told.amount, "added": told.added, "before": None}
    before = stood if (told.before is None and estimate) or stood is None else told.before
    amount = estimate.total if estimate else told.amount
    added = told.added
    if added is None and amount is not None and before is not None:
        added = amount - before
    return {"amount": amount, "added": added, "before": before}


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
    """Whether a consent was told in an entry; an intake may tell of none."""
    told = entry.fields.get("consent_amount", ())
    return entry.kind == "consent" or any(text.strip() for text in told)
