"""Invoices of a job: the next one to be written, and each as it is printed."""

import uuid
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from jobs.entries import INVOICE, OFFICE
from jobs.forms.invoice import InvoiceForm
from jobs.forms.line_read import decimal_text
from jobs.logbook import enter
from jobs.models import Invoice, Job
from jobs.models.agreed import agreed_now
from jobs.models.amounts import OIL, REFRIGERANT
from jobs.models.done import came_out_words, done_words, old_parts_words, put_in
from jobs.models.estimates import in_force
from jobs.models.priced import Line
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.posted import told_from_post
from jobs.views.priced import ADD_UP, asked_row, listed_prices, paper_of, sums_part, sums_said

IN = {REFRIGERANT: "g", OIL: "mL"}  # by the code of the line, which is the substance's


@signed_in()
def invoice(request: HttpRequest) -> HttpResponse:
    """One invoice as it is printed; for the office the form of the next, else the list."""
    job = asked_job(request)
    rows = invoices_of(job)
    if request.method == "POST" and request.POST.get("button") == ADD_UP:
        return show_form(request, job, rows, typed_so_far(request, job))
    if request.method == "POST":
        outcome = enter(INVOICE, told_from_post(request, INVOICE.version, job.key))
        return answer(request, outcome, lambda form: show_form(request, job, rows, form))
    asked = asked_row(request, rows, "version")
    if asked:
        return render(request, "jobs/invoice.html", sheet_of(job, asked) | {"invoices": rows})
    counting = next((one for one in rows if one.counts), None)
    if role_of(request) not in OFFICE or (counting and "anew" not in request.GET):
        return show_form(request, job, rows, None)
    return show_form(request, job, rows, to_begin(job, counting))


@signed_in()
@require_POST
def invoice_sums(request: HttpRequest) -> HttpResponse:
    """What the lines typed so far come to."""
    job = asked_job(request)
    return sums_part(request, typed_so_far(request, job), agreed_now(job))


def invoices_of(job: Job) -> list[Invoice]:
    """All of a job, the newest first."""
    rows = job.invoices.select_related("entry__author", "estimate", "superseded_by__entry")
    return list(rows.order_by("-year", "-number"))


def typed_so_far(request: HttpRequest, job: Job) -> InvoiceForm:
    """The form as it is typed, to be added up."""
    form = InvoiceForm(request.POST, job_key=job.key)
    form.is_valid()
    return form


def to_begin(job: Job, counting: Invoice | None) -> InvoiceForm:
    """With the lines of the invoice it takes the place of, else of what was agreed."""
    form = InvoiceForm(job_key=job.key)
    form.make_rows(0)
    if counting:
        form.begin(counting.lines, counting.currency)
        form.came_from = f"It begins with the lines of {counting.label}."
        form.initial["on"] = counting.key
        form.initial["note"] = counting.note
        form.initial["old_parts"] = counting.old_parts
        return form
    form.initial["old_parts"] = old_parts_words(job)
    held = agreed_now(job)
    estimate = held.estimate or in_force(job.estimates.all())
    if estimate:
        used = put_in(job)
        by = ", which was agreed." if held.estimate else "; nobody agreed to it."
        form.came_from = f"It begins with the lines of {estimate.words.lower()}{by}"
        if held.added:
            form.came_from += f" Agreed since and no line yet: {'; '.join(held.added)}."
        if any(line["code"] == REFRIGERANT for line in estimate.lines):
            form.came_from = f"{form.came_from} {came_out_words(job)}".strip()
        form.begin([as_used(line, used) for line in estimate.lines], estimate.currency)
    return form


def as_used(line: Line, used: Mapping[str, int]) -> Line:
    """A line of the estimate; of refrigerant and oil with what was used, where that was booked.

    Whole grams and milliliters, as the sheet tells them.
    """
    much = used.get(line["code"])
    if not much:
        return line
    whole = Decimal(much).scaleb(-3).quantize(Decimal(1))
    return line | {"quantity": decimal_text(whole), "unit": IN[line["code"]]}


def show_form(
    request: HttpRequest, job: Job, rows: list[Invoice], form: InvoiceForm | None
) -> HttpResponse:
    """The page: what was agreed and done, the form for those who write invoices, and the list."""
    agreed = agreed_now(job)
    said = {
        "job": job,
        "form": form,
        "kind": INVOICE,
        "key": request.POST.get("key") or uuid.uuid4(),
        "prices": listed_prices(form.currency) if form else [],
        "invoices": rows,
        "counting": next((one for one in rows if one.counts), None),
        "may_write": role_of(request) in OFFICE,
        "agreed": agreed,
        "done": list(done_words(job)),
        "sums": sums_said(form, agreed) if form and form.is_bound else None,
        "title": "Invoice",
    }
    return render(request, "jobs/invoice.html", said)


def sheet_of(job: Job, one: Invoice) -> dict[str, Any]:
    """What is printed of one: the shared sheet, and what only an invoice has."""
    standing = []
    if one.superseded_by:
        standing.append(f"Replaced by invoice {one.superseded_by}: this one counts no more.")
    if one.corrected_why:
        standing.append(f"Takes the place of an earlier invoice: {one.corrected_why}")
    after = [one.agreed_words]
    if one.over and one.agreed is not None:
        after.append(f"{one.over_words} more than was agreed.")
    if one.old_parts:
        after.append(f"Old parts: {one.old_parts}")
    lists = []
    if one.done:
        lists.append(("Done and used, as noted on the job", one.done))
    if one.estimate and one.changed:
        lists.append((f"Otherwise than on {one.estimate.words.lower()}", one.changed))
    told = {"standing": standing, "after": after, "lists": lists, "title": f"Invoice {one.label}"}
    return paper_of(job, one) | told
