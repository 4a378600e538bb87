"""What is open about what was agreed: not asked, not told whole, by another, beyond it, old parts.

Points go to tablets too, so no sentence here has an amount or a person's name.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from jobs.models.changes import NO_REPAIR, Change, standing
from jobs.models.consents import (
    NAMED,
    NOT_REACHED,
    OTHER,
    REFUSED,
    Consent,
    agreed_to,
    in_time,
    to_work,
)
from jobs.models.estimates import Estimate, in_force
from jobs.models.jobs import Job
from jobs.models.named import FOR_PAYER
from jobs.models.old_parts import NOT_ASKED, is_to_be_asked
from jobs.models.wordings import in_shop_time

OTHER_PAYS = {
    "insurer": "The insurer pays",
    "warranty": "A warranty company pays",
    "fleet": "The fleet pays",
}


class Open(NamedTuple):
    """One point: its code, its sentence, the page where it is settled, what it is about."""

    code: str
    sentence: str
    page: str = "consent"
    about: str = ""


def of_agreed(
    job: Job, consents: Sequence[Consent], changes: Iterable[Change] = ()
) -> Iterator[Open]:
    """All of them; no query of its own where the job came with its rows."""
    yield from to_find_the_fault(consents)
    yield from of_estimate(job.estimates.all(), consents)
    yield from not_whole(consents)
    yield from by_whom(job, consents)
    changed = standing(changes)
    yield from beyond(changed, consents)
    if is_to_be_asked(changed, list(job.old_part_choices.all())):
        yield Open("old_part", NOT_ASKED, "old_part")


def to_find_the_fault(consents: Sequence[Consent]) -> Iterator[Open]:
    """Consent no. 1, or one that took its place."""
    said_yes = [one for one in consents if one.outcome not in (REFUSED, NOT_REACHED)]
    if not said_yes:
        yield Open("consent", "Consent no. 1, to find the fault: not given yet")
    elif not any(one.counts for one in said_yes):
        sentence = "Consent to find the fault: none counts any more"
        yield Open("consent", sentence, about=f"after {said_yes[-1].number}")


def of_estimate(estimates: Iterable[Estimate], consents: Sequence[Consent]) -> Iterator[Open]:
    """The version in force, where nobody said yes or no to it."""
    newest = in_force(estimates)
    if newest is None or not newest.may_be_agreed:
        return
    about = [one for one in in_time(consents) if one.estimate_id == newest.pk]
    if any(one.outcome != NOT_REACHED for one in about):
        return
    sentence = f"{newest.words}: nobody agreed to it yet"
    if about:
        times = sum(len(one.tried) for one in about)
        tried = "once" if times == 1 else f"{times} times"
        sentence += f"; tried {tried}, last {in_shop_time(about[-1].given_at)}"
    yield Open("consent_estimate", sentence, about=str(newest.key))


def not_whole(consents: Iterable[Consent]) -> Iterator[Open]:
    """What of its items nobody noted."""
    for one in consents:
        if one.counts and one.lacks:
            sentence = f"Consent no. {one.number}: {', '.join(one.lacks)}"
            yield Open("consent_how", sentence, about=f"{one.number}")


def by_whom(job: Job, consents: Sequence[Consent]) -> Iterator[Open]:
    """Who said yes without being noted as one who may, and who pays and was not asked."""
    people = list(job.named.all())
    named = {one.name.casefold() for one in people if one.may}
    for one in agreed_to(consents):
        if one.giver == OTHER and one.given_by.casefold() not in named:
            sentence = (
                f"Consent no. {one.number}: given by somebody who is not noted as one who may say"
                " yes"
            )
            yield Open("consent_by_other", sentence, about=f"{one.number}")
    last = next(iter(to_work(consents)[::-1]), None)
    if last and job.payer in OTHER_PAYS:
        speaks = {one.pk for one in people if one.speaks_for == FOR_PAYER}
        if not (last.giver == NAMED and last.named_id in speaks):
            sentence = f"{OTHER_PAYS[job.payer]}: nobody who speaks for them agreed to the work"
            yield Open("consent_payer", sentence, about=f"{last.number}")


def beyond(changes: Iterable[Change], consents: Iterable[Consent]) -> Iterator[Open]:
    """Each change on the car that nobody had agreed to when it was made."""
    agreed = to_work(consents)
    for change in changes:
        if change.what in NO_REPAIR:
            continue
        made = change.entry.done_at
        if not any(one.given_at <= made for one in agreed):
            since = f"; agreed to later, {in_shop_time(agreed[0].given_at)}" if agreed else ""
            sentence = f"{change.words}: done without consent to more than finding the fault{since}"
            yield Open("work_beyond", sentence, about=str(change.key))
