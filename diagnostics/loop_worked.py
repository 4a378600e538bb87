"""What work on the loop did to it: events by the car states that it opened, and what orders hear.

It is as noted, not as read: what was charged is known by its weight, and nothing more is.
"""

from collections.abc import Iterable, Iterator, Sequence

from diagnostics.evidence.orders import Made
from diagnostics.loop_events import Event
from jobs.models import CarState
from jobs.models.loop_works import FILLS, RECOVERED

# What was done, and the event that it is.
EVENTS = {
    "recovered": "recovered",
    "recovery": "recovery",
    "nothing_came": "nothing_came",
    "evacuated": "vacuum",
    "pumped": "pumped",
    "shallow": "shallow",
    "oil_out": "oil_out",
    "oil_drained": "oil_drained",
    "oil_in": "oil_in",
    "charged": "charged",
    "topped_up": "topped_up",
}
# A weighed charge is refrigerant in the loop; on top of an unknown rest it is none that is known.
OPENS: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(RECOVERED, ("recovered_first",)),
    "charged": ("charge_first",),
}
SHUTS: dict[str, tuple[str, ...]] = dict.fromkeys(FILLS, ("recovered_first",))
WORK = "work"  # among the tests made


def by_work(states: Iterable[CarState]) -> Iterator[Event]:
    """What work did to the loop, in the order of the states that it opened."""
    for state in states:
        for code in state.did:
            if code in EVENTS:
                yield Event(state.opened_at, EVENTS[code], state.what)


def work_made(state: CarState) -> Made:
    """Work among the tests made, as orders see it; no change touches what was done by it."""
    return Made(WORK, "", False, of_each(state, OPENS), of_each(state, SHUTS))


def of_each(state: CarState, table: dict[str, tuple[str, ...]]) -> tuple[str, ...]:
    """What each thing done bears on; what was done last decides."""
    last = {
        order: code for code in state.did for order in (*OPENS.get(code, ()), *SHUTS.get(code, ()))
    }
    return tuple(order for order, code in last.items() if order in table.get(code, ()))


def weighed_in(kind: str, state_then: int, states: Sequence[CarState]) -> int:
    """The car state that a test tells of, by its number.

    Recovered grams tell of the car before the refrigerant came out, where that was booked first.
    """
    if kind != "recovered_share":
        return state_then
    before = [state for state in states if state.number <= state_then]
    told_of = state_then
    for state in sorted(before, key=lambda one: one.number, reverse=True):
        if is_recovered(state):
            told_of = state.number - 1
        if is_filled(state):  # what came out before that was of another charge
            break
    return told_of


def is_filled(state: CarState) -> bool:
    """Whether refrigerant was put in by it."""
    return not {*FILLS}.isdisjoint(state.did)


def is_recovered(state: CarState) -> bool:
    """Whether refrigerant was taken out by it."""
    return not {*RECOVERED}.isdisjoint(state.did)
