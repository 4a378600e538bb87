"""What is agreed on a job now, for an invoice to be held against."""

from dataclasses import dataclass

from jobs.models.consents import in_force
from jobs.models.estimates import Estimate
from jobs.models.jobs import Job
from jobs.models.wordings import in_shop_time
from jobs.money import shown

NOTHING = "Nothing was agreed."


@dataclass(frozen=True)
class AgreedNow:
    """Up to how much, by which consent, to which estimate; all None: nothing is agreed."""

    amount: int | None = None
    currency: str = ""
    estimate: Estimate | None = None
    words: str = NOTHING

    def over_words(self, total: int, currency: str) -> str:
        """By how much a total is more than that; empty: it is not."""
        amount = self.amount if self.amount is not None and self.currency == currency else 0
        return shown(total - amount, currency) if total > amount else ""


def agreed_now(job: Job) -> AgreedNow:
    """By the consent that was given last and counts."""
    last = in_force(job.consents.select_related("estimate"))
    if last is None:
        return AgreedNow()
    words = (
        f"Agreed: {last.about_words}, up to {last.amount_words}, consent no. {last.number} of"
        f" {in_shop_time(last.given_at)}"
    )
    return AgreedNow(last.amount, last.currency, last.estimate, f"{words}.")
