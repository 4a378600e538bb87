"""What was done to a car in a job, as far as it says what has to be shown afterwards."""

from collections.abc import Iterable, Iterator

from diagnostics.assess import Assessed
from diagnostics.evidence.to_show import (
    CODES,
    COMMAND,
    COMPRESSOR,
    DIRT,
    GAP,
    OPENED,
    PORTS,
    REPAIRED,
)
from diagnostics.loop_worked import is_filled
from diagnostics.since_changed import is_fine, tells
from diagnostics.weighing import Around
from jobs.models import CarState
from jobs.models.changes import CHARGE, NO_REPAIR

AT_PORTS = {"gauges on", "ports reached", "machine on", "pump on", "nitrogen and regulator"}
WITH_A_GAP = ("clutch", "coil", "compressor")
DEBRIS = ("debris", "filter_second_look")


def done_to(around: Around) -> set[str]:
    """What was done or found that asks for a look once it is repaired, by the codes of to_show."""
    return {*by_changes(around), *by_tests(around.steps)}


def by_changes(around: Around) -> Iterator[str]:
    """What changes tell, and the car states that work on the loop opened."""
    if any(is_filled(state) for state in around.states):
        yield REPAIRED
    touched = {question for state in around.states for question in state.touches}
    if CHARGE in touched:
        yield OPENED
    if COMMAND in touched:
        yield COMMAND
    for one in around.changes:
        if one.what not in NO_REPAIR:
            yield REPAIRED
        if one.what == "flushed":
            yield DIRT
        if one.what == "gap_set" or (one.what == "fitted" and one.part in WITH_A_GAP):
            yield GAP
        if one.what == "fitted" and one.part == "compressor":
            yield COMPRESSOR


def by_tests(steps: Iterable[Assessed]) -> Iterator[str]:
    """What tests tell: ports used, debris seen, codes stored."""
    for one in steps:
        if not (one.stands and one.kind):
            continue
        if joins_ports(one):
            yield PORTS
        found = tells(one) and not is_fine(one)
        if found and one.step.kind in DEBRIS:
            yield DIRT
        if found and one.step.kind == "codes" and one.step.state_then == 0:
            yield CODES


def joins_ports(one: Assessed) -> bool:
    """Whether a test is made with something on the service ports, and their caps off."""
    return bool(one.kind and AT_PORTS & {*one.kind.setup})


def last_at_ports(steps: Iterable[Assessed]) -> Assessed | None:
    """The last test made at the service ports; None: none was."""
    made = [one for one in steps if one.stands and joins_ports(one)]
    return max(made, key=lambda one: one.step.made_at, default=None)


def changed_in(states: Iterable[CarState]) -> Iterator[str]:
    """What was changed between the car as it came in and as it is, in the order of the states."""
    for state in states:
        if state.number and state.touches:
            yield state.what


def last_touched(states: Iterable[CarState]) -> int:
    """The number of the last car state that changed something; 0: none did."""
    return max((state.number for state in states if state.touches), default=0)


def last_by_question(states: Iterable[CarState]) -> dict[str, int]:
    """By question the number of the last car state that touched it."""
    return {question: state.number for state in states for question in state.touches}
