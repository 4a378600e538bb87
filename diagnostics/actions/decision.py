"""Writing a decision with all it rested on as it came, words and prices frozen."""

from typing import Any

from django.urls import reverse

from diagnostics.decided import OTHER_WAY
from diagnostics.evidence.options.repairs import OPTIONS
from diagnostics.models import Decision
from diagnostics.offers_told import OfferTold, offer_frozen, parted, verdict_frozen
from diagnostics.options_now import OptionsNow, options_now
from diagnostics.told import Decided
from jobs.actions.corrections import in_order, link
from jobs.actions.job import job_of
from jobs.actions.stage import move
from jobs.models import Entry, Job

WORDS_LENGTH = 500


def record_decision(entry: Entry, told: Decided) -> dict[str, Any]:
    """Write the decision; one that corrects another takes its place. It is no consent."""
    job = job_of(entry)
    now = options_now(job)
    row = Decision.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        plan=told.plan,
        words=words_of(told)[:WORDS_LENGTH],
        decided_by=told.decided_by,
        told_how=told.told_how,
        reasons=list(told.reasons),
        why=told.why,
        offered=[offer_frozen(one, chosen=is_chosen(one, told)) for one in offered(now, told)],
        rested_on=verdict_frozen(now.ways.verdict.stands),
        saw=seen_before(entry),
        page_saw=told.page_saw,
        corrected_why=told.corrected_why if entry.corrects else "",
    )
    link(in_order(list(job.decisions.select_related("entry", "superseded_by")), row))
    put_stage(job, entry)
    return {"url": f"{reverse('decision')}?job={job.key}"}


def put_stage(job: Job, entry: Entry) -> None:
    """A job on which something was decided is deciding at least."""
    if job.stage in ("intake", "testing"):
        move(job, entry, "deciding")


def offered(now: OptionsNow, told: Decided) -> list[OfferTold]:
    """The ways that a customer chose from, and the one that was chosen where it is another."""
    main, others, none = parted(now.told)
    return [*main, *(one for one in others if is_chosen(one, told)), *none]


def is_chosen(one: OfferTold, told: Decided) -> bool:
    """Whether this is the way that was chosen, in whatever order its repairs were named."""
    return {*one.offer.code.split("+")} == {*told.plan.split("+")}


def words_of(told: Decided) -> str:
    """What was chosen, in words."""
    if told.plan == OTHER_WAY:
        return told.words
    named = " + ".join(OPTIONS[code].words for code in told.plan.split("+"))
    return f"{named}: {told.words}" if told.words else named


def seen_before(entry: Entry) -> int:
    """The number of entries of the job that came before this one."""
    return Entry.objects.filter(job_key=entry.job_key, pk__lt=entry.pk).count()
