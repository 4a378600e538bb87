"""The drawing of a car's A/C from above: places to tap, as answers of a form or as links."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from django import template
from django.forms.boundfield import BoundField

from jobs.models.ac_places import BESIDE, ORIFICE, ACPlace, Fitted, lines_of, places_of

register = template.Library()
WIDE, NARROW = "abcd", "bcd"
CABIN_FROM = 4  # the row behind the firewall


@dataclass(frozen=True)
class Tile:
    """A place where it stands: `wide` and `narrow` are (column, row) in the two arrangements.

    `count` is how many photos are filed there, `address` where they are shown.
    """

    place: ACPlace
    wide: tuple[str, int]
    narrow: tuple[str, int]
    chosen: bool
    count: int
    address: str


@dataclass(frozen=True)
class Stroke:
    """One straight line, in percent of the drawing."""

    x1: str
    y1: str
    x2: str
    y2: str
    looks: str


@dataclass(frozen=True)
class Sheet:
    """The lines of one arrangement; `body` is how much of its height the car takes."""

    name: str
    strokes: list[Stroke]
    body: str
    columns: int


@register.inclusion_tag("jobs/_car_plan.html")
def car_plan_asked(system: Fitted | None, field: BoundField) -> dict[str, Any]:
    """The drawing as one question: each place is an answer."""
    chosen = str(field.value() or "")
    return drawn(system, {}, chosen, "") | {"field": field}


@register.inclusion_tag("jobs/_car_plan.html")
def car_plan_counted(
    system: Fitted, counts: Mapping[str, int], asked: str, address: str
) -> dict[str, Any]:
    """The drawing with the number of photos at each place, as a link to them."""
    return drawn(system, counts, asked, address) | {"field": None}


def drawn(
    system: Fitted | None, counts: Mapping[str, int], chosen: str, address: str
) -> dict[str, Any]:
    """What the template needs."""
    here = places_of(system)
    rows = max(one.row for one in here)
    narrow = arranged(here, rows)
    tiles = [
        tile(one, (one.column, one.row), narrow[one.code], counts, chosen, address) for one in here
    ]
    nowhere = ("", 0)
    beside = [tile(one, nowhere, nowhere, counts, chosen, address) for one in BESIDE]
    deepest = max(row for _, row in narrow.values())
    orifice = bool(system and system.expansion == ORIFICE)
    strokes = list(lines_of(system, here))
    return {
        "tiles": tiles,
        "beside": beside,
        "sheets": [
            sheet("wide", WIDE, rows, rows, strokes, orifice),
            sheet("narrow", NARROW, rows, deepest, strokes, orifice),
        ],
    }


def tile(
    one: ACPlace,
    wide: tuple[str, int],
    narrow: tuple[str, int],
    counts: Mapping[str, int],
    chosen: str,
    address: str,
) -> Tile:
    """A place with what is known of it."""
    count = counts.get(one.code, 0)
    link = f"{address}&{urlencode({'place': one.code})}" if address and count else ""
    return Tile(one, wide, narrow, chosen == one.code, count, link)


def arranged(here: list[ACPlace], rows: int) -> dict[str, tuple[str, int]]:
    """Where each place stands on a narrow screen: column a goes below, three beside each other."""
    found = {one.code: (one.column, one.row) for one in here if one.column in NARROW}
    aside = [one.code for one in here if one.column not in NARROW]
    first = rows * len(NARROW)
    if ("b", rows) not in found.values() and rows > CABIN_FROM:
        found[aside.pop()] = ("b", rows)  # beside the units at the back
    for number, code in enumerate(aside, start=first):
        found[code] = (NARROW[number % len(NARROW)], number // len(NARROW) + 1)
    return found


def sheet(
    name: str,
    columns: str,
    rows: int,
    deepest: int,
    lines: list[tuple[ACPlace, ACPlace, bool]],
    orifice: bool,
) -> Sheet:
    """The lines of one arrangement, from middle to middle; the places stand before them."""

    def across(one: ACPlace) -> str:
        return percent((columns.index(one.column) + 0.5) / len(columns))

    def down(one: ACPlace) -> str:
        return percent((one.row - 0.5) / deepest)

    strokes = [
        Stroke(across(one), down(one), across(other), down(other), "low" if low else "high")
        for one, other, low in lines
    ]
    strokes += firewall(columns, deepest, orifice)
    return Sheet(name, strokes, percent(rows / deepest), len(columns))


def firewall(columns: str, deepest: int, orifice: bool) -> list[Stroke]:
    """The line between engine bay and cabin; an accumulator stands before it."""
    level, lower = percent((CABIN_FROM - 1) / deepest), percent(CABIN_FROM / deepest)
    edge = [percent(number / len(columns)) for number in range(len(columns) + 1)]
    if not orifice:
        return [Stroke(edge[0], level, edge[-1], level, "wall")]
    at = columns.index("c")
    return [
        Stroke(edge[0], level, edge[at], level, "wall"),
        Stroke(edge[at], level, edge[at], lower, "wall"),
        Stroke(edge[at], lower, edge[at + 1], lower, "wall"),
        Stroke(edge[at + 1], lower, edge[at + 1], level, "wall"),
        Stroke(edge[at + 1], level, edge[-1], level, "wall"),
    ]


def percent(share: float) -> str:
    """A share as SVG has it."""
    return f"{share * 100:.4g}%"
