"""The refrigerant book: moves by cylinder, job, person and day; sums that the database makes."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import astuple, dataclass, field
from datetime import date, datetime, time, timedelta
from typing import Any
from uuid import UUID

from django.db.models import Case, Count, IntegerField, Max, Min, Q, QuerySet, Sum, Value, When
from django.utils import timezone

from jobs.models.amounts import CAR, CYLINDER, HOSE, REFRIGERANT, STANDING, WORKS, Move
from jobs.models.oils import OILS
from jobs.models.wordings import words

# A place as one end of a move: (out of it, into it).
ENDS = {
    "car": ("the car", "the car"),
    "hose": ("hoses", "hoses"),
    "unnamed": ("a cylinder that is not listed", "a cylinder that is not listed"),
    "supplier": ("bought", "given back to the supplier"),
    "stock": ("oil shelf", "oil shelf"),
    "part": ("a new part", "a new part"),
    "waste": ("used oil", "used oil"),
    "reclaim": ("reclaim", "sent for reclaim"),
    "lost": ("lost", "lost"),
    "unexplained": ("not explained", "not explained"),
}
# What a line can be looked for by: the moves of it.
SORTS: dict[str, tuple[str, Q]] = {
    "bought": ("Bought or given back", Q(from_place="supplier") | Q(to_place="supplier")),
    "recovered": ("Out of cars", Q(from_place=CAR)),
    "charged": ("Into cars", Q(to_place=CAR)),
    "reclaim": ("Sent for reclaim", Q(to_place="reclaim")),
    "lost": ("Lost", Q(to_place="lost")),
    "unexplained": ("Not explained", Q(from_place="unexplained") | Q(to_place="unexplained")),
    "between": ("Between cylinders", Q(from_place=CYLINDER, to_place=CYLINDER)),
}


@dataclass(frozen=True)
class Asked:
    """Which lines of the book are asked for; days are the shop's, both included."""

    cylinder: UUID | None = None
    job: UUID | None = None
    person: UUID | None = None
    gas: str = ""
    sort: str = ""
    since: date | None = None
    until: date | None = None
    taken_back: bool = False


def moves_of(asked: Asked) -> QuerySet[Move]:
    """The lines asked for, the latest first, with all that a line shows."""
    found = Move.objects.all()
    if not asked.taken_back:
        found = found.filter(STANDING)
    if asked.cylinder:
        both = Q(from_cylinder__key=asked.cylinder) | Q(to_cylinder__key=asked.cylinder)
        found = found.filter(both)
    if asked.job:
        found = found.filter(job__key=asked.job)
    if asked.person:
        found = found.filter(entry__author__key=asked.person)
    if asked.gas:
        found = found.filter(substance=REFRIGERANT, gas=asked.gas)
    if asked.sort in SORTS:
        found = found.filter(SORTS[asked.sort][1])
    if asked.since:
        found = found.filter(happened_at__gte=start_of_day(asked.since))
    if asked.until:
        found = found.filter(happened_at__lt=start_of_day(asked.until + timedelta(days=1)))
    return found.order_by("-happened_at", "-id")


BESIDE = (
    *("from_cylinder", "to_cylinder", "job__vehicle", "entry__author", "undone_by"),
    *("entry__cylinder_work", "entry__loop_work"),
)
SHOWN = (
    *("number", "substance", "gas", "amount", "from_place", "to_place", "happened_at", "undoes"),
    *("from_cylinder__name", "to_cylinder__name", "job__key", "job__number", "undone_by__undoes"),
    *("job__vehicle__plate", "entry__key", "entry__author__name", "entry__loop_work__what"),
    *("entry__loop_work__entry", "entry__cylinder_work__what", "entry__cylinder_work__told"),
    "entry__cylinder_work__entry",
)


def with_all(moves: QuerySet[Move]) -> QuerySet[Move]:
    """The same with what a line shows and no more, in one query."""
    return moves.select_related(*BESIDE).only(*SHOWN)


def page_of(moves: QuerySet[Move], start: int, count: int) -> list[Move]:
    """So many lines from one on: first which they are, then what they show."""
    keys = list(moves.values_list("pk", flat=True)[start : start + count])
    found = Move.objects.filter(pk__in=keys).order_by("-happened_at", "-id")
    return list(with_all(found))


def start_of_day(day: date) -> datetime:
    """When a day begins in the shop's zone."""
    return timezone.make_aware(datetime.combine(day, time.min))


def ends(move: Move) -> tuple[str, str]:
    """Out of what and into what, in words."""
    out = move.from_cylinder.name if move.from_cylinder else ENDS[move.from_place][0]
    into = move.to_cylinder.name if move.to_cylinder else ENDS[move.to_place][1]
    return out, into


def why(move: Move) -> str:
    """By which work it moved."""
    work = getattr(move.entry, "cylinder_work", None)
    if work:
        return str(work.words)
    loop_work = getattr(move.entry, "loop_work", None)
    return words(WORKS, loop_work.what) if loop_work else ""


@dataclass
class Sums:
    """What one refrigerant did in one span of time, in mg.

    `stock` is what cylinders held at its end, `unexplained` what was found more than the book had,
    less what was missing, `hoses` what went into hoses less what came out.
    """

    bought: int = 0
    given_back: int = 0
    recovered: int = 0
    charged: int = 0
    reclaimed: int = 0
    lost: int = 0
    unexplained: int = 0
    hoses: int = 0
    stock: int = 0

    @property
    def moved(self) -> bool:
        """Whether anything moved."""
        told = (self.bought, self.given_back, self.recovered, self.charged, self.reclaimed)
        return any((*told, self.lost, self.unexplained, self.hoses))

    def plus(self, other: "Sums") -> "Sums":
        """Both together."""
        return Sums(*(mine + its for mine, its in zip(astuple(self), astuple(other), strict=True)))

    def count(self, out: str, into: str, mg: int) -> None:
        """Count a move."""
        self.stock += mg * ((into == CYLINDER) - (out == CYLINDER))
        self.hoses += mg * ((into == HOSE) - (out == HOSE))
        self.unexplained += mg * ((out == "unexplained") - (into == "unexplained"))
        self.bought += mg * (out == "supplier")
        self.given_back += mg * (into == "supplier")
        self.recovered += mg * (out == CAR)
        self.charged += mg * (into == CAR)
        self.reclaimed += mg * (into == "reclaim")
        self.lost += mg * (into == "lost")


@dataclass(frozen=True)
class Span:
    """A month or year with its sums by refrigerant."""

    since: datetime
    sums: Mapping[str, Sums] = field(default_factory=dict)


Found = Mapping[tuple[int, str], Sums]  # by the number of the edge at its end, and the gas


def summed(edges: Sequence[datetime]) -> Found:
    """Sums of the times up to each edge, from the edge before on.

    What was taken back is subtracted where it stood, so it counts nowhere.
    """
    inside = [When(happened_at__lt=edge, then=Value(number)) for number, edge in enumerate(edges)]
    span = Case(*inside, default=Value(len(edges)), output_field=IntegerField())
    told = Move.objects.filter(substance=REFRIGERANT, happened_at__lt=edges[-1]).order_by()
    rows = (
        told.annotate(span=span, back=Case(When(undoes=None, then=Value(0)), default=Value(1)))
        .values_list("span", "gas", "from_place", "to_place", "back")
        .annotate(Sum("amount"))
    )
    found: dict[tuple[int, str], Sums] = {}
    for number, gas, out, into, back, amount in rows:
        one = found.setdefault((number, gas), Sums())
        if back:
            one.count(into, out, -amount)
        else:
            one.count(out, into, amount)
    return found


def put_together(found: Found, fine: Sequence[datetime], edges: Sequence[datetime]) -> Found:
    """The same by fewer edges; what comes after the last of them is left out."""
    sums: dict[tuple[int, str], Sums] = {}
    for (number, gas), one in found.items():
        place = next((at for at, edge in enumerate(edges) if edge >= fine[number]), None)
        if place is not None:
            before = sums.get((place, gas), Sums())
            sums[place, gas] = before.plus(one)
    return sums


def carried(edges: Sequence[datetime], found: Found) -> list[Span]:
    """Spans with what was in stock before each carried on.

    Where nothing moved the stock is as before: that is told of the last span alone.
    """
    gases = sorted({gas for _, gas in found})
    stock = {gas: found[0, gas].stock if (0, gas) in found else 0 for gas in gases}
    listed = []
    for number, since in enumerate(edges[:-1], start=1):
        sums = {}
        for gas in gases:
            one = found.get((number, gas), Sums())
            moved = one.moved or bool(one.stock)
            stock[gas] = one.stock = stock[gas] + one.stock
            if moved or (number == len(edges) - 1 and one.stock):
                sums[gas] = one
        listed.append(Span(since, sums))
    return listed


def months_and_years(year: int, first: int, last: int) -> tuple[list[Span], list[Span]]:
    """The months of a year, as far as they have begun, and whole years; all in one query.

    Months and years begin at midnight in the shop's zone.
    """
    edges_of_months = [start_of_day(date(year, month, 1)) for month in range(1, 13)]
    begun = [edge for edge in edges_of_months if edge <= timezone.now()] or edges_of_months[:1]
    ends_of_months = [*edges_of_months, start_of_day(date(year + 1, 1, 1))]
    months = ends_of_months[: len(begun) + 1]
    years = [start_of_day(date(one, 1, 1)) for one in range(first, last + 2)]
    edges = sorted({*months, *years})
    found = summed(edges)
    return carried(months, put_together(found, edges, months)), carried(
        years, put_together(found, edges, years)
    )


def years_told() -> tuple[int, int]:
    """The first and the last year of which the book has a move; this year where it has none."""
    told = Move.objects.aggregate(Min("happened_at"), Max("happened_at"))
    this = timezone.localdate().year
    first, last = told["happened_at__min"], told["happened_at__max"]
    return (
        timezone.localtime(first).year if first else this,
        max(timezone.localtime(last).year if last else this, this),
    )


def counted(moves: QuerySet[Move]) -> dict[str, int]:
    """How many lines, and the mass of refrigerant in those that stand."""
    told = moves.order_by().aggregate(
        lines=Count("id"),
        mg=Sum("amount", filter=STANDING & Q(substance=REFRIGERANT)),
    )
    return {"lines": told["lines"], "mg": told["mg"] or 0}


def cell(value: Any) -> str:
    """A value for a table that a spreadsheet opens: what would be a formula there becomes text.

    Source: OWASP, "CSV Injection": a cell that begins with = + - @, tab or return gets a quote.
    """
    text = "" if value is None else str(value)
    risky = text[:1] in (
        "=",
        "+",
        "-",
        "@",
        "\t",
        "\r",
        "\n",
        "\uff1d",
        "\uff0b",
        "\uff0d",
        "\uff20",
    )
    return f"'{text}" if risky and not isinstance(value, int) else text


def table(moves: Iterable[Move], shown: Any) -> Iterable[list[str]]:
    """Lines of the book for a spreadsheet: times with zone, whole mg or µL, then as shown."""
    yield list(COLUMNS)
    for one in moves:
        out, into = ends(one)
        listed = (
            timezone.localtime(one.happened_at).isoformat(timespec="seconds"),
            one.substance,
            OILS.get(one.gas, one.gas),
            one.amount,
            "mg" if one.substance == REFRIGERANT else "µL",
            shown(one),
            out,
            into,
            one.job.number if one.job else "",
            one.job.vehicle.plate if one.job else "",
            one.entry.author.name,
            why(one),
            "takes back" if one.undoes_id else "taken back" if hasattr(one, "undone_by") else "",
            str(one.entry.key),
            f"{one.number}",
        )
        yield [cell(value) for value in listed]


COLUMNS = (
    *("time", "substance", "refrigerant or oil", "amount", "unit", "shown", "from", "to", "job"),
    *("plate", "person", "work", "correction", "entry", "line"),
)
