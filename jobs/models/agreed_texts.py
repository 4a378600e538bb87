"""The exact text that somebody agrees to beyond finding the fault, with its seven items.

Who authorized, how they were contacted, date, time, what, added cost, revised total: the seven that
practice in California asks for each time, as the trade tells it. Who stands as a role: a name is
kept beside the text, so that the text and its hash stay whole where a name is taken out.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone
from django.utils.dateformat import format as date_words

from jobs.models.changes import SOURCES
from jobs.models.consents import AGREED, CUSTOMER, NAMED, NOT_REACHED, REFUSED, UNSIGNED
from jobs.models.estimates import Estimate
from jobs.models.line_words import how_much
from jobs.models.named import FOR_CUSTOMER, FOR_PAYER
from jobs.models.priced import Line
from jobs.models.wordings import CONSENT_WAYS, words
from jobs.money import shown

# What was agreed to is kept word for word: a text here is never edited. A better one gets a code
# of its own, and pages show the newest.
WORK_TEXTS = {
    "work_1": (
        "I agree to this work, up to the revised total, tax included, for all work on this job,"
        " finding the fault included. Anything beyond that needs my agreement first."
    ),
}
WORK_NOW = "work_1"
ROLES = {
    CUSTOMER: "the customer",
    (NAMED, FOR_CUSTOMER): "a person named by the customer",
    (NAMED, FOR_PAYER): "a person named by who pays",
}
SOMEBODY = "another person"
NOT_TOLD = "not told"


@dataclass(frozen=True)
class Sums:
    """What it costs, in the smallest unit of `currency`; None: not told."""

    before: int | None
    added: int | None
    total: int | None
    currency: str

    @property
    def lines(self) -> list[str]:
        """Added cost and revised total, and what had been agreed until then."""
        told = {"Agreed before": self.before, "Added cost": self.added, "Revised total": self.total}
        return [
            f"{name}: {NOT_TOLD if units is None else shown(units, self.currency)}"
            for name, units in told.items()
            if units is not None or name != "Agreed before"
        ]


def what_of_estimate(estimate: Estimate, job_number: str) -> list[str]:
    """What an estimate is for, line by line as it is printed, with its price."""
    listed = [
        f"{place}. {what_of_line(line)}: {shown(line['amount'], estimate.currency)}"
        for place, line in enumerate(estimate.lines, start=1)
        if line["amount"] is not None
    ]
    taxes = [f"{one['name']}: {shown(one['amount'], estimate.currency)}" for one in estimate.taxes]
    return [f"Work: estimate {estimate.number} of job {job_number}", *listed, *taxes]


def what_of_line(line: Line) -> str:
    """Compressor, complete (new); Refrigerant R-134a, 650 g."""
    much = how_much(line)
    source = f" ({words(SOURCES, line['source']).lower()})" if line["source"] else ""
    return f"{line['words']}{source}{f', {much}' if much else ''}"


def what_in_words(work: str) -> list[str]:
    """What is to be done, as it was typed."""
    return [f"Work: {work}"]


def shown_text(what: Iterable[str], sums: Sums, code: str) -> str:
    """What a page shows before anybody agrees."""
    return "\n".join([*what, *sums.lines, WORK_TEXTS.get(code, WORK_TEXTS[WORK_NOW])])


def unseen_text(what: Iterable[str], sums: Sums) -> str:
    """What was to be asked of somebody who saw nothing of it: no word of agreeing is in it."""
    return "\n".join([*what, *sums.lines])


def role_words(giver: str, speaks_for: str = "") -> str:
    """Who it was, without a name."""
    return ROLES.get(giver) or ROLES.get((giver, speaks_for), SOMEBODY)


def last_line(outcome: str, who: str, how: str, at: datetime, tries: Iterable[datetime]) -> str:
    """Who, how, which day and at what time."""
    by = who[:1].upper() + who[1:]
    came = {
        AGREED: f"Agreed to by: {who}",
        UNSIGNED: f"Agreed to by: {who}, who refused to sign",
        REFUSED: f"Not agreed to. Refused by: {who}",
        NOT_REACHED: f"{by} could not be reached",
    }[outcome]
    way = words(CONSENT_WAYS, how).lower() if how else NOT_TOLD
    times = list(tries) or [at]
    if outcome == NOT_REACHED:
        tried = "; ".join(day_and_time(one) for one in times)
        return f"{came}. Contact: {way}. Tried: {tried}."
    local = timezone.localtime(at)
    date, clock = date_words(local, "j M Y"), date_words(local, "H:i")
    return f"{came}. Contact: {way}. Date: {date}. Time: {clock}."


def day_and_time(at: datetime) -> str:
    """30 Nov 2026, 14:10."""
    return date_words(timezone.localtime(at), "j M Y, H:i")
