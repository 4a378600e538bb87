"""A job as pages read it, weighed: what its tests conclude and which comes next.

It hangs on what was told and on nothing else, so each conclusion is worked out once and kept under
what it rests on: in memory, and as a file beside, because a start would else work out every car on
the board anew. No row has it: pages write none, and what is kept can be thrown away at any time.
"""

import hashlib
import pickle
import zlib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import timedelta
from functools import cache, lru_cache
from pathlib import Path

from django.core.cache import caches

from diagnostics import evidence
from diagnostics.assess import (
    Assessed,
    overrides_of,
    readings_of,
    steps_of,
    system_of,
    touched_since,
)
from diagnostics.assess import made as made_before
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.changed import became, together
from diagnostics.evidence.charge_told import charge_known
from diagnostics.evidence.concluded import Concluded, ToWeigh, conclude, plain_system
from diagnostics.evidence.findings import FAILING_NOTES
from diagnostics.evidence.inference.network import VARIABLES
from diagnostics.evidence.inference.states import WORKED_ON, Changed
from diagnostics.evidence.inference.told import Test
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.lasting import LASTING
from diagnostics.evidence.loop_needs import NEEDS_CHARGE, NEEDS_CLOSED, NEEDS_OPEN
from diagnostics.evidence.orders import Made
from diagnostics.evidence.runs import runs
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.loop_as_told import as_told
from diagnostics.loop_state import OPEN, LoopState, loop_state
from diagnostics.loop_worked import weighed_in
from diagnostics.models import Override
from diagnostics.points import Gate, gates, must_not_run
from diagnostics.since_changed import tells
from jobs.models import CarState, Change, Job
from jobs.models.changes import NOTHING, changes_of, standing
from jobs.models.jobs import states_of

KEPT_IN_MEMORY = 256  # some ten kilobytes each
KEPT = "weighed"  # the cache of files
UNREADABLE = (OSError, EOFError, pickle.UnpicklingError, zlib.error)  # a torn file is no answer
# How long after a test its set-up is taken to stand, and how often a test is offered again that
# told nothing. Our judgement.
STANDS_FOR = timedelta(hours=3)
TRIES = 2
TAKEN_OUT = (*OPEN, "none", "closed", "recovered", "vacuum", "risen", "pumped", "shallow", "spent")
EMPTY = ("recovered", "recovery", "vacuum")
OF_LOOP = ("loop open", "loop closed", "loop empty")


@dataclass(frozen=True)
class Around:
    """A job as it is weighed. `changes` are those that stand, `shut` the gates that are shut."""

    system: System
    failing_now: str
    steps: Sequence[Assessed]
    states: Sequence[CarState]
    changes: Sequence[Change]
    loop: LoopState | None = None
    shut: Sequence[Gate] = ()
    overrides: Sequence[Override] = ()

    @property
    def loop_code(self) -> str:
        """How the loop is; empty: nobody told."""
        return self.loop.code if self.loop else ""

    def made_before(self) -> list[Made]:
        """The tests that stand, as orders see them."""
        return made_before(self.steps, self.states, self.overrides)

    def may_be_made(self, kind: Kind, done: Sequence[Made]) -> bool:
        """Whether the car, the loop, the gates and the orders leave room for it."""
        return not (
            kind.forbids(self.system)
            or kind.not_sure(self.system)
            or kind.name in waits_for_loop(self.loop_code)
            or (runs(kind) and must_not_run(self.shut))
            or kind.not_kept(done, self.system)
        )


def around_of(job: Job) -> Around:
    """Read it all, at a fixed number of queries. `job` comes with car and system."""
    states, overrides = states_of(job), overrides_of(job)
    steps, changes = steps_of(job, states, overrides), standing(changes_of(job))
    return around_with(job, steps, states, changes, loop_state(steps, changes, told=as_told(job)))


def around_with(
    job: Job,
    steps: Sequence[Assessed],
    states: Sequence[CarState],
    changes: Sequence[Change],
    loop: LoopState,
) -> Around:
    """The same of what was read already; `changes` are those that stand."""
    system, overrides = system_of(job.vehicle.system), overrides_of(job)
    shut = gates(system, steps, states, loop, overrides)
    return Around(system, job.failing_now, steps, states, changes, loop, shut, overrides)


def weighed(around: Around) -> Concluded:
    """What a job's tests conclude, without a query."""
    steps, states = around.steps, around.states
    return concluded(
        ToWeigh(
            plain_system(around.system),
            tuple(what_was_told(steps, states)),
            tuple(tuple(sorted(one.items())) for one in changes_by_state(states, around.changes)),
            tuple(around.made_before()),
            made_now(steps, states, around.failing_now),
            frozenset(standing_setups(steps, states, around.loop_code)),
            frozenset(unable(steps, states)),
            waits_for_loop(around.loop_code),
            bool(must_not_run(around.shut)),
        )
    )


def what_was_told(steps: Iterable[Assessed], states: Sequence[CarState] = ()) -> Iterator[Test]:
    """The tests that stand and tell something, by their numbers, each in the state it tells of."""
    for one in sorted(steps, key=lambda each: each.step.number):
        if one.stands and one.meaning and weighs(one):
            step, code = one.step, one.meaning.outcome.code
            state = weighed_in(step.kind, step.state_then, states)
            charge = charge_known(readings_of(one.step))
            yield Test(step.number, step.kind, code, step.failing_then, state, charge)


def weighs(one: Assessed) -> bool:
    """Whether a test bears on anything.

    A normal result of a car that was not failing is set aside by its kind, and weighed here: the
    network knows how little it says.
    """
    if one.meaning and one.meaning.outcome.carries:
        return True
    normal = bool(one.came_out and one.came_out.normal)
    return normal and tells(one) and one.step.failing_then in FAILING_NOTES


def changes_by_state(states: Iterable[CarState], changes: Iterable[Change]) -> Iterator[Changed]:
    """What became of the car's variables with each state but the first."""
    of_state: dict[int, list[Changed]] = {}
    for one in changes:
        if one.what != NOTHING:
            parts = [part.part for part in one.parts] or [""]
            done = [became(one.what, part) for part in parts]
            of_state.setdefault(one.state_id, []).extend(done)
    for state in sorted(states, key=lambda each: each.number):
        if state.number:
            told = [*of_state.get(state.pk, ()), *(became(code) for code in state.did)]
            yield together(told) if told else worked_on(state.touches)


def worked_on(questions: Iterable[str]) -> Changed:
    """What a state did that something else than a change opened: it bears on these questions."""
    return {one.name: WORKED_ON for one in VARIABLES if one.question in questions}


def made_now(
    steps: Sequence[Assessed], states: Sequence[CarState], failing_now: str
) -> frozenset[str]:
    """The kinds made on the car as it is.

    One made while it was not failing is to be made again once it fails.
    """
    return frozenset(
        one.step.kind
        for one in steps
        if one.stands
        and tells(one)
        and not touched_since(one, states)
        and not (failing_now == "yes" and may_have_been_away(one))
    )


def may_have_been_away(one: Assessed) -> bool:
    """Whether a test looked at what comes and goes while it was not failing."""
    return one.step.failing_then in FAILING_NOTES and one.step.kind not in LASTING


def unable(steps: Sequence[Assessed], states: Sequence[CarState]) -> Iterator[str]:
    """The kinds that could not be made on the car as it is, or told nothing twice."""
    silent: Counter[str] = Counter()
    for one in sorted(steps, key=lambda each: each.step.made_at):
        if one.step.superseded_by_id or touched_since(one, states):
            continue
        if one.step.not_done:
            silent[one.step.kind] = TRIES
        elif one.stands:
            silent[one.step.kind] = 0 if tells(one) else silent[one.step.kind] + 1
    yield from (kind for kind, times in silent.items() if times >= TRIES)


def standing_setups(
    steps: Sequence[Assessed], states: Sequence[CarState], loop: str
) -> Iterator[str]:
    """What the last tests needed standing, and what the loop is."""
    last = max((state.number for state in states), default=0)
    now = [one for one in steps if one.stands and one.step.state_then == last]
    latest = max((one.step.made_at for one in now), default=None)
    for one in now:
        if latest and one.kind and one.step.made_at >= latest - STANDS_FOR:
            yield from (setup for setup in one.kind.setup if setup not in OF_LOOP)
    if loop in OPEN:
        yield "loop open"
    elif loop in TAKEN_OUT:
        yield from ("loop closed", "loop empty")


def waits_for_loop(code: str) -> frozenset[str]:
    """The kinds that the loop's state leaves no room for."""
    waits = NEEDS_CLOSED if code in OPEN else frozenset()
    waits |= NEEDS_CHARGE if code in EMPTY else frozenset()
    return waits if code in TAKEN_OUT else waits | NEEDS_OPEN


def concluded(told: ToWeigh) -> Concluded:
    """What follows from what was told. Nobody may change what is given."""
    return _concluded(told, tuple(KINDS))


@lru_cache(maxsize=KEPT_IN_MEMORY)
def _concluded(told: ToWeigh, kinds: tuple[str, ...]) -> Concluded:
    files = caches[KEPT]
    name = hashlib.sha256(f"{engine()} {kinds} {in_order(told)!r}".encode()).hexdigest()
    with suppress(*UNREADABLE):
        kept = files.get(name)
        if isinstance(kept, Concluded):
            return kept
    found = conclude(told, KINDS, TABLES)
    with suppress(OSError):  # a full disk: it is worked out anew
        files.set(name, found)
    return found


def in_order(told: ToWeigh) -> Mapping[str, object]:
    """What was told with its sets sorted: their own order is another one in each process."""
    return {
        name: sorted(value) if isinstance(value, frozenset) else value
        for name, value in vars(told).items()
    }


@cache
def engine() -> str:
    """What was concluded by another program, with other tables, is worked out anew."""
    files = sorted(Path(evidence.__path__[0]).rglob("*.py"))
    return hashlib.sha256(b"".join(path.read_bytes() for path in files)).hexdigest()
