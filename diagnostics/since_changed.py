"""What a change on the car touched and no test has looked at since.

A change says which questions it touches; a test of such a question made after it answers whether
things are different now. Until then what was found before it stands for the car as it was.
"""

from collections.abc import Iterable, Sequence

from diagnostics.assess import Assessed, touched_since
from diagnostics.evidence.catalogue import GROUPS, KINDS
from diagnostics.evidence.kind import Kind
from jobs.models import CarState
from jobs.models.changes import CLEANLINESS

# What was weighed in is known by its weight: nobody takes it out again to see.
NEVER_AGAIN = ("recovered_share",)


def not_tested_since(
    states: Iterable[CarState], made: Sequence[Assessed]
) -> list[tuple[CarState, list[str]]]:
    """The last state that touched each question which no test looked at since, with the questions.

    The states come in their order.
    """
    begun = list(states)
    last = {question: state for state in begun for question in state.touches}
    found: dict[int, tuple[CarState, list[str]]] = {}
    for question, state in last.items():
        if not any(looked_at(one, question) and not touched_since(one, begun) for one in made):
            found.setdefault(state.number, (state, []))[1].append(question)
    return [found[number] for number in sorted(found)]


def inside_unseen(states: Iterable[CarState], made: Sequence[Assessed]) -> bool:
    """Whether nobody looked inside the loop since a change that may have put dirt into it."""
    return any(CLEANLINESS in questions for _, questions in not_tested_since(states, made))


def looked_at(one: Assessed, question: str) -> bool:
    """Whether the test was one of that question, stands, and told something."""
    return bool(one.stands and one.kind and one.kind.about == question and tells(one))


def tells(one: Assessed) -> bool:
    """Whether it came out as more than that nothing was told."""
    code = one.meaning.outcome.code if one.meaning else ""
    outcomes = one.kind.outcomes if one.kind else ()
    return any(words.code == code and words.carries for words in outcomes)


def to_make_again(states: Iterable[CarState], made: Sequence[Assessed]) -> list[Kind]:
    """The tests to make since the car was changed in what they look at.

    First those that had found something and were not made since, then those that had found nothing
    wrong where no test of the question was made since, then, where none ever was, all of it.
    """
    begun = list(states)
    untested = {question for _, told in not_tested_since(begun, made) for question in told}
    last = {one.kind.name: one for one in made if one.kind and one.stands and tells(one)}
    found, fine = [], []
    for name in KINDS:
        one = last.get(name)
        if one and name not in NEVER_AGAIN and touched_since(one, begun):
            if not is_fine(one):
                found.append(KINDS[name])
            elif KINDS[name].about in untested:
                fine.append(KINDS[name])
    covered = {kind.about for kind in (*found, *fine)}
    new = [
        kind
        for kind in KINDS.values()
        if kind.about in untested - covered and kind.name not in NEVER_AGAIN
    ]
    return [*found, *fine, *new]


def is_fine(one: Assessed) -> bool:
    """Whether the test had found nothing wrong."""
    return bool(one.kind and one.meaning and one.kind.is_normal(one.meaning.outcome.code))


def in_words(state: CarState, questions: Iterable[str]) -> str:
    """The open point of a state."""
    looked_at = ", ".join(GROUPS[question].lower() for question in questions if question in GROUPS)
    return f"No test since car state {state.number} ({state.what}): {looked_at}."
