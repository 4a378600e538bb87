"""Tests of a job made on the car as it came in, beside the same since it was last changed."""

from collections.abc import Iterable, Iterator, Sequence

from diagnostics.assess import Assessed, readings_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.readings import Reading, Readings, parse
from diagnostics.evidence.showable import Cold
from diagnostics.evidence.twin_rules import MEASURED, NO_TWIN, OF_THE_WHOLE
from diagnostics.evidence.twins import Once, Twin, parts_of, twin
from diagnostics.physics.errors import Malformed
from diagnostics.physics.shown_units import ShownIn
from diagnostics.since_changed import tells
from diagnostics.weighing import Around
from diagnostics.work_done import last_by_question, last_touched
from jobs.models import Conditions

NOT_AGAIN = "Not made again since the car was changed."
BETWEEN = "Made again in car state {} only; the car was changed since."
TEMPERATURES = ("°C", "°F")


def twins_of(
    around: Around, conditions: Sequence[Conditions], units: ShownIn, cold: Cold | None
) -> Iterator[Twin]:
    """Each test that measured something on the car as it came in, with its twin of now."""
    first: dict[tuple[str, str], list[Once]] = {}
    last: dict[tuple[str, str], list[Once]] = {}
    since = dict.fromkeys(OF_THE_WHOLE, last_touched(around.states))
    touched = last_by_question(around.states)
    if not last_touched(around.states):
        return
    for one in by_time(around.steps):
        if not (one.stands and one.kind and one.step.kind in MEASURED):
            continue
        made = once(one, told_then(one, conditions))
        name = (one.step.kind, parts_of(one.kind, made))
        if one.step.state_then == 0:
            first.setdefault(name, []).append(made)
        elif one.step.state_then >= since.get(one.step.kind, touched.get(one.kind.about, 0)):
            last.setdefault(name, []).append(made)
    for name, made_first in first.items():
        kind = KINDS[name[0]]
        why = "" if name in last else why_no_twin(name[0], around, cold)
        yield twin(kind, made_first, last.get(name, []), around.system, units, why)


def why_no_twin(name: str, around: Around, cold: Cold | None) -> str:
    """Why a test has no twin on the car as it is now."""
    tried = [one for one in since_first(around) if one.step.kind == name]
    if tried and tried[-1].not_done:
        return tried[-1].not_done
    if tried:
        return BETWEEN.format(tried[-1].step.state_then)
    return f"{cold.words}." if cold and name in OF_THE_WHOLE else NOT_AGAIN


def left_out(around: Around) -> Iterator[tuple[str, str]]:
    """Tests made on the car as it came in that measure and have no twin, with why."""
    made = {one.step.kind for one in telling(around) if one.step.state_then == 0}
    for name in NO_TWIN:
        if name in made:
            yield KINDS[name].title, NO_TWIN[name]


def told_then(one: Assessed, conditions: Sequence[Conditions]) -> Readings:
    """The conditions told on the job within the hour before a test, as readings."""
    at = one.step.made_at
    before = [row for row in conditions if row.entry.done_at <= at and row.holds(at)]
    return conditions_read(before[-1]) if before else {}


def conditions_read(row: Conditions) -> dict[str, Reading | str]:
    """A row of conditions as readings by the names that tests have for them."""
    found: dict[str, Reading | str] = {
        name: told for name, told in (("air", row.air), ("doors", row.doors)) if told
    }
    numbers = (("ambient", TEMPERATURES, row.ambient_unit), ("rpm", ("rpm",), "rpm"))
    for name, units, unit in numbers:
        typed = getattr(row, name)
        try:
            if typed:
                found[name] = parse(typed, units, unit or units[0])
        except Malformed:  # kept as typed, and computed with by nothing
            continue
    return found


def once(one: Assessed, around: Readings) -> Once:
    """A test as twins take it."""
    return Once(
        one.step.number,
        one.step.state_then,
        one.came_out.words if one.came_out else "",
        readings_of(one.step),
        one.meaning.taken if one.meaning else {},
        around,
        one.failing_note,
    )


def telling(around: Around) -> list[Assessed]:
    """The tests that stand and tell something, as they were made."""
    return [one for one in by_time(around.steps) if one.stands and tells(one)]


def by_time(steps: Iterable[Assessed]) -> list[Assessed]:
    """In the order in which they were made."""
    return sorted(steps, key=lambda one: (one.step.made_at, one.step.number))


def since_first(around: Around) -> list[Assessed]:
    """What was made, or could not be, once the car had been changed; what stands of it."""
    return [
        one
        for one in by_time(around.steps)
        if one.step.state_then > 0
        and not one.step.superseded_by_id
        and (one.stands or one.step.not_done)
    ]
