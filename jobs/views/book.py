"""The refrigerant book: sums by month and year, every move, as a page, a sheet and a table."""

import csv
from collections.abc import Iterator
from typing import Any

from django.http import HttpRequest, HttpResponse, StreamingHttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from diagnostics.physics.shown_units import ShownIn
from jobs.forms.book import BookForm
from jobs.ledger import shown_mass
from jobs.models import Move, Shop
from jobs.models.amounts import REFRIGERANT
from jobs.models.book import (
    Span,
    Sums,
    counted,
    ends,
    months_and_years,
    moves_of,
    page_of,
    table,
    why,
    with_all,
    years_told,
)
from jobs.models.oils import OILS
from jobs.models.people import DESK, OWNER
from jobs.models.shop import units_chosen
from jobs.views.access import signed_in
from jobs.views.asked import start_of

PAGE = 50
SHEET = 1000  # lines on one print; more are asked for by days
COLUMNS = {
    "bought": "Bought",
    "given_back": "Given back",
    "recovered": "Out of cars",
    "charged": "Into cars",
    "reclaimed": "Reclaim",
    "lost": "Lost",
    "unexplained": "Not explained",
    "hoses": "Into hoses",
    "stock": "Stock at end",
}
SIGNED = ("unexplained", "hoses")


@require_safe
@signed_in(DESK, OWNER)
def book(request: HttpRequest) -> HttpResponse:
    """Sums of a year and of all years, then the lines asked for, 50 a page; `sheet`: to print."""
    form = BookForm(request.GET)
    asked = form.asked()
    chosen = units_chosen()
    first, last = years_told()
    year = min(max(start_of(request.GET.get("year", "")) or last, first), last)
    start, page = start_of(request.GET.get("from", "")), PAGE
    sheet = bool(request.GET.get("sheet"))
    if sheet:
        start, page = 0, SHEET
    found = moves_of(asked)
    count = counted(found)
    by_month, by_year = months_and_years(year, first, last)
    shop = Shop.objects.first()
    said = {
        "form": form,
        "year": year,
        "years": range(first, last + 1),
        "columns": COLUMNS,
        "months": sums_told(by_month, chosen, "F"),
        "all_years": sums_told(by_year, chosen, "Y"),
        "lines": [line(one, chosen) for one in page_of(found, start, page)],
        "count": count["lines"],
        "start": start,
        "before": max(start - PAGE, 0) if start else None,
        "after": start + page if start + page < count["lines"] else None,
        "shown_to": min(start + page, count["lines"]),
        "query": form.query(),
        "narrowed": form.narrowed,
        "sheet": sheet,
        "paper": shop.paper if shop else "a4",
        "shop": shop,
        "now": timezone.now(),
        "unit": chosen.start(("g", "oz")),
    }
    return render(request, "jobs/book.html", said)


@require_safe
@signed_in(DESK, OWNER)
def book_csv(request: HttpRequest) -> StreamingHttpResponse:
    """The lines asked for as a table, whole milligrams and microliters."""
    chosen = units_chosen()
    moves = with_all(moves_of(BookForm(request.GET).asked())).iterator(chunk_size=2000)
    writer = csv.writer(Echo())
    rows = (writer.writerow(row) for row in table(moves, lambda one: amount_words(one, chosen)))
    response = StreamingHttpResponse(with_mark(rows), content_type="text/csv; charset=utf-8")
    day = timezone.localdate().isoformat()
    response["Content-Disposition"] = f'attachment; filename="refrigerant-book-{day}.csv"'
    return response


class Echo:
    """What a csv writer writes to: it gives the line back."""

    def write(self, text: str) -> str:
        """The line itself."""
        return text


def with_mark(rows: Iterator[str]) -> Iterator[str]:
    """Rows behind the mark by which spreadsheets know UTF-8."""
    yield "\ufeff"
    yield from rows


def amount_words(move: Move, chosen: ShownIn) -> str:
    """How much, in the shop's unit."""
    if move.substance == REFRIGERANT:
        return shown_mass(move.amount, chosen.start(("g", "oz")))
    return chosen.text(move.amount * 1e-9, "mL", 1)


def line(move: Move, chosen: ShownIn) -> dict[str, Any]:
    """A move as the page shows it."""
    out, into = ends(move)
    undone = getattr(move, "undone_by", None)
    return {
        "move": move,
        "amount": amount_words(move, chosen),
        "gas": OILS.get(move.gas, move.gas) or move.substance,
        "out": out,
        "into": into,
        "why": why(move),
        "back": move.undoes_id is not None,
        "undone": undone is not None,
    }


def sums_told(spans: list[Span], chosen: ShownIn, how: str) -> list[dict[str, Any]]:
    """Rows of a table of sums, one a span and refrigerant, in the shop's unit."""
    unit = chosen.start(("g", "oz"))
    return [
        {
            "name": timezone.localtime(span.since),
            "how": how,
            "gas": gas or "not named",
            "cells": [(words, told(one, name, unit)) for name, words in COLUMNS.items()],
        }
        for span in spans
        for gas, one in span.sums.items()
    ]


def told(sums: Sums, name: str, unit: str) -> str:
    """One sum; what is nothing is a dash, what has a direction has a sign."""
    mg: int = getattr(sums, name)
    if not mg and name != "stock":
        return "–"
    return f"+{shown_mass(mg, unit)}" if mg > 0 and name in SIGNED else shown_mass(mg, unit)
