"""What shows that a repaired car cools: twins before and after, what is still to show, the cold.

Read from a job's rows at a fixed number of queries; a record and a tablet are told from the same.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from django.db.models import QuerySet

from diagnostics.assess import Assessed, readings_of
from diagnostics.cured import Cured, cured
from diagnostics.evidence.before_after import BeforeAfter, before_and_after, not_compared
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.showable import Cold, Switch, too_cold
from diagnostics.evidence.shown import Shown, Tapped, Tried, stand
from diagnostics.evidence.to_show import CAPS, LABEL, Item, again, kinds_of, to_show
from diagnostics.evidence.twin_rules import NO_TWIN
from diagnostics.evidence.twins import Twin, parts_of
from diagnostics.job_now import JobNow
from diagnostics.models import Verified
from diagnostics.physics.pressure import Gauge
from diagnostics.shop_told import ShopTold, shop_told
from diagnostics.since_changed import is_fine, tells
from diagnostics.twins_made import conditions_read, left_out, once, since_first, telling, twins_of
from diagnostics.weighing import Around, around_of
from diagnostics.work_done import changed_in, done_to, last_at_ports, last_by_question, last_touched
from jobs.models import Conditions, Job
from jobs.models.conditions import HOLDS
from jobs.models.corrected import by_whom

SEVERAL = "More than one thing was changed between: which of them did it is not told by this."
NOT_DONE = "Could not be done: "  # the list says that itself
CAPS_OFF = "They were told before step {}, {}, for which they came off again."
OWN_REFUSAL = "The control unit itself keeps it off for the cold, by step {}."


@dataclass(frozen=True)
class AirNow:
    """The air outside as last told on the car as it is now: in K, in words, when."""

    kelvin: float
    words: str
    at: datetime


@dataclass(frozen=True)
class Verification:
    """All of it. `changed` are the car states between the first and the last, in words.

    `left` are tests that were made and have no twin, with why. `refused` says that the car itself
    keeps the compressor off for the cold; `cold` is None where the air is warm enough or nobody
    told of it (`air` None).
    """

    changed: tuple[str, ...]
    twins: tuple[Twin, ...]
    left: tuple[tuple[str, str], ...]
    shown: tuple[Shown, ...]
    cured: tuple[Cured, ...]
    air: AirNow | None
    cold: Cold | None
    refused: str = ""

    @property
    def several(self) -> str:
        """That more than one thing was changed; empty: one was."""
        return SEVERAL if len(self.changed) > 1 else ""

    @property
    def done(self) -> int:
        """How many of the things to show were shown."""
        return sum(one.is_shown for one in self.shown)

    @property
    def still_open(self) -> tuple[Shown, ...]:
        """What is not shown yet, or not in whole."""
        return tuple(one for one in self.shown if not one.is_shown)

    @property
    def not_showable(self) -> bool:
        """Whether something that is not shown waits for warmer air."""
        return bool(self.cold) and any(one.item.warm for one in self.still_open)

    @property
    def before_after(self) -> BeforeAfter | None:
        """The two numbers of page 1; None: no pair compares (`no_numbers` says why)."""
        return before_and_after(self.twins)

    @property
    def no_numbers(self) -> str:
        """Why there are no two numbers; empty: there are."""
        return not_compared(self.twins)


def verification_of(job: Job) -> Verification:
    """The verification of a job that comes with car and system."""
    return verified_by(around_of(job), conditions_of(job), looks_of(job), shop_told())


def verification_now(now: JobNow) -> Verification:
    """The same of a job that was read already, without the engine's verdict; in three queries."""
    rows, told = conditions_of(now.job), looks_of(now.job)
    return verified_by(now.around, rows, told, shop_told(), with_verdict=False)


def conditions_of(job: Job) -> list[Conditions]:
    """What was told of air, doors and engine speed, in the order in which it happened."""
    return list(conditions_told().filter(job=job))


def looks_of(job: Job) -> list[Verified]:
    """The looks at caps and label that stand."""
    return list(looks_told().filter(job=job))


def conditions_told() -> QuerySet[Conditions]:
    """Conditions with when they were told."""
    return Conditions.objects.select_related("entry")


def looks_told() -> QuerySet[Verified]:
    """Looks that stand, with who told them."""
    return Verified.objects.filter(superseded_by=None).select_related("entry__author")


def verified_by(
    around: Around,
    conditions: Sequence[Conditions],
    told: Iterable[Verified],
    shop: ShopTold,
    *,
    with_verdict: bool = True,
) -> Verification:
    """The same from what was read already, without a query.

    `told` are the looks at caps and label that stand.
    """
    air = air_now(around, conditions)
    cold, refused = in_the_cold(around, air, shop)
    twins = tuple(twins_of(around, conditions, shop.units, cold))
    items = items_of(around)
    by_name = {(one.kind, parts_of(KINDS[one.kind], one.then)): one for one in twins}
    tests = [test_of(one, by_name) for one in since_first(around)]
    changed = {"": last_touched(around.states), **last_by_question(around.states)}
    tapped = tapped_of(told, around)
    return Verification(
        tuple(changed_in(around.states)),
        twins,
        tuple(left_out(around)),
        tuple(stand(items, tests, changed, tapped, cold)),
        tuple(cured(around)) if with_verdict else (),
        air,
        cold,
        refused,
    )


def items_of(around: Around) -> list[Item]:
    """What is to be shown: by the work and the car, and what had found something before."""
    items = to_show(done_to(around), around.system)
    if not items:
        return []
    named = {*kinds_of(items), *NO_TWIN}
    touched = last_by_question(around.states)
    before = {one.step.kind: one for one in telling(around) if one.step.state_then == 0}
    for name, one in before.items():
        kind = KINDS.get(name)
        if kind and name not in named and kind.about in touched and not is_fine(one):
            normal = [words.code for words in kind.outcomes if words.normal]
            items.append(again(name, kind.title, kind.about, normal))
    return items


def test_of(one: Assessed, twins: Mapping[tuple[str, str], Twin]) -> Tried:
    """A test as the list takes it."""
    readings = readings_of(one.step)
    outcome = one.meaning.outcome.code if one.meaning else ""
    part = parts_of(one.kind, once(one, {})) if one.kind else ""
    found = twins.get((one.step.kind, part))
    unlike = ""
    if found and found.now and found.now.step == one.step.number and not found.compared:
        unlike = "Not under the conditions of before: no difference is worked out."
    return Tried(
        one.step.number,
        one.step.state_then,
        one.step.kind,
        one.finding,
        outcome,
        tells(one),
        not_done_because(one),
        taps(readings),
        frozenset(readings),
        unlike,
    )


def not_done_because(one: Assessed) -> str:
    """Why a test could not be made; empty: it was."""
    why = one.not_done.removeprefix(NOT_DONE)
    return f"{why[:1].upper()}{why[1:]}"


def air_now(around: Around, conditions: Sequence[Conditions]) -> AirNow | None:
    """The air outside, as last told since the car was last changed, or in the hour before that."""
    opened = max((one.opened_at for one in around.states if one.touches), default=None)
    told = [
        (row.entry.done_at, conditions_read(row).get("ambient"))
        for row in conditions
        if opened is None or row.entry.done_at >= opened - HOLDS
    ]
    told += [
        (one.step.made_at, outside(readings_of(one.step)))
        for one in around.steps
        if one.stands and (opened is None or one.step.made_at >= opened)
    ]
    read = [(at, one) for at, one in told if isinstance(one, Reading)]
    if not read:
        return None
    at, last = max(reversed(read), key=lambda each: each[0])  # of one moment what was told last
    return AirNow(last.si, last.shown, at)


def outside(readings: Readings) -> Reading | None:
    """The air outside as a test noted it."""
    fresh = readings.get("recirculation") == "fresh"
    return number(readings, "ambient") or (number(readings, "intake") if fresh else None)


def in_the_cold(around: Around, air: AirNow | None, shop: ShopTold) -> tuple[Cold | None, str]:
    """Whether it is too cold to show it, and whether the car itself says so."""
    refused = [
        one
        for one in since_first(around)
        if one.step.kind == "command_data" and one.meaning and one.stands
    ]
    own = ""
    if refused and refused[-1].meaning and refused[-1].meaning.outcome.code == "refused_cold":
        own = OWN_REFUSAL.format(refused[-1].step.number)
    if air is None:
        return None, own
    told: Circumstances = shop.around(around.system, around.failing_now)
    cold = too_cold(air.kelvin, told, switch_of(around))
    return (replace(cold, reasons=(*cold.reasons, own)) if cold and own else cold), own


def switch_of(around: Around) -> Switch | None:
    """The low-pressure switch's own figure, where a test noted it."""
    noted = [
        (one.step.number, found)
        for one in telling(around)
        if one.step.kind == "pressure_switch" and one.meaning
        if (found := number(one.meaning.taken, "closes_at"))
    ]
    return Switch(Gauge(noted[-1][1].si), noted[-1][0]) if noted else None


def tapped_of(told: Iterable[Verified], around: Around) -> dict[str, Tapped]:
    """Caps and label, each as last told; caps count until something is joined to a port again."""
    found: dict[str, Tapped] = {}
    states, joined = around.states, last_at_ports(around.steps)
    for row in sorted(told, key=lambda one: (one.entry.done_at, one.entry.happened_at, one.pk)):
        at = row.entry.done_at
        state = max(one.number for one in states if not one.number or one.opened_at <= at)
        by = by_whom(row.entry)
        if row.caps:
            off = joined if joined and joined.step.made_at > at else None
            found[CAPS] = caps_off(off, state) if off else caps_told(row, by, state)
        if row.label:
            found[LABEL] = label_told(row, by, state)
    return found


def caps_off(test: Assessed, state: int) -> Tapped:
    """Caps that came off again for a test."""
    said = CAPS_OFF.format(test.step.number, test.title.lower())
    return Tapped("not_yet", said, state)


def caps_told(row: Verified, by: str, state: int) -> Tapped:
    """The caps of the ports."""
    if row.caps == "on":
        return Tapped("shown", f"Both on. {by}.", state)
    if row.caps == "missing":
        return Tapped("not_fine", f"One is missing. {by}.", state)
    return Tapped("could_not", f"Out of reach. {by}.", state)


def label_told(row: Verified, by: str, state: int) -> Tapped:
    """The service label, with what stands on it."""
    said = f"{row.label_said}. {by}." if row.label_said else f"{by}."
    if row.label == "none":
        return Tapped("could_not", f"None was put on. {by}.", state)
    if row.label == "stands":
        return Tapped("shown", f"The one there is still right. {said}", state)
    if row.label_lacks:
        lacks = ", ".join(row.label_lacks)
        return Tapped("in_part", f"Put on. Not told what stands there of: {lacks}. {said}", state)
    return Tapped("shown", said, state)
