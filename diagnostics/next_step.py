"""What comes next on a job: the test that is worth its minutes most, or that enough is known.

Since the car was changed, a test to make again is named too, the first in the fixed order of the
catalogue: that something was put right is not shown yet, and the network, which takes a new part to
be a good one, has little to say of it. It comes next where it was made before and no test looked
there since, else where no other is worth its minutes.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.concluded import Concluded
from diagnostics.evidence.inference.verdict import NOT_OK
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.loop_needs import NEEDS_CHARGE, NEEDS_CLOSED
from diagnostics.evidence.next_words import reason
from diagnostics.evidence.orders import Made
from diagnostics.evidence.plan import FIRST, NextTest, minutes
from diagnostics.evidence.runs import runs
from diagnostics.evidence.verdict_words import BY_NAME
from diagnostics.loop_state import OPEN
from diagnostics.loop_worked import is_filled, is_recovered, weighed_in
from diagnostics.points import must_not_run
from diagnostics.since_changed import not_tested_since, to_make_again
from diagnostics.weighing import EMPTY, Around, waits_for_loop

SEE_FIRST = "see_first"
ONLY_HOT = "hot_retest"  # a look before all others, but of cars that fail when they are hot
WEIGHED = "recovered_share"
TO_READ = 1  # minute: what it asks is booked already
OTHERS = 3
CHANGED = "The car was changed in what this looks at."
TESTED_BEFORE = "The car was changed since this was tested."
NOT_SEEN_SINCE = "Nobody has looked since the change whether it still does what the customer says."
LOOP_OPEN = "The loop is open: what needs it closed waits."
LOOP_EMPTY = "The refrigerant is out: what needs it in the loop waits."
BOOKED = "What came out is booked: this holds it to the label."
LOOP_FULL = "What is looked at inside the loop waits until the refrigerant is out."


@dataclass(frozen=True)
class Offered:
    """A test that may be made now, in whole minutes with the set-up that does not stand yet.

    `again`: the car was changed since it was made.
    """

    kind: Kind
    minutes: int
    reason: str
    again: bool = False

    @property
    def begins(self) -> str:
        """The words before its name where it was made before."""
        return "Test again: " if self.again else ""

    @property
    def line(self) -> str:
        """As a row of the board says it."""
        return f"{self.kind.title}, {self.minutes} minute{'s' if self.minutes != 1 else ''}"


@dataclass(frozen=True)
class Next:
    """`best` None: `decide`, or what is left `waits`, in sentences.

    `others` come after it, `beside` need no set-up that does not stand; `general` are checks of
    every car that were not made, `left_out` tests worth their minutes that could not be made, and
    `unproved` what would be mended now without being shown.
    """

    best: Offered | None
    others: tuple[Offered, ...] = ()
    beside: tuple[Offered, ...] = ()
    general: tuple[Kind, ...] = ()
    left_out: tuple[Kind, ...] = ()
    unproved: tuple[str, ...] = ()
    waits: tuple[str, ...] = ()
    found: bool = False  # whether anything is shown to be wrong

    @property
    def decide(self) -> bool:
        """Whether no test that is left is worth its minutes, nor will be."""
        return not (self.best or self.waits)

    @property
    def words(self) -> str:
        """The next step in a line, as one of several cars."""
        if self.best:
            return self.best.line
        if self.waits:
            return "Each test that is left waits for another"
        return self.decide_words

    @property
    def decide_words(self) -> str:
        """That it can be decided, and by how much."""
        if self.unproved:
            return "No test left is worth its minutes: decide"
        if self.found:
            return "Enough is known: decide"
        return "No test left is worth its minutes, nothing wrong is shown: decide"


def next_of(found: Concluded, around: Around) -> Next:
    """What comes next, by what was concluded."""
    done, plan = around.made_before(), found.plan
    told = {one.step.kind for one in around.steps if one.stands}
    again = again_of(found, around, done)
    planned = [offered(one, found, told) for one in (plan.best, *plan.others) if one]
    best = planned[0] if plan.best else again
    if again and (
        again.kind.name == FIRST or (again.again and again.kind.about in untested(around))
    ):
        best = again
    weigh = to_weigh(around)
    best = weigh or best
    others = {one.kind.name: one for one in ([again] if again else []) + planned}
    if best:
        others.pop(best.kind.name, None)
    named = {*others, *([best.kind.name] if best else ())}
    beside = [offered(one, found, told) for one in plan.beside if one.kind not in named]
    general = [
        kind
        for kind in KINDS.values()
        if kind.about == SEE_FIRST
        and kind.name not in {*told, *named, ONLY_HOT}
        and around.may_be_made(kind, done)
    ]
    return Next(
        best,
        tuple(others.values())[:OTHERS],
        tuple(beside),
        tuple(general),
        tuple(KINDS[name] for name in plan.left_out),
        tuple(f"{BY_NAME[one.variable].words}: {one.words}" for one in plan.unproved),
        () if best else tuple(waiting(found, around, done)),
        any(one.code == NOT_OK and one.standing == "proved" for one in found.stands),
    )


def to_weigh(around: Around) -> Offered | None:
    """The test that reads what was booked as recovered, where nobody made it since."""
    kind = KINDS.get(WEIGHED)
    booked = max((one.number for one in around.states if is_recovered(one)), default=0)
    filled = max((one.number for one in around.states if is_filled(one)), default=0)
    made = any(
        one.stands
        and one.step.kind == WEIGHED
        and weighed_in(WEIGHED, one.step.state_then, around.states) >= filled
        for one in around.steps
    )
    if kind is None or made or booked <= filled or kind.forbids(around.system):
        return None
    return Offered(kind, TO_READ, BOOKED)


def untested(around: Around) -> set[str]:
    """The questions that a change touched and no test has looked at since."""
    since = not_tested_since(around.states, around.steps)
    return {question for _, questions in since for question in questions}


def offered(one: NextTest, found: Concluded, told: set[str]) -> Offered:
    """A test of the plan; one that is offered and was made before is made again."""
    kind = KINDS[one.kind]
    why = reason(one, KINDS, instead=one != found.plan.best)
    return Offered(kind, round(minutes(kind, found.setups)), why, one.kind in told)


def again_of(found: Concluded, around: Around, done: Sequence[Made]) -> Offered | None:
    """The first test to make since the car was changed, in the fixed order; None: none may be.

    What was changed comes first, then whether the car still does what the customer says.
    """
    unable, kinds = found.unable, to_make_again(around.states, around.steps)
    if kinds_open := untested(around):
        kinds = sorted(kinds, key=lambda kind: kind.about not in kinds_open)
    elif not_seen_since(around):
        kinds = [KINDS[FIRST], *kinds]
    for kind in kinds:
        if kind.name not in unable and around.may_be_made(kind, done):
            before = any(one.stands and one.step.kind == kind.name for one in around.steps)
            why = TESTED_BEFORE if before else CHANGED
            if kind.name == FIRST:
                why = NOT_SEEN_SINCE
            return Offered(kind, round(minutes(kind, found.setups)), why, before)
    return None


def not_seen_since(around: Around) -> bool:
    """Whether what the customer says was looked for before the car was changed, and not since."""
    now = max((state.number for state in around.states), default=0)
    looks = [one for one in around.steps if one.stands and one.step.kind == FIRST]
    return bool(looks) and all(one.step.state_then < now for one in looks)


def waiting(found: Concluded, around: Around, done: Sequence[Made]) -> Iterable[str]:
    """What must come first before the tests that wait, each sentence once."""
    said: dict[str, None] = {}
    is_open = around.loop_code in OPEN
    for kind in (KINDS[name] for name in found.waits):
        if is_open and kind.name in NEEDS_CLOSED:
            said[LOOP_OPEN] = None
        elif kind.name in NEEDS_CHARGE and around.loop_code in EMPTY:
            said[LOOP_EMPTY] = None
        elif kind.name in waits_for_loop(around.loop_code):
            said[LOOP_FULL] = None
        elif kind.not_sure(around.system):
            said[kind.not_sure(around.system)] = None
        elif runs(kind) and must_not_run(around.shut):
            said |= dict.fromkeys(gate.run_words for gate in must_not_run(around.shut))
        else:
            said |= dict.fromkeys(one.first for one in kind.not_kept(done, around.system))
    return said
