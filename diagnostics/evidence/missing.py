"""What was not read, said so: a missing reading is never taken for a good one."""

from collections.abc import Iterator

from diagnostics.evidence.readings import Readings, kept_aside, number


def missing(readings: Readings, name: str, what: str) -> Iterator[str]:
    """The sentence about a number that nothing can be made of, or nothing where it was read."""
    if name in kept_aside(readings):
        yield f"{what}: kept as typed, not used."
    elif number(readings, name) is None:
        yield f"{what}: no reading to go by."


def untold(readings: Readings, name: str, what: str) -> Iterator[str]:
    """The sentence about a question that nobody answered, or nothing where one did."""
    if not readings.get(name):
        yield f"{what}: not told."
