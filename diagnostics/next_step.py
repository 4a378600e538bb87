"""Which test comes next: one to make again since the car was changed, else the first not made.

In the order of the catalogue, inside what the car allows and what must come first; where it must
not be run, none that runs it. What was found does not change it otherwise.
"""

from collections.abc import Iterable

from diagnostics.assess import Assessed
from diagnostics.assess import made as made_before
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.orders import Made
from diagnostics.evidence.runs import runs
from diagnostics.evidence.system import System
from diagnostics.loop_state import NEEDS_CLOSED, OPEN, LoopState
from diagnostics.models import Override
from diagnostics.points import Gate, must_not_run
from diagnostics.since_changed import to_make_again
from jobs.models import CarState


def next_kind(
    system: System,
    made: list[Assessed],
    states: list[CarState],
    overrides: Iterable[Override] = (),
    shut: Iterable[Gate] = (),
    loop: LoopState | None = None,
) -> Kind | None:
    """The test to make next: one to make again, else the first not made; None: none may be.

    `shut` are the gates that are shut now. Of an open loop, none that needs it closed.
    """
    done = made_before(made, states, overrides)
    barred = bool(must_not_run(shut))
    waits = NEEDS_CLOSED if loop and loop.code in OPEN else frozenset()

    def first_of(kinds: Iterable[Kind]) -> Kind | None:
        free = [one for one in kinds if one.name not in waits and not (barred and runs(one))]
        return can_be_made(free, done, system)

    return first_of(to_make_again(states, made)) or first_of(not_made(made))


def not_made(made: list[Assessed]) -> list[Kind]:
    """The kinds that were not made yet, in the order of the catalogue.

    One that could not be done stays to be made.
    """
    told = {one.step.kind for one in made if one.stands}
    return [kind for name, kind in KINDS.items() if name not in told]


def can_be_made(kinds: Iterable[Kind], done: list[Made], system: System) -> Kind | None:
    """The first of the kinds that the car allows, and that may be made after what was made."""
    return next(
        (kind for kind in kinds if not kind.forbids(system) and not kind.not_kept(done, system)),
        None,
    )


def orders_open(kinds: Iterable[Kind], done: list[Made], system: System) -> list[str]:
    """What must come first before those of the kinds may be made that the car allows."""
    left = [kind for kind in kinds if not kind.forbids(system)]
    return list({order.first: None for kind in left for order in kind.not_kept(done, system)})
