"""The options of a job as it stands, read once: for its page and for a decision."""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnostics.evidence.kind import Kind
from diagnostics.job_now import JobNow, job_now
from diagnostics.offering import Ways, ways
from diagnostics.offers_told import OfferTold, told
from diagnostics.own_figures import own_figures
from diagnostics.price_sheet import Sheet, sheet_of, shop_prices
from jobs.models import Job


@dataclass(frozen=True)
class OptionsNow:
    """The ways of one job, in words too, and what was typed of it."""

    now: JobNow
    sheet: Sheet
    ways: Ways
    told: Sequence[OfferTold]

    @property
    def tests_that_pay(self) -> list[Kind]:
        """Tests that would pay for themselves before it is decided."""
        return self.ways.tests_that_pay(self.now.around)


def options_now(job: Job) -> OptionsNow:
    """At a fixed number of queries. `job` comes with customer, car and system."""
    now = job_now(job)
    rows = job.prices_typed.select_related("entry__author")
    sheet = sheet_of(job, rows, shop_prices())
    found = ways(now.around, sheet, own_figures(sheet.terms.keep_months))
    return OptionsNow(now, sheet, found, told(found, sheet, now.steps, now.states))
