"""The part of a record that says what is concluded, apart from what was seen and measured."""

from collections.abc import Iterable, Iterator, Sequence

from diagnostics.assess import system_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.verdict_shown import Part, Question, questions_shown
from diagnostics.models import Override
from diagnostics.points import gates
from diagnostics.record.steps import Made
from diagnostics.record.words import in_parts
from diagnostics.weighing import Around, weighed
from jobs.models import CarState, Change, Job
from jobs.paper import frozen_customer as frozen


def questions_of(
    job: Job,
    made: Made,
    states: Sequence[CarState],
    changes: Sequence[Change],
    overrides: Sequence[Override],
) -> tuple[Question, ...]:
    """The six questions as the tests of a job leave them; `changes` are those that stand."""
    system, steps = system_of(job.vehicle.system), made.assessed
    shut = gates(system, steps, states, made.loop, overrides)
    failing = job.failing_now
    around = Around(system, failing, steps, states, changes, made.loop, shut, overrides)
    return questions_shown(weighed(around), KINDS)


def opinion(questions: Iterable[Question]) -> list[frozen.Concluded]:
    """Each question with its standing, and the parts that a test looked at."""
    return [
        {
            "question": one.code,
            "name": one.name,
            "text": in_parts(one.said),
            "standing": one.standing,
            "words": one.to_customer,
            "steps": sorted({number for part in one.parts for number in steps_of(part)}),
            "by_part": [part_of(part) for part in one.parts if part.is_told],
        }
        for one in questions
    ]


def part_of(part: Part) -> frozen.Part:
    """One part of a question."""
    return {
        "variable": part.name,
        "text": in_parts(f"{part.words}: {part.said}"),
        "standing": part.standing,
        "steps": sorted(steps_of(part)),
        "notes": [in_parts(note) for note in part.notes],
    }


def steps_of(part: Part) -> Iterator[int]:
    """The numbers of the steps that bear on it, for or against."""
    yield from {number for one in part.spoken for number in one.steps}
