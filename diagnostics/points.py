"""Open points of the tests made: orders that were broken, odd values that were kept."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from diagnostics.assess import Assessed
from diagnostics.since_changed import in_words, not_tested_since
from jobs.models import CarState
from jobs.models.points import THROWN_AWAY


@dataclass(frozen=True)
class StepPoint:
    """One thing about steps that a person has to look at. `number` is the step's, None: of several.

    Stands among the job's other open points: `page` is the route where it is seen, `about` tells
    it from others of its code.
    """

    code: str
    sentence: str
    number: int | None
    page: str = "steps"
    page_words: str = "Test steps"
    about: str = ""


def step_points(steps: Sequence[Assessed], states: Iterable[CarState] = ()) -> list[StepPoint]:
    """All at once: of the steps, but for those superseded, and of what no test looked at since."""
    of_steps = [point for one in steps if not one.step.superseded_by_id for point in of_step(one)]
    since = [
        StepPoint(
            "not_tested_since",
            in_words(state, questions),
            None,
            about=f"{state.opened_by_id} {','.join(questions)}",
        )
        for state, questions in not_tested_since(states, steps)
    ]
    return [*of_steps, *since]


def of_step(assessed: Assessed) -> Iterator[StepPoint]:
    """The points of one step."""
    number, key = assessed.step.number, str(assessed.step.key)

    def point(code: str, sentence: str, about: str = key) -> StepPoint:
        return StepPoint(code, sentence, number, about=about)

    if assessed.barred:
        yield point("barred", f"Step {number} was made where it is barred.")
    if assessed.step.thrown_away:
        thrown = f"{key} {assessed.step.thrown_away}"
        yield point("discarded_stands", f"Step {number}: {THROWN_AWAY}", thrown)
    if assessed.corrects_nothing:
        yield point("corrects_nothing", assessed.corrects)
    for order in assessed.broken:
        yield point(order.code, f"Step {number}, by what is recorded: {order.broken}")
    for mark in assessed.step.marks_said:
        about = f"{key} {mark['field']}"
        yield point(mark["code"], f"Step {number}: {mark['sentence']}", about)
