"""Open points of the tests made: orders that were broken, odd values that were kept."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from django.utils import timezone

from diagnostics.assess import Assessed
from diagnostics.evidence.read_with import NEEDS
from diagnostics.since_changed import in_words, not_tested_since
from jobs.models import CarState
from jobs.models.points import THROWN_AWAY
from jobs.models.qualifications import PAPERS, day_words


@dataclass(frozen=True)
class StepPoint:
    """One thing about steps that a person has to look at. `number` is the step's, None: of several.

    Stands among the job's other open points: `page` is the route where it is seen.
    """

    code: str
    sentence: str
    number: int | None
    page: str = "steps"
    page_words: str = "Test steps"


def step_points(steps: Sequence[Assessed], states: Iterable[CarState] = ()) -> list[StepPoint]:
    """All at once: of the steps, but for those superseded, and of what no test looked at since."""
    of_steps = [point for one in steps if not one.step.superseded_by_id for point in of_step(one)]
    since = [
        StepPoint("not_tested_since", in_words(state, questions), None)
        for state, questions in not_tested_since(states, steps)
    ]
    return [*of_steps, *since]


def of_step(assessed: Assessed) -> Iterator[StepPoint]:
    """The points of one step."""
    number = assessed.step.number
    if assessed.barred:
        yield StepPoint("barred", f"Step {number} was made where it is barred.", number)
    if assessed.step.thrown_away:
        yield StepPoint("discarded_stands", f"Step {number}: {THROWN_AWAY}", number)
    if assessed.corrects_nothing:
        yield StepPoint("corrects_nothing", assessed.corrects, number)
    for order in assessed.broken:
        yield StepPoint(order.code, f"Step {number}, by what is recorded: {order.broken}", number)
    for code, sentence in of_people(assessed):
        yield StepPoint(code, sentence, number)
    for mark in assessed.step.marks_said:
        yield StepPoint(mark["code"], f"Step {number}: {mark['sentence']}", number)


def of_people(assessed: Assessed) -> Iterator[tuple[str, str]]:
    """Who was not qualified for it by what is entered, and which instrument was overdue."""
    step = assessed.step
    needs = NEEDS.get(step.kind)
    if needs and assessed.stands and not step.qualified_then:
        day = day_words(timezone.localdate(step.made_at))
        sentence = (
            f"Step {step.number}, {assessed.title.lower()}: no {PAPERS[needs]} of"
            f" {step.entry.author.name} that was valid on {day} is entered."
        )
        yield f"not_qualified_{needs}", sentence
    told = {one.overdue: "check_overdue" for one in assessed.read_with if one.overdue}
    told |= {one.coarser: "coarser" for one in assessed.read_with if one.coarser}
    for sentence, code in told.items():
        yield code, f"Step {step.number}: {sentence}."
