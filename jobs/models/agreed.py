"""What is agreed on a job now, for an invoice to be held against."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jobs.models.consents import Consent, agreed_to, in_force, making_up
from jobs.models.estimates import Estimate
from jobs.models.jobs import Job
from jobs.models.wordings import in_shop_time
from jobs.money import shown

NOTHING = "Nothing was agreed."


@dataclass(frozen=True)
class AgreedNow:
    """Up to how much, by which consents, to which estimate, and what was added to it in words.

    All None: nothing is agreed.
    """

    amount: int | None = None
    currency: str = ""
    estimate: Estimate | None = None
    words: str = NOTHING
    added: tuple[str, ...] = ()

    def over_words(self, total: int, currency: str) -> str:
        """By how much a total is more than that; empty: it is not."""
        amount = self.amount if self.amount is not None and self.currency == currency else 0
        return shown(total - amount, currency) if total > amount else ""


def agreed_now(job: Job) -> AgreedNow:
    """The estimate last agreed to and what was added in words since, up to the last total."""
    consents = list(job.consents.select_related("estimate"))
    last = in_force(consents)
    if last is None:
        return AgreedNow()
    parts = making_up(consents) or [last]
    estimate = parts[0].estimate
    words = f"Agreed: {work_words(parts)}, up to {last.amount_words}, {by_words(parts)}."
    return AgreedNow(last.amount, last.currency, estimate, words, tuple(added_to(parts)))


def agreed_on(job: Job) -> list[tuple[str, str]]:
    """What is agreed and up to how much: all work in one, else each that is to find the fault."""
    consents = list(job.consents.select_related("estimate"))
    parts = making_up(consents)
    if parts:
        return [(work_words(parts), parts[-1].amount_words)]
    return [(one.about_words, one.amount_words) for one in agreed_to(consents)]


def work_words(parts: Sequence[Consent]) -> str:
    """All that was agreed: estimate 1, and dye put into the loop."""
    return ", and ".join(one.about_words for one in parts)


def by_words(parts: Sequence[Consent]) -> str:
    """By which consents: consent no. 2 of 30 Nov 2026, 14:38, then no. 3 of ..."""
    return ", then ".join(
        f"{'' if place else 'consent '}no. {one.number} of {in_shop_time(one.given_at)}"
        for place, one in enumerate(parts)
    )


def added_to(parts: Sequence[Consent]) -> Iterator[str]:
    """What was added to an estimate in words, each with its cost where that was told."""
    if parts[0].estimate:
        for one in parts[1:]:
            yield f"{one.work} (added {one.added_words})" if one.added_words else one.work
