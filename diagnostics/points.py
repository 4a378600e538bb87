"""Open points of the tests made: orders that were broken, odd values that were kept."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from diagnostics.assess import Assessed


@dataclass(frozen=True)
class StepPoint:
    """One thing about a step that a person has to look at. `number` is the step's.

    Stands among the job's other open points: `page` is the route where it is seen.
    """

    code: str
    sentence: str
    number: int
    page: str = "steps"
    page_words: str = "Test steps"


def step_points(steps: Iterable[Assessed]) -> list[StepPoint]:
    """All at once; a step that was superseded has none."""
    return [point for one in steps if not one.step.superseded_by_id for point in of_step(one)]


def of_step(assessed: Assessed) -> Iterator[StepPoint]:
    """The points of one step."""
    number = assessed.step.number
    if assessed.barred:
        yield StepPoint("barred", f"Step {number} was made where it is barred.", number)
    if assessed.corrects_nothing:
        yield StepPoint("corrects_nothing", assessed.corrects, number)
    for order in assessed.broken:
        yield StepPoint(order.code, f"Step {number}: {order.broken}", number)
    for mark in assessed.step.marks_said:
        kept = f" Kept: {mark['why']}" if mark["why"] else ""
        yield StepPoint(mark["code"], f"Step {number}: {mark['sentence']}{kept}", number)
