"""What was done and used on a car, and the old parts, in sentences, as it stands on the job."""

from collections.abc import Iterable, Iterator

from jobs.ledger import both
from jobs.models.amounts import DYE, OIL, REFRIGERANT, STANDING, Move, total
from jobs.models.balances import oil_of_job
from jobs.models.changes import NOTHING, changes_of, standing
from jobs.models.jobs import Job
from jobs.models.old_parts import chosen
from jobs.models.taken_out import WENT, taken_out_of
from jobs.models.wordings import words

NEW_PART = "part"  # a place of amounts.PLACES
OWN_GRAMS = (
    "Of the refrigerant: {} came out of this car; whether it may go back, and what of it is"
    " charged for, is the shop’s rule."
)


def done_words(job: Job) -> Iterator[str]:
    """Changes on the car, then what went out of it and in; at most three queries."""
    for change in standing(changes_of(job)):
        if change.what != NOTHING:
            named = {"part": change.part_number, "serial": change.serial}
            fitted = [f"{name} {number}" for name, number in named.items() if number]
            fitted += [f"{one.words}: {one.number}" for one in change.parts if one.number]
            numbers = ", ".join(fitted)
            yield f"{change.words}{f' ({numbers})' if numbers else ''}."
    moves = list(moves_of(job))
    for substance, name in ((REFRIGERANT, "Refrigerant"), (OIL, "Oil"), (DYE, "Dye")):
        out, into = total(moves, substance, out=True), total(moves, substance, out=False)
        if out or into:
            told = {"out": out, "in": into}
            said = [f"{shown_amount(much, substance)} {way}" for way, much in told.items() if much]
            said += list(oil_aside(job, moves)) if substance == OIL else []
            yield f"{name}: {', '.join(said)}."


def oil_aside(job: Job, moves: Iterable[Move]) -> Iterator[str]:
    """Of the oil: what nobody measured, and what came in a new part."""
    if by_table := oil_of_job(job).by_table:
        yield f"{shown_amount(by_table, OIL)} more out by the maker’s table, not measured"
    came = total([one for one in moves if one.from_place == NEW_PART], OIL, out=False)
    if came:
        yield f"{shown_amount(came, OIL)} of what went in came in the new part"


def old_parts_words(job: Job) -> str:
    """What the customer chose of the old parts and where each is now; empty: nothing was told."""
    choice = chosen(job.old_part_choices.all())
    told = [f"Chosen by the customer: {choice.words}."] if choice else []
    went = taken_out_of(job)
    for change in standing(changes_of(job)) if went else ():
        if change.key in went and change.parts:
            where = words(WENT, went[change.key].went)
            told.append(f"{change.parts[0].words}: {where[:1].lower()}{where[1:]}.")
    return " ".join(told)


def moves_of(job: Job) -> Iterable[Move]:
    """The moves of a job that nothing took back."""
    return job.moves.filter(STANDING)


def put_in(job: Job) -> dict[str, int]:
    """The mg of refrigerant that went into the car, and the µL of oil out of the shop's stock.

    Oil that a new part came with is paid with the part.
    """
    moves = list(moves_of(job))
    oil = [one for one in moves if one.from_place != NEW_PART]
    return {REFRIGERANT: total(moves, REFRIGERANT, out=False), OIL: total(oil, OIL, out=False)}


def came_out_words(job: Job) -> str:
    """The car's own refrigerant, to stand beside the line of it; empty: none came out."""
    out = total(moves_of(job), REFRIGERANT, out=True)
    return OWN_GRAMS.format(shown_amount(out, REFRIGERANT)) if out else ""


def shown_amount(amount: int, substance: str) -> str:
    """Grams and ounces of refrigerant, milliliters of oil or dye."""
    if substance == REFRIGERANT:
        return both(amount)
    return f"{amount / 1000:g}\u00a0mL"
