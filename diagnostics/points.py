"""Open points of the tests made, and the gates that are shut: what is not to be done yet."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from django.urls import reverse
from django.utils import timezone

from diagnostics.assess import Assessed, made, system_of
from diagnostics.evidence.bears import OPENED_AT
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.orders import ORDERS, Made, Order
from diagnostics.evidence.read_with import NEEDS
from diagnostics.evidence.readings import taps
from diagnostics.evidence.system import System
from diagnostics.loop_state import OPEN, LoopState
from diagnostics.models import Override
from diagnostics.repaired import Work, left_open, shut_by_repair
from diagnostics.since_changed import in_words, not_tested_since
from jobs.models import CarState, Job
from jobs.models.handovers import STANDS
from jobs.models.points import THROWN_AWAY
from jobs.models.qualifications import PAPERS, day_words


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
            about=f"{state.opened_by_id} {state.what} {','.join(questions)}",
        )
        for state, questions in not_tested_since(states, steps)
    ]
    return [*of_steps, *since]


REPAIR_PAGES = {
    "repair": "Repair",
    "loop_parts": "Parts of the loop",
    "taken_out": "Old parts taken out",
}


def repair_points(work: Work, job: Job, steps: Sequence[Assessed]) -> list[StepPoint]:
    """What the repair leaves open, that of one page together."""
    looked = any(one.stands and looked_for_debris(one) for one in steps)
    left = list(left_open(work, job, steps, system_of(job.vehicle.system), looked=looked))
    return [
        StepPoint(one.code, one.sentence, None, one.page, REPAIR_PAGES[one.page], one.about)
        for page in REPAIR_PAGES
        for one in left
        if one.page == page
    ]


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
    for code, sentence in of_people(assessed):
        yield point(code, sentence, f"{key} {sentence}")  # one of several instruments of a step
    for mark in assessed.step.marks_said:
        about = f"{key} {mark['field']}"
        yield point(mark["code"], f"Step {number}: {mark['sentence']}", about)


def of_people(assessed: Assessed) -> Iterator[tuple[str, str]]:
    """Who was not qualified for it by what is entered, and which instrument was overdue."""
    step = assessed.step
    needs = NEEDS.get(step.kind)
    if needs and assessed.stands and not step.qualified_then:
        day = day_words(timezone.localdate(step.made_at))
        sentence = (
            f"Step {step.number}, {assessed.title.lower()}: no {PAPERS[needs]} of"
            f" {step.entry.author.name} that was valid on {day} is entered."
        )
        yield f"not_qualified_{needs}", sentence
    told = {one.overdue: "check_overdue" for one in assessed.read_with if one.overdue}
    told |= {one.coarser: "coarser" for one in assessed.read_with if one.coarser}
    for sentence, code in told.items():
        yield code, f"Step {step.number}: {sentence}."


# What a gate bars, in the order in which it is shown; common practice, no source.
ACTS = {
    "run": "Run the A/C",
    "measure": "Run it for a measurement",
    "hoses": "Put the shop’s own hoses on",
    "recover": "Recover the refrigerant",
    "pump": "Pump it down, or put nitrogen in",
    "charge": "Charge it",
    "electric": "Work at the electric side",
    "order": "Order a compressor alone",
    "let_go": "Let the old part leave the bay",
}
# What an order bars as long as nothing opened it, and the test that opens it.
OF_ORDERS = {
    "hub_first": ("measure", "hub_turn"),
    "charge_first": ("measure", "static_pressure"),
    "gas_first": ("hoses", "gas_identity"),
    "leak_stop_first": ("hoses", "sealant_test"),
    "leak_search_first": ("recover", "leak_search"),
    "recovered_first": ("pump", "recovered_share"),
    "dead_first": ("electric", "hv_isolation"),
}
HUB_FOUND = "The hub does not turn freely, or its drive is broken."
OTHER_GAS = "Another gas than the label’s was found in it, or a mixture."
HV_FOUND = "High voltage was found present after it was isolated: hands off."
# By order: the gate of what was found, and why it bars running.
FOUND = {
    "hub_first": ("hub_found", HUB_FOUND),
    "gas_first": ("gas_found", OTHER_GAS),
    "dead_first": ("hv_found", HV_FOUND),
}
NO_FINDING = ("not_proven",)  # nobody could tell, which is neither
SINCE_CHANGED = " The car was changed since, and this was not tested again."
LOOP_OPEN = (
    "The loop is open, as far as is noted: note that it is closed and capped, with the drier fitted"
    " last."
)
WAS_OPEN = "The loop was open: evacuate it first."
DEBRIS = "Look at the expansion device for debris first: what stays in the loop reaches a new one."

MUST_NOT_RUN = "Must not be run"
SHOWN = "its pressure at rest read, and refrigerant shown in it"
# What has to happen before it may run, by the gate that bars it.
BEFORE = {
    "loop_run": SHOWN,
    "hub_found": "the hub turned by hand, engine off, and found free",
    "gas_found": "the gas identified, and found as the label says",
    "hv_found": "the high voltage isolated and proven dead, by a person qualified for it",
}


@dataclass(frozen=True)
class Gate:
    """An order that must not be broken, shut as things stand now. `code` is what names it.

    It bars what is offered, never the entry of what was done. `act` is what it bars (of ACTS),
    `opens` the test that opens it, "" where a page of the job does. `found`: something recorded
    says so, where another gate waits for something that nobody looked at yet; `number` is the step
    that shut it.
    """

    code: str
    act: str
    why: str
    opens: str
    found: bool = False
    number: int | None = None

    @property
    def bars_running(self) -> bool:
        """Whether something recorded says by it that it must not be run."""
        return self.code in BEFORE

    @property
    def what(self) -> str:
        """What must not be done."""
        return ACTS[self.act]

    @property
    def tag_words(self) -> str:
        """The reason alone, as it is printed on a tag."""
        why = self.why.removeprefix(f"{MUST_NOT_RUN}: ")
        return why[:1].upper() + why[1:]

    @property
    def run_words(self) -> str:
        """That it must not be run, and why; of a gate that bars running."""
        return f"{MUST_NOT_RUN}: {self.tag_words[:1].lower()}{self.tag_words[1:]}"

    @property
    def before(self) -> str:
        """What has to happen before it may run."""
        first = "" if self.opens else "the loop closed, evacuated and charged; then "
        return first + BEFORE.get(self.code, "")

    @property
    def address(self) -> str:
        """Of the page where it is opened, without the job."""
        return reverse("step", args=[self.opens]) if self.opens else reverse("repair")

    @property
    def page_words(self) -> str:
        """That page as people say it."""
        return KINDS[self.opens].title if self.opens else "Repair"


Told = Sequence[tuple[Assessed, Made]]
# The test that tells more of a loop in such a state.
OPENS_LOOP = {
    "closed": "vacuum_hold",
    "told_vacuum": "vacuum_hold",
    "told_nitrogen": "nitrogen_hold",
}


def gates(
    system: System,
    steps: Sequence[Assessed],
    states: Sequence[CarState],
    loop: LoopState,
    overrides: Iterable[Override] = (),
    work: Work | None = None,
) -> list[Gate]:
    """The gates that are shut now, in the order of what they bar.

    An override takes the place of a look that nobody had; what was found stays shut. `work` is what
    was done to the car; without it none of its gates is told.
    """
    told = by_time(steps, states)
    done = made(steps, states, overrides)
    orders = [(ORDERS[code], *acts) for code, acts in OF_ORDERS.items()]
    shut = [
        of_order(order, act, opens, shut_by(order, told))
        for order, act, opens in orders
        if not order.is_kept(done, system)
    ]
    found = [*of_loop(loop), *of_findings(system, told), *shut]
    if work:
        found += [Gate(*one, "", found=True) for one in shut_by_repair(work, loop)]
    device_told = work and (work.device_seen or work.fitted("compressor"))
    if not device_told and not any(looked_for_debris(step) for step, _one in told):
        found.append(Gate("debris_first", "order", DEBRIS, "debris"))
    if must_not_run(found):  # then no measurement runs it either
        found = [replace(one, act="run") if one.act == "measure" else one for one in found]
    return sorted(found, key=lambda gate: list(ACTS).index(gate.act))


def must_not_run(shut: Iterable[Gate]) -> list[Gate]:
    """Those of the gates by which something that was recorded says that it must not be run."""
    return [gate for gate in shut if gate.bars_running]


def by_time(steps: Sequence[Assessed], states: Sequence[CarState]) -> Told:
    """The tests that stand as orders see them, each with its step, the oldest first."""
    standing = sorted(
        (one for one in steps if one.stands and one.meaning), key=lambda one: one.step.made_at
    )
    return list(zip(standing, made(standing, states), strict=True))


def shut_by(order: Order, told: Told) -> tuple[Assessed, Made] | None:
    """The test that shut an order, where none opened it since; None: nobody looked yet."""
    at = order.shut_at(one for _, one in told)
    return None if at is None else told[at]


def of_order(order: Order, act: str, opens: str, shut: tuple[Assessed, Made] | None) -> Gate:
    """An order that is not kept; what shut it before the car was changed there may be gone."""
    if shut is None:
        return Gate(order.code, act, order.first, opens)
    step, one = shut
    why = f"{order.first} Shut by step {step.step.number}, {step.title}."
    return Gate(order.code, act, why, opens, not one.touched, step.step.number)


def of_loop(loop: LoopState) -> Iterator[Gate]:
    """What the loop's state bars."""
    is_open = loop.code in OPEN
    if loop.run:
        must_not = loop.run.startswith("Must not")
        opens = "" if is_open else OPENS_LOOP.get(loop.code, "static_pressure")
        code, act = ("loop_run", "run") if must_not else ("loop_check", "measure")
        yield Gate(code, act, loop.run, opens, must_not)
    if is_open:
        yield Gate("closed_first", "pump", LOOP_OPEN, "", found=True)
    if loop.was_open:
        yield Gate("evacuated_first", "charge", WAS_OPEN, "vacuum_hold", found=True)


def of_findings(system: System, told: Told) -> Iterator[Gate]:
    """What was found in it, by which it must not be run at all."""
    for of, (code, why) in FOUND.items():
        shut = found_by(ORDERS[of], told) if ORDERS[of].holds_on(system) else None
        if shut:
            number = shut[0].step.number
            since = SINCE_CHANGED if shut[1].touched else ""
            why_now = f"{why} Step {number}.{since}"
            yield Gate(code, "run", why_now, OF_ORDERS[of][1], True, number)


def found_by(order: Order, told: Told) -> tuple[Assessed, Made] | None:
    """The last test that found what shuts an order, until one finds otherwise.

    A change on the car takes no finding away: what was adjusted may have been something else.
    """
    last = None
    for step, one in told:
        if order.is_opened_by(one):
            last = None
        elif one.outcome in order.closed.get(one.kind, ()) and one.outcome not in NO_FINDING:
            last = (step, one)
    return last


def looked_for_debris(step: Assessed) -> bool:
    """Whether the expansion device was looked at."""
    read = taps(step.meaning.taken) if step.meaning else {}
    return step.step.kind == "debris" and read.get("expansion") in OPENED_AT


_PRESSURE = ("liquid", "pressure", "little", "ran", "ran_low")
_NO_AIR = ("vacuum", "low")
_GAS = ("gas", "put_in")
# What a hand-over note tells of the loop, and the states by which it stands otherwise.
AGAINST = {
    "sealed": OPEN,
    "open": (*_PRESSURE, *_NO_AIR, *_GAS, "closed"),
    "open_capped": (*_PRESSURE, *_NO_AIR, *_GAS),
    "vacuum": (*_PRESSURE, *_GAS, *OPEN),
    "nitrogen": (*_NO_AIR, *OPEN, "recovered"),
}
CANNOT_BE = (
    ("sealed", "open"),
    ("sealed", "open_capped"),
    ("open", "open_capped"),
    ("hv_isolated", "hv_live"),
)


def against_loop(stands: Sequence[str], loop: LoopState) -> list[str]:
    """What a note tells of the car otherwise than tests and changes did then, or than itself.

    Both are kept: who goes on looks at the car.
    """
    otherwise = [
        f"Told: {STANDS[code].lower()}. By tests and changes until then: {loop.words}."
        for code, states in AGAINST.items()
        if code in stands and loop.code in states
    ]
    both = [
        f"Both were told: {STANDS[one].lower()}, and {STANDS[other].lower()}."
        for one, other in CANNOT_BE
        if one in stands and other in stands
    ]
    return [*otherwise, *both]
