"""The owner's settings: a list of their parts, each with what holds, and the form of one."""

import uuid
from collections.abc import Callable
from typing import Any, TypeVar

from django import forms
from django.db.models import Case, QuerySet, Value, When
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST, require_safe

from jobs.entries import PRICE, SHOP_CHANGE, TAX
from jobs.forms.prices import PriceForm, TaxForm, hours_words
from jobs.forms.settings import PARTS
from jobs.logbook import EntryKind, enter
from jobs.models import Price, Shop, ShopChange, Tax
from jobs.models.people import OWNER
from jobs.models.prices import TAXED, UNITS, WHAT, in_force
from jobs.models.shop import NONE_BEFORE
from jobs.models.wordings import in_shop_time
from jobs.money import percent, shown
from jobs.told import as_key, one_line
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import start_of
from jobs.views.posted import told_from_post

PAGE = 50
Row = TypeVar("Row", Price, Tax)
LISTS = {"prices": "Labor rates and prices", "taxes": "Taxes"}
GROUPS = {
    "labor": "Labor rates",
    "operation": "Labor operations",
    "part": "Parts",
    "refrigerant": "Refrigerants",
    "oil": "Oils",
}
ORDER = ("papers", "prices", "taxes", "sums", "units", "place", "phrases", "law", "keep")


@require_safe
@signed_in(OWNER)
def settings(request: HttpRequest) -> HttpResponse:
    """All parts, or the one in the address."""
    part = request.GET.get("part", "")
    if not part:
        return show_parts(request)
    if part == "prices":
        return show_prices(request)
    if part == "taxes":
        return show_taxes(request)
    if part not in PARTS:
        raise Http404("There is no such part of the settings.")
    return show_part(request, part)


@require_POST
@signed_in(OWNER)
def settings_change(request: HttpRequest) -> HttpResponse:
    """One part told anew."""
    part = request.POST.get("part", "")
    if part not in PARTS:
        raise Http404("There is no such part of the settings.")
    return tell(request, SHOP_CHANGE, lambda form: show_part(request, part, form))


@require_POST
@signed_in(OWNER)
def settings_price(request: HttpRequest) -> HttpResponse:
    """A price: new, told anew or ended."""
    return tell(request, PRICE, lambda form: show_prices(request, form))


@require_POST
@signed_in(OWNER)
def settings_tax(request: HttpRequest) -> HttpResponse:
    """A tax: new, told anew or ended."""
    return tell(request, TAX, lambda form: show_taxes(request, form))


def tell(
    request: HttpRequest, kind: EntryKind, show: Callable[[forms.Form], HttpResponse]
) -> HttpResponse:
    """Enter what was posted; what cannot stand goes back to its form."""
    return answer(request, enter(kind, told_from_post(request, kind.version)), show)


def the_shop() -> Shop:
    """The shop's row; one that was never set up is shown empty."""
    return Shop.objects.first() or Shop(name="", currency="")


def show_parts(request: HttpRequest) -> HttpResponse:
    """What holds now, a line for each part."""
    shop = the_shop()
    said = {name: form.said(shop) for name, form in PARTS.items()}
    prices, taxes = in_force(Price.objects.all()), in_force(Tax.objects.all())
    count = prices.count()
    said["prices"] = f"{count} line{'' if count == 1 else 's'}" if count else "None yet"
    told = [f"{tax.name} {percent(tax.millionths)}\u00a0%" for tax in taxes.order_by("name")[:4]]
    said["taxes"] = ", ".join(told) or "None yet"
    titles = {name: form.TITLE for name, form in PARTS.items()} | LISTS
    return render(
        request,
        "jobs/settings.html",
        {"parts": [(name, titles[name], said[name]) for name in ORDER]},
    )


def show_part(request: HttpRequest, part: str, form: forms.Form | None = None) -> HttpResponse:
    """The form of a part, and since when it stands so."""
    told = ShopChange.objects.filter(part=part).select_related("entry__author")
    last = told.order_by("-from_at", "-id").first()
    first = form or PARTS[part](initial=PARTS[part].filled(the_shop()))
    said = {
        "part": part,
        "title": PARTS[part].TITLE,
        "form": first,
        "bound": first.is_bound,
        "key": request.POST.get("key") or uuid.uuid4(),
        "seen": request.POST.get("seen", last.entry.key if last else NONE_BEFORE),
        "last": last,
        "when": in_shop_time(last.from_at) if last else "",
    }
    return render(request, "jobs/settings.html", said)


def show_prices(request: HttpRequest, form: Any = None) -> HttpResponse:
    """The list by what it is of; or the form of one line, or of a new one."""
    price = line_asked(request, form, Price.objects.all(), "price")
    what = str((form.data if form else request.GET).get("what", ""))
    if form is None and price:
        form = PriceForm(initial=PriceForm.filled(price))
    elif form is None and what in WHAT:
        form = PriceForm(initial={"what": what})
    said = {"part": "prices", "title": LISTS["prices"], "what": WHAT, "post": "settings_price"}
    if form is not None:
        return show_line(request, form, price, said)
    return render(request, "jobs/settings.html", said | listed_prices(request))


def listed_prices(request: HttpRequest) -> dict[str, Any]:
    """Fifty prices, in the order of WHAT and by name; and where the next ones begin."""
    typed = one_line(request.GET.get("words", ""))[:60]
    first = start_of(request.GET.get("from", ""))
    places = [When(what=what, then=Value(place)) for place, what in enumerate(WHAT)]
    rows = in_force(Price.objects.all()).annotate(place=Case(*places, default=Value(len(places))))
    rows = rows.order_by("place", "name", "id")
    if typed:
        rows = rows.filter(name__icontains=typed)
    found = list(rows[first : first + PAGE + 1])
    return {
        "words": typed,
        "rows": [
            {"row": price, "said": price_words(price), "words": GROUPS[price.what]}
            for price in found[:PAGE]
        ],
        "next": first + PAGE if len(found) > PAGE else None,
    }


def show_taxes(request: HttpRequest, form: Any = None) -> HttpResponse:
    """The taxes; or the form of one, or of a new one."""
    tax = line_asked(request, form, Tax.objects.all(), "tax")
    if form is None and tax:
        form = TaxForm(initial=TaxForm.filled(tax))
    elif form is None and "new" in request.GET:
        form = TaxForm()
    said = {"part": "taxes", "title": LISTS["taxes"], "post": "settings_tax"}
    if form is not None:
        return show_line(request, form, tax, said)
    rows = in_force(Tax.objects.all()).order_by("name", "id")[:PAGE]
    listed = [{"row": tax, "said": tax_words(tax), "words": ""} for tax in rows]
    return render(request, "jobs/settings.html", said | {"rows": listed})


def line_asked(request: HttpRequest, form: Any, rows: QuerySet[Row], called: str) -> Row | None:
    """The row of the line that is asked for, as it holds; None: none was asked for, or it went.

    Raises:
        Http404: the line is not in the list any more.

    """
    line = as_key((form.data if form else request.GET).get("line", ""))
    row = in_force(rows).select_related("entry").filter(line=line).first() if line else None
    if line and row is None and form is None:
        raise Http404(f"This {called} is not in the list any more.")
    return row


def show_line(
    request: HttpRequest, form: Any, row: Price | Tax | None, said: dict[str, Any]
) -> HttpResponse:
    """The form of one line of a list."""
    what = WHAT.get(str(form["what"].value()), "") if "what" in form.fields else "Tax"
    told = said | {
        "line_form": form,
        "row": row,
        "title": row.name if row else f"{what}, new".lstrip(", "),
        "key": request.POST.get("key") or uuid.uuid4(),
        "end_key": uuid.uuid4(),
        "seen": request.POST.get("seen", row.entry.key if row else ""),
        "when": in_shop_time(row.from_at) if row else "",
    }
    return render(request, "jobs/settings.html", told)


def price_words(price: Price) -> str:
    """A price as the list has it."""
    told = []
    if price.minutes is not None:
        hours = hours_words(price.minutes)
        told.append(hours if hours.endswith("min") else f"{hours}\u00a0h")
    if price.amount is not None:
        unit = "" if price.what == "operation" else f" per {UNITS[price.what][price.unit]}"
        told.append(shown(price.amount, price.currency) + unit)
    if price.part_number:
        told.append(price.part_number)
    return ", ".join(told)


def tax_words(tax: Tax) -> str:
    """A tax as the list has it."""
    on = ", ".join(TAXED[one].lower() for one in tax.taken_on)
    return f"{percent(tax.millionths)}\u00a0% on {on}"
