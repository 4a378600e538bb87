"""The balance of a job's refrigerant told: rows for a drawing, a heading, sentences. Pure.

A row stands in milligrams, so that screen and paper draw the same; words are in the unit given.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.units import MINUS, NO_BREAK, shown, with_unit
from jobs.balance import Balance, Comeback, Cycle, Missing
from jobs.ledger import CHARGE_TOLERANCE_MG, MASS_UNITS, shown_mass

# bar: what was weighed. unknown: dotted, what may be there. length: an end-to-end line, worked out.
# back: open, taken back off what was drawn.
Looks = Literal["bar", "unknown", "length", "back"]
# By the kind of cylinder it came from; whether it was cleaned before is the book's to tell.
FROM = {"new": "new", "refillable": "from a refillable cylinder", "machine": "from the machine"}
CANNOT_TELL = "it leaked out or was not in it; we cannot tell which"
EVACUATED = "It was evacuated before it was charged; what was in it before nobody weighed."
ON_TOP_OF_IT = (
    "It was charged without taking anything out first: what was in it before is not known, so what"
    " is in it now is not known either."
)
HARDLY = (
    "Next to nothing came out. So it is with a full loop, too, where a coupler does not open the"
    " port’s valve: what was in the car is not known by this."
)
ON_TOP = (
    "How far the scale may be off is not counted in here. A test step that holds the grams against"
    " the label counts it in, so there they span wider."
)


@dataclass(frozen=True)
class Row:
    """One line of the drawing: from `start` to `end` in mg, `number` as it is told beside it.

    `group` numbers the parts between which a rule stands: label, what came out, what went in, sum.
    """

    code: str
    words: str
    number: str
    start: int
    end: int
    looks: Looks
    group: int
    strong: bool = False


def rows(balance: Balance, unit: str = "g") -> list[Row]:
    """The rows in their order; empty where nothing was moved yet. `unit`: of ledger.MASS_UNITS."""
    if not balance.cycles:
        return []
    made: list[Row] = []
    if balance.label is not None:
        number = shown_mass(balance.label, unit)
        made.append(Row("label", "Label charge", number, 0, balance.label, "length", 0))
    for count, cycle in enumerate(balance.cycles):
        group = 3 * count + 1
        made += taken_out(cycle, group, unit, again=count > 0)
        missing = balance.missing if not count else None
        if missing:
            made += missing_row(missing, cycle, balance.label or 0, group, unit)
        made += put_in(cycle, group + 1, unit)
    return made


def taken_out(cycle: Cycle, group: int, unit: str, *, again: bool) -> Iterator[Row]:
    """What came out, one row a pull, and what the machine may have left."""
    end = 0
    first = "Recovered again" if again else "Recovered"
    for count, mg in enumerate(cycle.pulls):
        words = f"{first}, pull {count + 1}" if len(cycle.pulls) > 1 else first
        yield Row("recovered", words, shown_mass(mg, unit), end, end + mg, "bar", group)
        end += mg
    if cycle.vented:
        number = shown_mass(cycle.vented, unit)
        yield Row("lost", "Lost", number, end, end + cycle.vented, "bar", group)
        end += cycle.vented
    if cycle.pulls and cycle.remainder is None:
        yield Row("unknown", "Unknown remainder", "not known", end, end, "unknown", group)
    elif cycle.pulls and cycle.remainder:
        number = f"up to {shown_mass(cycle.remainder, unit)}"
        ends = (end, end + cycle.remainder)
        yield Row("unknown", "Unknown remainder", number, *ends, "unknown", group)


def missing_row(missing: Missing, cycle: Cycle, label: int, group: int, unit: str) -> Iterator[Row]:
    """What the label has more than came out, as far as that can be told; or the other way round."""
    out = cycle.recovered + cycle.vented
    if missing.against == "above":
        number = f"at least {shown_mass(-missing.most, unit)}"
        yield Row("above", "Above the label", number, label, out, "length", group)
    elif missing.least is not None and missing.least > 0:
        number = f"at least {shown_mass(missing.least, unit)}"
        yield Row("missing", "Missing", number, label - missing.least, label, "length", group)
    elif missing.most:
        number = f"up to {shown_mass(missing.most, unit)}"
        yield Row("missing", "Missing, if any", number, out, label, "length", group)


def put_in(cycle: Cycle, group: int, unit: str) -> Iterator[Row]:
    """What was drawn to be charged, what stayed in the hose, and what is in the car by it."""
    if not cycle.charged_at:
        return
    end = 0
    for kind, mg in cycle.charges:
        words = f"Charged, {FROM[kind]}" if kind in FROM else "Charged"
        yield Row("drawn", words, shown_mass(mg, unit), end, end + mg, "bar", group)
        end += mg
    if cycle.hose > 0:
        number = f"{MINUS}{NO_BREAK}{shown_mass(cycle.hose, unit)}"
        yield Row("hose", "Left in the hose", number, end - cycle.hose, end, "back", group)
    elif cycle.hose < 0:
        ends = (end, end - cycle.hose)
        yield Row("hose", "Out of the hose", shown_mass(-cycle.hose, unit), *ends, "bar", group)
    into = shown_mass(abs(cycle.into_car), unit)
    number = into if cycle.into_car >= 0 else f"{MINUS}{NO_BREAK}{into}"
    sum_row = ("charged", "Charged into the car", number, 0, max(cycle.into_car, 0), "bar")
    yield Row(*sum_row, group + 1, strong=True)  # type: ignore[arg-type]


def heading(balance: Balance, unit: str = "g") -> str:
    """The finding in a line: Every gram: 515 g charged, label 520 ± 15 g."""
    if not balance.cycles:
        return "Every gram: nothing moved yet"
    last = balance.cycles[-1]
    done = "charged" if last.charged_at else "recovered"
    out = last.recovered + last.vented
    amount = shown_mass(last.into_car if last.charged_at else out, unit)
    if balance.label is None:
        return f"Every gram: {amount} {done}, label not noted"
    bare = shown_mass(balance.label, unit).rpartition(NO_BREAK)[0]
    within = f"{bare}{NO_BREAK}±{NO_BREAK}{shown_mass(CHARGE_TOLERANCE_MG, unit)}"
    told = within if last.charged_at else shown_mass(balance.label, unit)
    return f"Every gram: {amount} {done}, label {told}"


def sentences(balance: Balance, unit: str = "g") -> list[str]:
    """What the grams tell, and what they do not."""
    told: list[str] = []
    for count, cycle in enumerate(balance.cycles):
        if cycle.hardly:
            told.append(HARDLY)
        elif cycle.pulls:
            told.append(left_words(cycle, unit) + against_words(balance, cycle, count, unit))
        elif cycle.charged_at:
            told.append(EVACUATED if cycle.evacuated else ON_TOP_OF_IT)
        told += charged_words(balance, cycle, unit)
    if balance.comeback:
        told.append(comeback_words(balance.comeback, unit))
    return [*told, ON_TOP] if told else []


def left_words(cycle: Cycle, unit: str) -> str:
    """What such a machine takes out, and what was in the car by it."""
    if cycle.remainder is None or cycle.share is None:
        return (
            "How much the machine left in it is not known, because its class, the temperature or"
            " the refrigerant was not told or nothing is known of it: what was recovered is the"
            " least that was in the car"
        )
    most = shown_mass(cycle.recovered + cycle.vented + cycle.remainder, unit)
    share = shown(100 * cycle.share, 0)
    return f"The machine takes out at least {share}{NO_BREAK}%: at most {most} were in the car"


def against_words(balance: Balance, cycle: Cycle, count: int, unit: str) -> str:
    """How it stands to the label, in what follows those words."""
    stays = " The remainder stays unknown; it is not booked as lost." if cycle.remainder else ""
    missing = balance.missing if not count else None
    if missing is None:
        return f".{stays}"
    if missing.against == "above":
        over = shown_mass(-missing.most, unit)
        return (
            f". At least {over} more than the label came out: it was filled above it, or air,"
            f" another gas or oil came along.{stays}"
        )
    if missing.least is not None and missing.least > 0:
        least = shown_mass(missing.least, unit)
        return f", so at least {least} were missing: {CANNOT_TELL}.{stays}"
    return f". Whether any of the label’s charge was missing cannot be told.{stays}"


def charged_words(balance: Balance, cycle: Cycle, unit: str) -> Iterator[str]:
    """How what went in stands to the label."""
    if not cycle.charged_at or balance.label is None or not cycle.emptied:
        return
    differs = cycle.into_car - balance.label
    amount = shown_mass(abs(differs), unit)
    side = "above" if differs > 0 else "below"
    close = "within" if abs(differs) <= CHARGE_TOLERANCE_MG else "more than"
    off = shown_mass(CHARGE_TOLERANCE_MG, unit)
    ends = f"{close} the ±{NO_BREAK}{off} that a charge by weight may be off"
    into = shown_mass(cycle.into_car, unit)
    yield (
        f"{into} went in, what the label says."
        if not differs
        else f"{into} went in, {amount} {side} the label, {ends}."
    )


def comeback_words(back: Comeback, unit: str) -> str:
    """What went a day since the visit before charged it."""
    days = shown(back.days, 0 if back.days >= 2 else 1)
    first = (
        f"{days} days before, {shown_mass(back.charged, unit)} were charged;"
        f" {shown_mass(back.recovered, unit)} came out now"
    )
    if back.most is None or back.least is None:
        return f"{first}. {back.why}"
    if not back.most:
        return f"{first}: no less than was charged."
    ends = [rate(mg, unit) for mg in (back.least, back.most)]
    if not back.least:
        return f"{first}: at most {with_unit(ends[1], unit)} a day went."
    if ends[0] == ends[1]:
        return f"{first}: about {with_unit(ends[0], unit)} a day went."
    return f"{first}: {ends[0]} to {with_unit(ends[1], unit)} a day went."


def rate(mg: int, unit: str) -> str:
    """A day's loss as a number, finer than grams are told."""
    return shown(float(mg / MASS_UNITS[unit]), 1 if unit == "g" else 2)
