"""A comeback: the last readings of the job it follows beside today's, and what cannot be compared.

Vent temperatures stand beside each other under like conditions only: what a vent gives hangs on the
air that goes in, its moisture, engine speed, blower, doors and the minutes run (trade articles).
How far apart is still alike is our judgement.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from django import template
from django.utils import timezone

from diagnostics.assess import Assessed, readings_of, steps_of
from diagnostics.evidence.fields import Field, Number, shown_reading
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.evidence.twin_rules import ALIKE
from diagnostics.evidence.twin_words import typed
from diagnostics.physics.shown_units import DIFFERENCE, ShownIn
from jobs.models import Job

register = template.Library()
VENT, RECOVERED = "vent_temperature", "recovered_share"


@dataclass(frozen=True)
class Row:
    """One value then and today, in words."""

    words: str
    then: str
    today: str


@dataclass(frozen=True)
class Beside:
    """One kind of test made in both jobs. `other` says what was not the same, or not told."""

    title: str
    when: str  # after or before the last change of that job
    rows: Sequence[Row]
    other: Sequence[str]
    compared: bool


@dataclass(frozen=True)
class Comeback:
    """The job that is followed, the days since, and what both jobs tell."""

    job: Job
    days: int
    beside: Sequence[Beside]
    grams: str


@register.simple_tag
def comeback(job: Job | None, made: Sequence[Assessed]) -> Comeback | None:
    """Last time beside today, in three queries; None where the job follows none."""
    if job is None or job.follows_id is None:
        return None
    rows = Job.objects.select_related("customer", "vehicle__system")
    then = rows.prefetch_related("car_states").get(pk=job.follows_id)
    steps = steps_of(then, then.car_states.all())
    last, today = by_kind(steps), by_kind(made)
    changed = max((state.number for state in then.car_states.all()), default=0)
    pairs = [beside(last[name], today[name], changed) for name in today if name in last]
    worked = [*(one.step.made_at for one in steps), *(s.opened_at for s in then.car_states.all())]
    return Comeback(then, days_between(worked, job.opened_at), pairs, grams(today.get(RECOVERED)))


def by_kind(made: Iterable[Assessed]) -> dict[str, Assessed]:
    """The last test that stands of each kind, by the time at which it was made."""
    standing = [one for one in made if one.stands and one.kind and one.meaning]
    return {one.step.kind: one for one in sorted(standing, key=lambda one: one.step.made_at)}


def beside(then: Assessed, today: Assessed, changed: int) -> Beside:
    """Two tests of a kind: outcome and numbers, and the conditions that are not alike."""
    was, now = readings_of(then.step), readings_of(today.step)
    not_alike = list(conditions_apart(then, was, now))
    compared = not (then.step.kind == VENT and not_alike)
    rows = [
        *numbers(then, was, now, today.units),
        Row("Came out as", outcome(then), outcome(today)),
    ]
    if not changed:
        when = "no change on the car was entered then"
    else:
        when = "after the repair" if then.step.state_then == changed else "before the last change"
    return Beside(then.title, when, rows if compared else (), not_alike, compared)


def outcome(one: Assessed) -> str:
    """How a test came out, in a few words."""
    return one.came_out.words if one.came_out else ""


def numbers(then: Assessed, was: Readings, now: Readings, units: ShownIn) -> Iterator[Row]:
    """What was measured both times, and how far apart; a figure, no judgement."""
    for asked in then.kind.fields if then.kind else ():
        one, other = was.get(asked.name), now.get(asked.name)
        if not isinstance(asked, Number) or asked.condition:
            continue
        if isinstance(one, Reading) and isinstance(other, Reading):
            apart_by = difference(asked, one, other, units)
            yield Row(asked.question, typed(one, units), f"{typed(other, units)}: {apart_by}")


def difference(asked: Number, one: Reading, other: Reading, units: ShownIn) -> str:
    """How much more or less was read today than then."""
    unit = DIFFERENCE.get(asked.unit, asked.unit)
    more, less = ("warmer", "colder") if unit != asked.unit else ("more", "less")
    apart_by = other.si - one.si
    if not apart_by:
        return "the same"
    text = units.text(abs(apart_by), unit, max(one.decimals, other.decimals))
    return f"{text} {more if apart_by > 0 else less} than then"


def conditions_apart(then: Assessed, was: Readings, now: Readings) -> Iterator[str]:
    """The conditions that were not the same, or not told both times."""
    vent = then.step.kind == VENT
    for asked in then.kind.fields if then.kind else ():
        if not (asked.condition or (vent and asked.name in ALIKE)):
            continue
        one, other = was.get(asked.name), now.get(asked.name)
        if one is None and other is None:
            if vent:
                yield f"{asked.question}: not told either time"
        elif one is None or other is None:
            told = shown_reading(asked, one if other is None else other)  # type: ignore[arg-type]
            when, missing = ("then", "today") if other is None else ("today", "then")
            yield f"{asked.question}: {told} {when}, not told {missing}"
        elif apart(asked, one, other):
            texts = [shown_reading(asked, reading) for reading in (one, other)]
            yield f"{asked.question}: {texts[0]} then, {texts[1]} today"


def apart(asked: Field, one: Reading | str, other: Reading | str) -> bool:
    """Whether two readings of a condition are not alike."""
    if isinstance(one, Reading) and isinstance(other, Reading):
        return abs(one.si - other.si) > ALIKE.get(asked.name, 0.0)
    return one != other


def days_between(worked: Sequence[datetime], opened_at: datetime) -> int:
    """Whole days from the last work then to the day the car came back."""
    last = max((at for at in worked if at <= opened_at), default=opened_at)
    return (timezone.localdate(opened_at) - timezone.localdate(last)).days


def grams(today: Assessed | None) -> str:
    """What can be said of a loss: nothing per day as long as what was charged is not entered."""
    if today is None or today.step.superseded_by_id:
        return "Grams are not compared: none were recovered in this job yet."
    return (
        "Grams a day are not worked out: what was charged then is not entered. What was recovered"
        " today is a lower bound of what was in it."
    )
