"""Opening car states, and putting right what the entries that opened them tell.

A state begins when its entry happened; one that a tablet brings late moves those after it up.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Protocol, TypeVar

from django.db.models import Q

from jobs.models import CarState, Entry, Job

STATE_LENGTH = 200
CORRECTION = "Nothing of its own: corrects another entry"


@dataclass(frozen=True)
class StateTold:
    """What a car state is known to be. `nothing`: it was entered by mistake, and opens none.

    `did` are the codes of jobs.models.loop_works.DID, what was done to the loop.
    """

    what: str
    touches: Sequence[str]
    did: Sequence[str] = ()
    nothing: bool = False


class OnState(Protocol):
    """A row of an entry that changed the car, with the state it belongs to."""

    entry: Any
    entry_id: Any
    state: Any
    state_id: Any

    def save(self, *, update_fields: Iterable[str]) -> None:
        """Write some columns."""


Row = TypeVar("Row", bound=OnState)


def open_state(job: Job, entry: Entry, told: StateTold) -> CarState:
    """The state of the car that an entry opened; those that began later move up by one.

    Of the same moment those are later that CarState lists later.
    """
    moment, sequence = entry.happened_at, entry.sequence
    same_moment = Q(opened_at=moment, opened_by__sequence__isnull=False)
    if sequence is not None:
        same_moment &= Q(opened_by__sequence__gt=sequence)
    later = job.car_states.filter(Q(opened_at__gt=moment) | same_moment, number__gt=0)
    number = job.car_states.count() - later.count()
    for state in later.order_by("-number"):  # from above: a number stands once at any moment
        state.number += 1
        state.save(update_fields=["number"])
    return CarState.objects.create(
        job=job,
        number=number,
        opened_by=entry,
        opened_at=moment,
        what=told.what[:STATE_LENGTH],
        touches=list(told.touches),
        did=list(told.did),
    )


def share_state(job: Job, family: Sequence[Row], told_of: Callable[[Row], StateTold]) -> None:
    """Put rows that correct one another into the state of the first, as the last tells it."""
    first, stands = family[0], told_of(family[-1])
    if first.state.opened_by_id != first.entry_id and not stands.nothing:
        first.state = open_state(job, first.entry, told_of(first))
        first.save(update_fields=["state"])
    for following in family[1:]:
        if following.state_id != first.state_id:
            if following.state.opened_by_id == following.entry_id:
                put_right(following.state, StateTold(CORRECTION, ()))
            following.state = first.state
            following.save(update_fields=["state"])
    if first.state.opened_by_id == first.entry_id:
        put_right(first.state, stands)


def put_right(state: CarState, told: StateTold) -> None:
    """A state with what it is now known to be; when it began stays as it was."""
    state.what, state.touches = told.what[:STATE_LENGTH], list(told.touches)
    state.did = list(told.did)
    state.save(update_fields=["what", "touches", "did"])
