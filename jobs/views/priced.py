"""What the pages of estimates and invoices share: their lines as typed, their sums, their paper."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.forms.priced import PricedForm, missing_words
from jobs.forms.prices import hours_words
from jobs.models import Job, Price, Shop
from jobs.models.agreed import AgreedNow
from jobs.models.line_words import in_words, rounding_words, said, tax_words, taxes_in_words
from jobs.models.priced import BELOW_ZERO, NO_TOTAL, Priced
from jobs.models.priced_head import head_of
from jobs.models.prices import in_force
from jobs.models.shop import PAPERS
from jobs.money import plain, shown
from jobs.views.asked import asked_key

LISTED = 300
SORT_OF = {
    "labor": "labor",
    "operation": "labor",
    "part": "part",
    "refrigerant": "fluid",
    "oil": "fluid",
}
ADD_UP = "add_up"  # a button that a page without script has: it records nothing
MEND = "No total: mend the lines first."


@dataclass(frozen=True)
class SumsSaid:
    """What the lines of a form come to, in words. `why_not` says why there is no total."""

    rows: Sequence[tuple[str, str]]
    total: str
    why_not: str
    amounts: Sequence[tuple[int, str]]
    over: str = ""


def sums_said(form: PricedForm, agreed: AgreedNow | None = None) -> SumsSaid:
    """The sums of a form that was read, held against what is agreed where that is asked."""
    currency, sums = form.currency, form.sums
    amounts = [(number, amount_said(form, number)) for number in form.numbers[: form.sent]]
    if sums.total is None or sums.subtotal is None:
        return SumsSaid([], "", why_not(form), amounts)
    rows = [("Without tax", shown(sums.subtotal, currency))]
    rows += [
        (
            tax_words(one.tax.name, one.tax.millionths, one.base, currency),
            shown(one.amount, currency),
        )
        for one in sums.taxes
    ]
    over = agreed.over_words(sums.total, currency) if agreed else ""
    return SumsSaid(rows, shown(sums.total, currency), "", amounts, over)


def amount_said(form: PricedForm, number: int) -> str:
    """What one line comes to; empty: it has no line, or rests on one that is to be mended."""
    line = form.lines.get(number)
    if line is None or (form.errors and line["unit"] == "%"):
        return ""
    return said(line, form.currency).amount


def why_not(form: PricedForm) -> str:
    """Why the lines of a form have no total; empty: nothing is on it."""
    missing = missing_words(form.lines.values())
    if form.errors:
        return MEND if form.lines else ""
    if missing:
        return f"{NO_TOTAL[:1].upper()}{NO_TOTAL[1:]} of {', '.join(missing)}."
    return f"{BELOW_ZERO[:1].upper()}{BELOW_ZERO[1:]}." if form.sums.below_zero else ""


def sums_part(
    request: HttpRequest, form: PricedForm, agreed: AgreedNow | None = None
) -> HttpResponse:
    """The sums of what is typed so far; nothing is recorded."""
    said = {"sums": sums_said(form, agreed), "part": True}
    return render(request, "jobs/_priced_sums.html", said)


def listed_prices(currency: str) -> list[dict[str, str]]:
    """The shop's price list as lines that a tap puts on the form; the first few hundred of it."""
    rows = list(in_force(Price.objects.filter(currency=currency).order_by("what", "name", "id")))
    rates = [one for one in rows if one.what == "labor" and one.amount is not None]
    rate = rates[0] if len(rates) == 1 else None  # of several nobody can tell which is meant
    return [line_from(one, rate) for one in rows[:LISTED]]


def line_from(price: Price, rate: Price | None) -> dict[str, str]:
    """One price as its line is typed; an operation without a price costs its hours at the rate."""
    line = {"sort": SORT_OF[price.what], "words": price.name, "per": price.unit, "quantity": ""}
    by_hours = price.what == "operation" and price.amount is None
    counted = rate if by_hours else price
    if by_hours:
        line |= {"per": "h", "quantity": hours_words(price.minutes or 0)}
    amount = counted.amount if counted else None
    return line | {"price": "" if amount is None else plain(amount, price.currency)}


def asked_row(request: HttpRequest, rows: Sequence[Any], name: str) -> Any:
    """The one of a job's rows that the address names; None: it names none.

    Raises:
        Http404: it names one that is not the job's.

    """
    key = asked_key(request, name)
    if key is None:
        return None
    for one in rows:
        if one.key == key:
            return one
    raise Http404("That is not in this job.")


def paper_of(job: Job, one: Priced) -> dict[str, Any]:
    """What stands on the paper of an estimate or an invoice, beside what only one of them has."""
    shop = Shop.objects.first()
    paper = shop.paper if shop else "a4"
    return {
        "job": job,
        "one": one,
        "head": one.head or head_of(job),
        "lines": in_words(one),
        "taxes": taxes_in_words(one),
        "subtotal": "" if one.subtotal is None else shown(one.subtotal, one.currency),
        "rounding": rounding_words(one),
        "paper": paper,
        "paper_words": PAPERS[paper],
    }
