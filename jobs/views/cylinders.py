"""The shop's cylinders: all with what is open about them, one with its work, and its forms."""

import uuid
from dataclasses import dataclass
from typing import Any

from django import forms
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from diagnostics.physics.shown_units import ShownIn
from jobs.cylinder_entries import CYLINDER, CYLINDER_GONE, PURCHASE, RECLAIM, TRANSFER, WEIGHING
from jobs.cylinder_limits import RULES, Held
from jobs.forms.cylinder_works import (
    GoneForm,
    PurchaseForm,
    ReclaimForm,
    TransferForm,
)
from jobs.forms.cylinders import CylinderForm, typed_in
from jobs.forms.masses import LARGE, SMALL, filled
from jobs.forms.weighing import WeighingForm
from jobs.ledger import shown_mass
from jobs.logbook import EntryKind, enter
from jobs.models import Cylinder, CylinderWork, Photo
from jobs.models.amounts import CYLINDER_KINDS
from jobs.models.book import Asked, moves_of, with_all
from jobs.models.cylinder_points import CylinderPoint, points_of_shop
from jobs.models.cylinder_works import WEIGHING as WEIGHED
from jobs.models.cylinders import as_held, by_gas, held_by
from jobs.models.marks import marks_in_words
from jobs.models.people import BAY, DESK, OWNER
from jobs.models.shop import units_chosen
from jobs.models.wordings import words
from jobs.told import as_key
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_key, asked_original
from jobs.views.book import line
from jobs.views.posted import told_from_post

MOVES = 20  # on a cylinder's page; the book has all


@dataclass(frozen=True)
class Doing:
    """One form of these pages: its entry, its title, what its button says, and its fields."""

    kind: EntryKind
    form: type[forms.Form]
    title: str
    button: str
    fields: tuple[str, ...]
    photo: str = ""


NEW_FIELDS = ("name", "serial", "tare", "water_capacity")
DOINGS = {
    "cylinder": Doing(
        CYLINDER,
        CylinderForm,
        "Cylinder",
        "Keep this cylinder",
        ("kind", "refrigerant", *NEW_FIELDS, "tested_until", "machine"),
    ),
    "purchase": Doing(
        PURCHASE,
        PurchaseForm,
        "Refrigerant bought",
        "Book this purchase",
        ("cylinder", "refrigerant", "amount", "from_whom", "paper", *NEW_FIELDS),
        "Photo of the paper",
    ),
    "weighing": Doing(
        WEIGHING,
        WeighingForm,
        "Weigh",
        "Book this weighing",
        ("net", "gross", "tare", "explained", "note"),
        "Photo of the scale",
    ),
    "transfer": Doing(
        TRANSFER,
        TransferForm,
        "Into another cylinder",
        "Book it",
        ("to_cylinder", "amount"),
    ),
    "reclaim": Doing(
        RECLAIM,
        ReclaimForm,
        "Send for reclaim",
        "Book it",
        ("amount", "facility", "address", "paper"),
        "Photo of the paper",
    ),
    "gone": Doing(
        CYLINDER_GONE,
        GoneForm,
        "Given back or scrapped",
        "Book it",
        ("how", "facility", "address", "paper"),
        "Photo of the paper",
    ),
}
ON_ONE = ("weighing", "transfer", "reclaim", "gone")  # what is done with one cylinder


@require_safe
@signed_in()
def cylinders(request: HttpRequest) -> HttpResponse:
    """All; one (`cylinder`); the form of what is done (`do`), for those who work with them."""
    do, key = request.GET.get("do", ""), asked_key(request, "cylinder")
    row = cylinder_of(key) if key else None
    if do in DOINGS and role_of(request) in BAY and (row or do not in ON_ONE):
        return show_form(request, do, row)
    return show_one(request, row) if row else show_all(request)


@require_POST
@signed_in(*BAY)
def cylinders_tell(request: HttpRequest, do: str) -> HttpResponse:
    """What was told on one of the forms.

    Raises:
        Http404: there is no such form.

    """
    if do not in DOINGS:
        raise Http404("Nothing of that name is done with a cylinder.")
    kind = DOINGS[do].kind
    outcome = enter(kind, told_from_post(request, kind.version))
    key = as_key(request.POST.get("cylinder"))
    row = Cylinder.objects.filter(key=key).first() if key else None
    return answer(request, outcome, lambda form: show_form(request, do, row, form))


def cylinder_of(key: uuid.UUID) -> Cylinder:
    """The cylinder of a key.

    Raises:
        Http404: the list has none.

    """
    return get_object_or_404(Cylinder.objects.select_related("machine"), key=key)


def show_all(request: HttpRequest) -> HttpResponse:
    """The list: what is in each and what may be, with what is open on top."""
    rows = list(Cylinder.objects.select_related("machine"))
    sums = by_gas()
    unit = units_chosen().start(("g", "oz"))
    here = [one for one in rows if not one.gone_since]
    said = {
        "listed": [stands(one, as_held(one, sums.get(one.pk, {})), unit) for one in here],
        "gone": [one for one in rows if one.gone_since],
        "points": points_of_shop(rows, unit),
        "may_work": role_of(request) in BAY,
        "may_read_book": role_of(request) in (DESK, OWNER),
    }
    return render(request, "jobs/cylinders.html", said)


def stands(row: Cylinder, held: Held, unit: str) -> dict[str, Any]:
    """A cylinder as pages show it: by the book, and how full by both rules."""
    fill, today = held.fill, timezone.localdate()
    told = {
        "water": shown_mass(fill.by_water, unit) if fill.by_water is not None else "",
        "density": shown_mass(fill.by_density, unit) if fill.by_density is not None else "",
    }
    return {
        "row": row,
        "kind": words(CYLINDER_KINDS, row.kind),
        "gas": held.gas or ("any" if row.kind == "contaminated" else "not noted"),
        "has_refrigerant": row.kind not in ("nitrogen", "tracer"),
        "holds": shown_mass(held.mg, unit),
        "by_gas": [(gas or "Gas not named", shown_mass(mg, unit)) for gas, mg in mixed(held)],
        "most": shown_mass(fill.most, unit) if fill.most is not None else "",
        "room": shown_mass(max(fill.most - held.mg, 0), unit) if fill.most is not None else "",
        "rules": [(RULES[one], told[one], one == fill.rule) for one in RULES if told[one]],
        "past": bool(row.tested_until and row.tested_until < today),
    }


def mixed(held: Held) -> list[tuple[str, int]]:
    """What it holds by gas, where that is more than one."""
    return sorted(held.by_gas.items()) if len(held.by_gas) > 1 else []


def show_one(request: HttpRequest, row: Cylinder) -> HttpResponse:
    """One cylinder with what was done with it, and what may be."""
    chosen = units_chosen()
    unit, large = chosen.start(SMALL), chosen.start(LARGE)
    works = CylinderWork.objects.filter(cylinder=row) | CylinderWork.objects.filter(to_cylinder=row)
    listed = works.select_related("entry__author", "cylinder", "to_cylinder", "superseded_by")
    moves = with_all(moves_of(Asked(cylinder=row.key, taken_back=True)))[:MOVES]
    points: list[CylinderPoint] = points_of_shop([row], unit)
    said = {
        "one": stands(row, held_by(row), unit),
        "tare": shown_mass(row.tare_mg, large) if row.tare_mg is not None else "",
        "capacity": shown_mass(row.water_capacity_ul, large) if row.water_capacity_ul else "",
        "works": [work_line(one, unit) for one in listed.order_by("-at", "-id")[:MOVES]],
        "moves": [line(one, chosen) for one in moves],
        "points": points,
        "doings": [(name, DOINGS[name].title) for name in ON_ONE],
        "may_work": role_of(request) in BAY,
        "may_read_book": role_of(request) in (DESK, OWNER),
        "just": just_told(request, row, unit),
        "photos": Photo.objects.filter(entry__cylinder_work__cylinder=row).order_by("-id")[:6],
    }
    return render(request, "jobs/cylinders.html", said)


def work_line(one: CylinderWork, unit: str) -> dict[str, Any]:
    """One piece of work as its cylinder's page shows it."""
    papers = [one.told[name] for name in ("from_whom", "facility", "address") if one.told.get(name)]
    number = f"paper {one.told['paper']}" if one.told.get("paper") else ""
    return {
        "work": one,
        "words": one.words,
        "amount": shown_mass(one.amount_mg, unit) if one.amount_mg else "",
        "scale": scale_words(one, unit),
        "papers": ", ".join(filter(None, [*papers, number])),
        "note": one.told.get("note", ""),
        "do": one.what,
        "into": one.to_cylinder.name if one.to_cylinder else "",
    }


def scale_words(one: CylinderWork, unit: str) -> str:
    """What a weighing showed: scale, tare, what is in it, and the book at that moment."""
    if one.what != WEIGHED or one.taken_back:
        return ""
    large, read = "lb" if unit == "oz" else "kg", "by the machine’s own display"
    if one.gross_mg is not None and one.tare_mg is not None:
        read = f"scale {shown_mass(one.gross_mg, large)}, tare {shown_mass(one.tare_mg, large)}"
    if one.stands_mg is None:
        return f"{read}: not booked"
    booked = int(one.told.get("booked_mg", one.stands_mg))
    if booked == one.stands_mg:
        return f"{read}; scale and book agree: {shown_mass(booked, unit)}"
    more = "more" if one.stands_mg > booked else "less"
    off = shown_mass(abs(one.stands_mg - booked), unit)
    return (
        f"{read}: {shown_mass(one.stands_mg, unit)} in it, {off} {more} than the book had when"
        " this was entered"
    )


def just_told(request: HttpRequest, row: Cylinder, unit: str) -> dict[str, Any] | None:
    """What was booked a moment ago, with what is wrong with it."""
    key = as_key(request.GET.get("told"))
    works = CylinderWork.objects.select_related("entry__author", "to_cylinder")
    work = works.filter(key=key, cylinder=row).first() if key else None
    if work is None:
        return None
    marks = marks_in_words([work.entry])[work.entry.pk]
    return work_line(work, unit) | {"marks": [one.words for one in marks]}


def show_form(
    request: HttpRequest, do: str, row: Cylinder | None, form: forms.Form | None = None
) -> HttpResponse:
    """One form; of what corrects, filled as that was typed."""
    doing, chosen = DOINGS[do], units_chosen()
    works = CylinderWork.objects.filter(what=do, superseded_by=None)
    corrected = asked_original(request, works) if do != "cylinder" and not form else None
    asked = form or doing.form(initial=begun(do, row, corrected, chosen))
    held = held_by(row) if row else None
    corrects = request.POST.get("corrects") or (corrected.key if corrected else "")
    tail = ("taken_back", "corrected_why") if corrects and do != "cylinder" else ()
    said = {
        "do": do,
        "doing": doing,
        "row": row,
        "one": stands(row, held, chosen.start(SMALL)) if row and held else None,
        "form": asked,
        "fields": [asked[name] for name in shown_fields(doing, row, asked)],
        "tail": [asked[name] for name in tail],
        "is_done": asked["is_done"] if "is_done" in asked.errors or done(asked) else "",
        "corrects": corrects,
        "key": request.POST.get("key") or uuid.uuid4(),
        "photo_again": bool(request.FILES),
    }
    return render(request, "jobs/cylinders.html", said)


def done(form: forms.Form) -> bool:
    """Whether it says that it is done already."""
    return "is_done" in form.fields and bool(form["is_done"].value())


def shown_fields(doing: Doing, row: Cylinder | None, form: forms.Form) -> list[str]:
    """The fields of a form that are shown: a difference is asked about where there is one."""
    hidden: set[str] = set()
    asked = "explained" in form.errors
    if "explained" in form.fields and not (asked or form["explained"].value()):
        hidden |= {"explained"}
    if row and row.kind != "machine":
        hidden |= {"net"}
    machine = form.fields.get("machine")
    if isinstance(machine, forms.ChoiceField) and not machine.choices:
        hidden |= {"machine"}
    return [one for one in doing.fields if one not in hidden]


def begun(
    do: str, row: Cylinder | None, corrected: CylinderWork | None, chosen: ShownIn
) -> dict[str, Any]:
    """What a form begins with."""
    if do == "cylinder":
        return typed_in(row, chosen) if row else {}
    first: dict[str, Any] = {"cylinder": row.key.hex if row else "new"}
    if do == "weighing" and row:
        first["tare"] = filled(row.tare_mg, LARGE, chosen)
    if corrected is None:
        return first
    into = corrected.to_cylinder
    for name, mg in (("gross", corrected.gross_mg), ("tare", corrected.tare_mg)):
        first |= {name: filled(mg, LARGE, chosen)} if mg is not None else {}
    if corrected.gross_mg is None:
        first["net"] = filled(corrected.stands_mg, LARGE, chosen)
    return first | {
        **corrected.told,
        "why_asked": "1",
        "amount": filled(corrected.amount_mg, SMALL, chosen),
        "cylinder": corrected.cylinder.key.hex,
        "to_cylinder": into.key.hex if into else "",
    }
