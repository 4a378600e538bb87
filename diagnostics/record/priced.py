"""The parts of a record about money: what was estimated, what was billed, old parts as chosen."""

from typing import Any

from diagnostics.record.words import in_parts, times
from jobs import money
from jobs.models import Job
from jobs.models.estimates import Estimate
from jobs.models.invoices import Invoice
from jobs.models.line_words import said
from jobs.models.old_parts import chosen
from jobs.paper import frozen_customer, frozen_repair
from jobs.paper import frozen_priced as frozen


def estimates(job: Job) -> list[frozen.Priced]:
    """Every version, the first first: none takes away what another said."""
    rows = job.estimates.select_related("entry__author")
    return [priced(one, one.words) for one in rows]


def invoices(job: Job) -> list[frozen.Priced]:
    """Every invoice, those superseded included."""
    rows = job.invoices.select_related("entry__author")
    return [
        priced(one, one.label, agreed=in_parts(one.agreed_words), over=one.over_words)
        for one in rows
    ]


def priced(
    one: Estimate | Invoice, label: str, *, agreed: str = "", over: str = ""
) -> frozen.Priced:
    """One of them, as it was written."""
    return {
        "label": label,
        "number": one.number,
        "changed": [in_parts(text) for text in one.changed],
        "agreed": agreed,
        "over": over,
        "key": str(one.key),
        "lines": [line_of(line, one.currency) for line in one.lines],
        "tax": "" if one.tax is None else money.shown(one.tax, one.currency),
        "total": one.total_words,
        "tax_units": one.tax,
        "total_units": one.total,
        "currency": one.currency,
        "counts": one.counts,
        "by": one.entry.author.name,
        "author": str(one.entry.author.key),
        **times(one.entry),
    }


def line_of(line: dict[str, Any], currency: str) -> frozen.Line:
    """One line."""
    told = said(line, currency)
    return {
        "sort": line["sort"],
        "text": in_parts(told.words),
        "much": in_parts(", ".join(text for text in (told.source, told.how_much, told.at) if text)),
        "amount": told.amount,
        "smallest_units": line["amount"],
    }


def old_parts_chosen(job: Job) -> frozen_repair.OldParts | None:
    """What counts of what was chosen for the old parts; None: nobody asked."""
    row = chosen(job.old_part_choices.select_related("entry__author"))
    if row is None:
        return None
    return {
        "choice": row.choice,
        "text": row.words,
        "by": row.entry.author.name,
        "author": str(row.entry.author.key),
        "entry": str(row.entry.key),
        **times(row.entry),
    }


def paid(billed: list[frozen.Priced]) -> frozen_customer.Paid | None:
    """What the last invoice that counts comes to; None: nothing was billed."""
    last = next((one for one in reversed(billed) if one["counts"]), None)
    if last is None or last["total_units"] is None:
        return None
    tax = f", {last['tax']} of tax in it" if last["tax_units"] else ", no tax in it"
    held = f" {last['agreed']}" if last["agreed"] else ""
    return {
        "text": f"Invoice {last['label']}: {last['total']}{tax}.{held}",
        "label": last["label"],
        "total_units": last["total_units"],
        "tax_units": last["tax_units"] or 0,
        "currency": last["currency"],
    }
