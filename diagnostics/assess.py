"""From rows to what they mean: the A/C as kinds ask for it, and a step with its meaning."""

import json
import uuid
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import lru_cache
from typing import Any

from django.db.models import (
    Prefetch,
    prefetch_related_objects,
)

from diagnostics.as_it_stood import rows
from diagnostics.evidence.bears import NOTHING, Bears
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import shown_reading
from diagnostics.evidence.findings import FAILING_NOTES, Meaning, OutcomeWords
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.lasting import LASTING
from diagnostics.evidence.orders import ORDERS, OVERRIDE, Made, Order
from diagnostics.evidence.readings import Readings, from_json
from diagnostics.evidence.system import System
from diagnostics.instruments import ReadWith, read_with
from diagnostics.loop_worked import work_made
from diagnostics.models import ODDLY_TOLD, Override, Step
from diagnostics.overridden import in_force, with_end
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.shown_units import ShownIn
from diagnostics.shop_told import ShopTold, kind_told, shop_told
from jobs.models import CarState, Job
from jobs.models import System as SystemRow

REPLACES_NOTHING = (
    "was to replace a step that is not in this job or is another kind of test, and replaces nothing"
)
KEPT_MEANINGS = 1024  # of some kilobytes each: the steps of the two dozen jobs in hand
ONLY_A_PHOTO = "Only a photo: nothing was read."


@dataclass(frozen=True)
class Assessed:
    """A step with what it means on the system as it is known now.

    `meaning` is None where the test could not be done, and where this version of the program does
    not know the kind any more; the readings stay in the row.
    """

    step: Step
    kind: Kind | None
    meaning: Meaning | None
    told: list[tuple[str, str]]
    not_done: str
    barred: str
    failing_note: str
    only_a_photo: bool = False
    broken: tuple[Order, ...] = ()  # what should have come first, and had not
    under: tuple[Override, ...] = ()  # what let it be made without
    bears: Bears = NOTHING  # on the orders, by what was read
    read_with: Sequence[ReadWith] = ()
    units: ShownIn = field(default_factory=ShownIn)  # in which its meaning is told

    @property
    def stands(self) -> bool:
        """Whether it is a test made, and counts: something was read, and nothing replaced it."""
        read = not self.step.not_done and not self.only_a_photo
        return read and not self.step.superseded_by_id

    @property
    def came_out(self) -> OutcomeWords | None:
        """Its outcome as its kind has it in words; None: it has none."""
        if self.kind is None or self.meaning is None:
            return None
        code = self.meaning.outcome.code
        return next((row for row in self.kind.outcomes if row.code == code), None)

    @property
    def corrects_nothing(self) -> bool:
        """Whether it was to take the place of a step, and none in this job is that one."""
        return bool(self.step.entry.corrects) and not hasattr(self.step, "supersedes")

    @property
    def corrects(self) -> str:
        """Which step it took the place of, and what was wrong with that one; empty: none."""
        if not self.step.entry.corrects:
            return ""
        why = self.step.corrected_why or "no reason given"
        if self.corrects_nothing:
            return f"Step {self.step.number} {REPLACES_NOTHING}: {why}"
        return f"Step {self.step.number} replaces step {self.step.supersedes.number}: {why}"

    @property
    def takes_place(self) -> str:
        """Which step it took the place of, without the reason; empty: it corrects none."""
        if not self.step.entry.corrects:
            return ""
        if self.corrects_nothing:
            return f"It {REPLACES_NOTHING}."
        return f"Replaces step {self.step.supersedes.number}."

    @property
    def onward(self) -> str:
        """What the step itself says to do next, in its own sentences."""
        return " ".join(self.meaning.onward) if self.meaning else ""

    @property
    def worked_out(self) -> str:
        """The numbers that were worked out from what was read, in one line; empty: none."""
        values = self.meaning.computed if self.meaning and not self.step.superseded_by_id else ()
        return "; ".join(f"{one.words}: {one.shown}" for one in values)

    @property
    def instruments(self) -> str:
        """The instruments it names, each once; empty: none."""
        names = dict.fromkeys(one.thing.name for one in self.read_with)
        return f"Read with {', '.join(names)}." if names else ""

    @property
    def photos(self) -> str:
        """How many photos were taken with it, in words; empty: none."""
        return photos_words(self.step.photo_count)

    @property
    def title(self) -> str:
        """The test's name."""
        return self.kind.title if self.kind else self.step.kind

    @property
    def finding(self) -> str:
        """What was found, in one or two sentences."""
        if self.meaning is None:
            return self.not_done
        return f"{self.meaning.lead} {self.meaning.outcome.sentence}".strip()


def photos_words(count: int) -> str:
    """A number of photos; empty where there is none."""
    return f"{count} photo{'' if count == 1 else 's'}" if count else ""


def system_of(row: SystemRow) -> System:
    """The A/C as far as kinds ask for it; what is not known is left out."""
    system: System = {
        "drive": row.drive,
        "clutch": row.clutch if row.drive == "belt_electric" else "",  # else the drive says it
        "displacement": row.displacement,
        "voltage": row.voltage,
        "switched_side": row.switched_side,
        "refrigerant": row.refrigerant,
        "branches": row.branches,
    }
    if row.label_charge_mg:
        system["label_charge_kg"] = row.label_charge_mg / 1_000_000
    if row.coil_milliohm:
        system["coil_ohm"] = row.coil_milliohm / 1000
        system["coil_ohm_source"] = row.read_from("coil_milliohm")
    if row.gap_low_um and row.gap_high_um:
        system["gap_low_m"] = row.gap_low_um / 1_000_000
        system["gap_high_m"] = row.gap_high_um / 1_000_000
        system["gap_source"] = row.read_from("gap")
    return system


def around_job(job_key: uuid.UUID | None) -> Circumstances:
    """What a test on this job is read against now; nothing is known of a job that is not here."""
    jobs = Job.objects.select_related("vehicle__system")
    job = jobs.filter(key=job_key).first() if job_key else None
    return around_now(job) if job else shop_told().around(System())


def around_now(job: Job) -> Circumstances:
    """The same for a job that comes with car and system."""
    return shop_told().around(system_of(job.vehicle.system), job.failing_now)


def readings_of(step: Step) -> Readings:
    """A step's readings as kinds compute with them."""
    return from_json(step.readings)


def assess(step: Step, system: System, shop: ShopTold | None = None) -> Assessed:
    """What one step, read with as_it_stood, means; `shop` is read where it is not given."""
    told_by = shop_told() if shop is None else shop
    kind = kind_told(step.kind, told_by.units)
    readings = readings_of(step)
    done = kind is not None and not step.not_done
    meaning, bearing = (None, NOTHING)
    if kind and done:
        around = told_by.around(system, step.failing_then, step.made_at)
        meaning, bearing = what_it_means(kind.name, step.readings, around)
    only_a_photo = bool(kind and meaning and is_only_a_photo(step, kind, readings))
    if meaning and only_a_photo:
        bare = replace(meaning.outcome, sentence=ONLY_A_PHOTO, marks=(), carries=False)
        meaning = replace(meaning, lead="", outcome=bare)
    told = [
        (asked.question, shown_reading(asked, readings[asked.name]))
        for asked in (kind.fields if kind else ())
        if asked.name in readings
    ]
    return Assessed(
        step,
        kind,
        meaning,
        told,
        not_done_words(kind, step),
        (kind.forbids(system) or "") if kind and done else "",
        FAILING_NOTES.get(step.failing_then, "") if meaning and step.kind not in LASTING else "",
        only_a_photo,
        bears=bearing,
        read_with=read_with(step, kind, readings, system),
        units=told_by.units,
    )


def what_it_means(
    name: str, readings: Mapping[str, Any], around: Circumstances
) -> tuple[Meaning, Bears]:
    """What readings of a kind mean, and on which orders they bear.

    Nothing else goes into it, so what was worked out once is given again: a page with forty steps
    would work out all of them each time it is opened. Nobody may change what is given.
    """
    kept = (json.dumps(readings), json.dumps(around.system), around.failing)
    chosen = tuple(sorted(around.units.chosen.items()))
    return _meant(id(KINDS[name]), name, *kept, chosen, around.air, around.air_words)


@lru_cache(maxsize=KEPT_MEANINGS)
def _meant(
    _which: int,  # tells two kinds of one name apart
    name: str,
    readings: str,
    system: str,
    failing: str,
    chosen: tuple[tuple[str, str], ...],
    air: Absolute,
    air_words: str,
) -> tuple[Meaning, Bears]:
    units = ShownIn(dict(chosen))
    kind, fitted = kind_told(name, units) or KINDS[name], json.loads(system)
    read, around = (
        from_json(json.loads(readings)),
        Circumstances(fitted, failing, air, air_words, units),
    )
    return kind.meaning(read, around), kind.bears(read, fitted)


def is_only_a_photo(step: Step, kind: Kind, readings: Readings) -> bool:
    """Whether nothing was read, tapped or seen: without a photo it would not have been kept."""
    odd = any(mark["code"] in ODDLY_TOLD for mark in step.marks)
    return not (step.seen or odd or kind.tells(readings))


def not_done_words(kind: Kind | None, step: Step) -> str:
    """That a test could not be done, and why; empty when it was."""
    if not step.not_done:
        return ""
    reasons = {reason.code: reason.words for reason in kind.not_done} if kind else {}
    reason = reasons.get(step.not_done, step.not_done).lower()
    detail = f" ({step.not_done_words})" if step.not_done_words else ""
    return f"Could not be done: {reason}{detail}. That is no result."


def steps_of(
    job: Job,
    states: Iterable[CarState] | None = None,
    overrides: Iterable[Override] | None = None,
) -> list[Assessed]:
    """All steps of a job in the order recorded, each with its meaning, in two queries.

    The job comes with car and system; its car states and overrides are read, too, unless they come
    with it.
    """
    begun = job.car_states.all() if states is None else states
    given = overrides_of(job) if overrides is None else overrides
    return assess_all(rows(job), system_of(job.vehicle.system), begun, given)


def overrides_of(job: Job) -> list[Override]:
    """The orders that an owner lets this job go against, oldest first; read once of one job."""
    prefetch_related_objects([job], Prefetch("overrides", with_end()))
    return list(job.overrides.all())


def assess_all(
    steps: Iterable[Step],
    system: System,
    states: Iterable[CarState],
    overrides: Iterable[Override] = (),
    shop: ShopTold | None = None,
) -> list[Assessed]:
    """What several steps of one job mean, and which orders each broke, or went against let so."""
    begun, given = list(states), list(overrides)
    told_by = shop_told() if shop is None else shop
    read = [assess(step, system, told_by) for step in steps]
    return [with_orders(one, read, system, begun, given) for one in read]


def with_orders(
    one: Assessed,
    read: Iterable[Assessed],
    system: System,
    states: Sequence[CarState],
    overrides: Sequence[Override],
) -> Assessed:
    """A step with what should have come first and had not, by the times at which they were made."""
    if one.kind is None or not one.kind.orders or not one.stands:
        return one
    at, readings = one.step.made_at, readings_of(one.step)
    before = [other for other in read if other.step.made_at < at]
    then = [state for state in states if state.number <= one.step.state_then]
    given = in_force(overrides, at)
    open_then = one.kind.orders_broken(readings, made(before, then), system)
    if not (open_then and given):
        return replace(one, broken=open_then)
    broken = one.kind.orders_broken(readings, made(before, then, given, at), system)
    let = {order.code for order in open_then} - {order.code for order in broken}
    last = {override.order: override for override in given if override.order in let}
    return replace(one, broken=broken, under=tuple(last.values()))


def made(
    read: Iterable[Assessed],
    states: Sequence[CarState],
    overrides: Iterable[Override] = (),
    at: datetime | None = None,
) -> list[Made]:
    """The tests that stand with their outcomes, oldest first, on a car of these states.

    An override that bears, now or at that moment, stands among them where it was given, and what
    work on the loop did where it was done.
    """
    let = [
        (one.given_at, Made(OVERRIDE, "", override_touched(one, states), (one.order,)))
        for one in in_force(overrides, at)
    ]
    worked = [(state.opened_at, work_made(state)) for state in states if state.did]
    told = [*tests_made(read, states), *worked, *let]
    return [one for _, one in sorted(told, key=lambda moment: moment[0])]


def tests_made(read: Iterable[Assessed], states: Sequence[CarState]) -> list[tuple[datetime, Made]]:
    """The same of the tests alone, each with when it was made, as they come."""
    return [
        (
            one.step.made_at,
            Made(
                one.step.kind,
                one.meaning.outcome.code,
                touched_since(one, states),
                one.bears.opens,
                one.bears.shuts,
            ),
        )
        for one in read
        if one.stands and one.meaning
    ]


def override_touched(one: Override, states: Iterable[CarState]) -> bool:
    """Whether the car was changed after an override in what its order looks at."""
    order = ORDERS.get(one.order)
    about = {KINDS[kind].about for kind in order.opened if kind in KINDS} if order else set()
    return any(state.opened_at > one.given_at and about & {*state.touches} for state in states)


def touched_since(one: Assessed, states: Iterable[CarState]) -> bool:
    """Whether the car was changed after a step in what that kind of test looks at."""
    about = one.kind.about if one.kind else ""
    return any(state.number > one.step.state_then and about in state.touches for state in states)
