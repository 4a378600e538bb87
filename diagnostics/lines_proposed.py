"""The lines of an estimate as the chosen way and the prices that stand on the job make them.

What two repairs share is one line. A price, an amount or hours that nobody typed stay empty.
"""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from diagnostics.decided import decisions_of, last_of
from diagnostics.evidence.options.lines import FLUIDS, GRAMS
from diagnostics.evidence.options.prices import Line as CostLine
from diagnostics.evidence.options.prices import PartPrice, cost_now
from diagnostics.evidence.options.repairs import OPTIONS
from diagnostics.price_sheet import Sheet, sheet_of, shop_prices
from jobs.estimating import MILLION, whole
from jobs.forms.line_read import decimal_text
from jobs.forms.prices import hours_words
from jobs.models import Job, Shop
from jobs.models.amounts import REFRIGERANT
from jobs.models.consents import FIND_FAULT, agreed_to
from jobs.models.done import came_out_words
from jobs.money import percent
from jobs.told import Proposed

NO_DECISION = "Nothing is decided yet: type the lines, or decide first."
NO_LINES = "What was decided is no way to repair that has lines of its own: type them."
FOUND = "Fault found, as agreed"
FINDING_TOO = (
    "Finding the fault is on it with the amount that was agreed for it; take that line out, or"
    " lower it, if it is not charged in full."
)
EMPTY = {"code": "", "minutes": None, "much": None, "price": None, "amount": None, "source": ""}
SORT = {"labor": "labor", "parts": "part", "refrigerant": "fluid"}


def proposed_for(job: Job) -> Proposed:
    """By the decision that counts and the prices that stand; in a fixed number of queries."""
    decision = last_of(decisions_of(job))
    if decision is None:
        return Proposed([], NO_DECISION)
    options = [OPTIONS[code] for code in decision.plan.split("+") if code in OPTIONS]
    sheet = sheet_of(job, job.prices_typed.select_related("entry__author"), shop_prices())
    lines = [in_form(line, sheet, job) for line in cost_now(options, sheet.typed).lines]
    if not lines:
        return Proposed([], NO_LINES, decision.plan, decision.key)
    words = f"From the decision: {decision.words}."
    finding = list(fault_found(job, sheet))
    if finding:
        words += f" {FINDING_TOO}"
    if any(line["code"] == REFRIGERANT for line in lines):
        words = f"{words} {came_out_words(job)}".strip()
    return Proposed([*lines, *finding, *sundries()], words, decision.plan, decision.key)


def fault_found(job: Job, sheet: Sheet) -> Iterator[dict[str, Any]]:
    """What was agreed to find the fault: the revised total of any later consent has it in it.

    It was agreed with its tax, and the line is without. No labor, of which sundries may be a share.
    """
    given = [one for one in agreed_to(job.consents.all()) if one.about == FIND_FAULT]
    last = given[-1] if given else None
    if last is None or not last.amount or last.currency != sheet.currency:
        return
    rates = [one.millionths for one in sheet.taxes if "labor" in one.on]
    price = without_tax(last.amount, rates)
    once = {"quantity": "1", "unit": "time", "per": "time", "price": price}
    yield {**EMPTY, "sort": "other", "words": FOUND, "taxed": "labor"} | once


def without_tax(amount: int, rates: Sequence[int]) -> int:
    """The most that is not above an amount once taxes in millionths are added to it, half up."""
    price = amount * MILLION // (MILLION + sum(rates))
    above = price + 1
    taxes = sum(whole(Fraction(above * rate, MILLION)) for rate in rates)
    return above if above + taxes <= amount else price


def in_form(line: CostLine, sheet: Sheet, job: Job) -> dict[str, Any]:
    """One line of a cost as an estimate has it."""
    told = {**EMPTY, "code": line.code, "sort": SORT[line.kind], "words": line.words}
    told |= {"taxed": line.kind, "quantity": "", "unit": ""}
    typed = sheet.typed
    if line.kind == "labor":
        hours = "" if line.much is None else hours_words(line.much)
        return told | {"quantity": hours, "unit": "h", "per": "h", "price": typed.rate}
    if line.kind == "parts":
        part = typed.parts.get(line.code, PartPrice())
        one = {"quantity": "1", "unit": "piece", "per": "piece"}
        return told | one | {"source": part.source, "price": part.amount}
    mass = FLUIDS[line.code].unit == GRAMS
    much = "" if line.much is None else decimal_text(Decimal(line.much).scaleb(-3))
    name = f" {job.vehicle.system.refrigerant}" if line.code == "refrigerant" else ""
    return told | {
        "words": f"{line.words}{name}".strip(),
        "quantity": much,
        "unit": ("g" if mass else "mL") if much else "",
        "per": "kg" if mass else "L",
        "price": typed.fluid_price.get(line.code),
    }


def sundries() -> Iterator[dict[str, Any]]:
    """The shop's line for what nobody counts, as it is set."""
    shop = Shop.objects.first()
    first = {**EMPTY, "sort": "sundry", "words": "Sundries", "taxed": "parts"}
    if shop and shop.sundries == "amount":
        price = shop.sundries_minor
        yield first | {"quantity": "1", "unit": "time", "per": "time", "price": price}
    elif shop and shop.sundries == "percent" and shop.sundries_millionths:
        share = percent(shop.sundries_millionths)
        yield first | {"quantity": share, "unit": "%", "per": ""}
