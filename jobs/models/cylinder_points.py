"""What is wrong with cylinders by the book, and with moves that were booked all the same."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from django.db.models import F, Q, QuerySet
from django.utils import timezone

from jobs.cylinder_limits import NEVER_CHARGED_FROM, NEVER_FILLED, NO_REFRIGERANT, RULES, Held
from jobs.ledger import shown_mass
from jobs.models.amounts import CAR, REFRIGERANT, STANDING, Cylinder, Move
from jobs.models.cylinder_works import GONE, PURCHASE, RECLAIM, CylinderWork
from jobs.models.cylinders import as_held, by_gas
from jobs.models.jobs import Job
from jobs.models.qualifications import day_words
from jobs.models.shop import units_chosen

# What the book says now, where a mark says what it said then.
OF_NOW = ("cylinder_below_zero", "cylinder_overfull", "cylinder_second_gas", "cylinder_gone")
SHOWN_MAX = 50  # points of moves on one page; the book has all


@dataclass(frozen=True)
class CylinderPoint:
    """One thing to look at. `about` tells it from others of its code; `job` is that of its move."""

    code: str
    sentence: str
    cylinder: Cylinder
    about: str
    job: Job | None = None


def points_of_shop(cylinders: Sequence[Cylinder], unit: str = "g") -> list[CylinderPoint]:
    """All that is open about these cylinders, in a fixed number of queries."""
    sums = by_gas([one.pk for one in cylinders])
    now = [point for one in cylinders for point in of_state(one, sums.get(one.pk, {}), unit)]
    moves = odd_moves().select_related("job")[:SHOWN_MAX]
    papers = CylinderWork.objects.filter(superseded_by=None, taken_back=False)
    listed = papers.filter(what__in=(PURCHASE, RECLAIM, GONE)).select_related("cylinder")
    keys = {one.pk for one in cylinders}
    return [
        *now,
        *(point for point in of_moves(moves) if point.cylinder.pk in keys),
        *(point for one in listed if one.cylinder_id in keys for point in of_paper(one)),
    ]


def points_of_job(job: Job) -> list[CylinderPoint]:
    """What the book says now of the cylinders that a job's refrigerant went through.

    What was wrong when it was booked stands in the marks of the job's work.
    """
    moves = job.moves.filter(STANDING, substance=REFRIGERANT).select_related(*SIDES)
    touched = {one.pk: one for move in moves for one in cylinders_of(move)}
    if not touched:
        return []
    sums, unit = by_gas(list(touched)), units_chosen().start(("g", "oz"))
    listed = [one for _, one in sorted(touched.items())]
    return [point for one in listed for point in of_state(one, sums.get(one.pk, {}), unit)]


SIDES = ("from_cylinder", "to_cylinder")


def odd_moves() -> QuerySet[Move]:
    """Standing moves that went where they should not, the latest first."""
    into = (
        Q(to_cylinder__tested_until__lt=timezone.localdate())
        & Q(to_cylinder__tested_until__lt=F("happened_at__date"))
        | Q(to_cylinder__kind__in=NO_REFRIGERANT)
        | (Q(to_cylinder__kind__in=NEVER_FILLED) & Q(from_place__in=(CAR, "cylinder", "hose")))
    )
    out = Q(to_place=CAR, from_cylinder__kind__in=NEVER_CHARGED_FROM)
    found = Move.objects.filter(STANDING, into | out, substance=REFRIGERANT)
    return found.select_related(*SIDES).order_by("-happened_at", "-id")


def cylinders_of(move: Move) -> Iterator[Cylinder]:
    """The cylinders at both ends of a move."""
    if move.from_cylinder:
        yield move.from_cylinder
    if move.to_cylinder:
        yield move.to_cylinder


def of_state(one: Cylinder, gases: Mapping[str, int], unit: str) -> Iterator[CylinderPoint]:
    """What the book says of a cylinder that cannot be, or must not stay so."""
    held = as_held(one, dict(gases))
    for code, sentence in wrong_now(one.name, held, unit):
        yield CylinderPoint(code, sentence, one, f"{one.key}")


def wrong_now(name: str, held: Held, unit: str) -> Iterator[tuple[str, str]]:
    """(code, sentence) of each; nothing of it refuses a move."""
    fill = held.fill
    if held.gone_since and held.mg:
        told = f"{name} is gone since {day_words(held.gone_since)}, and the book has"
        yield "cylinder_gone", f"{told} {shown_mass(held.mg, unit)} in it. Look at what came later."
        return
    if held.mg < 0:
        below = shown_mass(-held.mg, unit)
        yield "cylinder_below_zero", f"Book {below} below zero: weigh {in_line(name)}."
    elif fill.most is not None and fill.rule and held.mg > fill.most:
        sentence = (
            f"{name} holds {shown_mass(held.mg, unit)} by the book; it may hold"
            f" {shown_mass(fill.most, unit)} ({RULES[fill.rule]}). Empty it down to that."
        )
        yield "cylinder_overfull", sentence
    gases = {gas for gas, mg in held.by_gas.items() if mg > 0} | {held.refrigerant} - {""}
    if held.kind not in ("contaminated", *NO_REFRIGERANT) and held.mg > 0 and len(gases) > 1:
        told = ", ".join(sorted(one or "a gas nobody named" for one in gases))
        sentence = (
            f"{name} has more than one refrigerant in it by the book ({told}): not to be charged"
            " from."
        )
        yield "cylinder_second_gas", sentence


def of_moves(moves: Iterable[Move]) -> Iterator[CylinderPoint]:
    """What is wrong with moves that were booked all the same."""
    for move in moves:
        into, out = move.to_cylinder, move.from_cylinder
        day = timezone.localdate(move.happened_at)
        when = f"Booked {day_words(day)}:"
        about = f"{move.entry_id} {move.number}"
        if into and into.tested_until and into.tested_until < day:
            sentence = f"{when} {in_line(into.name)} is past its test date and was filled."
            yield CylinderPoint("cylinder_past_test", sentence, into, about, move.job)
        if into and into.kind in NO_REFRIGERANT:
            sentence = f"{when} refrigerant into {in_line(into.name)}, which takes none."
            yield CylinderPoint("cylinder_no_refrigerant", sentence, into, about, move.job)
        if into and into.kind in NEVER_FILLED and move.from_place in (CAR, "cylinder", "hose"):
            sentence = f"{when} {in_line(into.name)} cannot be refilled and was filled."
            yield CylinderPoint("cylinder_not_refillable", sentence, into, about, move.job)
        if out and move.to_place == CAR and out.kind in NEVER_CHARGED_FROM:
            sentence = f"{when} a car was charged from {in_line(out.name)}, which is never to be."
            yield CylinderPoint("cylinder_never_charged", sentence, out, about, move.job)


def of_paper(work: CylinderWork) -> Iterator[CylinderPoint]:
    """What is not noted yet about a paper that may have to be shown."""
    needed = {PURCHASE: {"from_whom": "from whom", "paper": "the paper’s number"}}
    facility = {"facility": "the facility", "address": "its address", "paper": "the paper’s number"}
    asked = needed.get(work.what, facility)
    if work.what == GONE and work.told.get("how") == "scrapped":
        return
    missing = [words for name, words in asked.items() if not work.told.get(name)]
    if missing:
        day = day_words(timezone.localdate(work.at))
        sentence = f"{work.words}, {in_line(work.cylinder.name)}, {day}: not noted yet:"
        about = f"{work.key} {','.join(missing)}"
        words = f"{sentence} {', '.join(missing)}."
        yield CylinderPoint("cylinder_paper", words, work.cylinder, about)


def in_line(name: str) -> str:
    """A cylinder's name inside a sentence: cylinder 3; other names as they are."""
    first, _, rest = name.partition(" ")
    return f"{first.lower()} {rest}" if rest.isdigit() else name
