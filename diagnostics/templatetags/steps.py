"""What the job's page shows of the tests: the next one, and the last made."""

from collections.abc import Iterable
from typing import Any

from django import template

from diagnostics.assess import Assessed, overrides_of, steps_of, system_of
from diagnostics.assess import made as made_before
from diagnostics.evidence.catalogue import GROUPS, KINDS
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.orders import Made
from diagnostics.evidence.system import System
from diagnostics.job_now import after_closed
from diagnostics.loop_state import LoopState, loop_state
from diagnostics.points import step_points
from diagnostics.since_changed import to_make_again
from diagnostics.waived import parted, waivers_of
from jobs.models import Change, Job
from jobs.models.people import OWNER, TECHNICIAN

register = template.Library()
LAST = 3


@register.simple_tag
def steps_made(job: Job | None) -> list[Assessed]:
    """The steps of a job, in one query however many there are; none for the page without a job."""
    return steps_of(job) if job else []


@register.simple_tag
def loop_told(job: Job | None, made: list[Assessed], changes: Iterable[Change]) -> LoopState | None:
    """The loop as its steps and the changes that stand tell it; None for the page without a job."""
    return loop_state(made, changes) if job else None


@register.simple_tag
def with_step_points(
    points: Iterable[Any] | None, job: Job | None, made: list[Assessed]
) -> list[Any]:
    """The job's open points, and those of its steps behind them; without those waived."""
    if job is None:
        return [*(points or ())]
    listed = [*(points or ()), *step_points(made, job.car_states.all()), *after_closed(job)]
    return parted(listed, waivers_of(job))[0]


@register.inclusion_tag("diagnostics/_next_step.html", takes_context=True)
def next_step(context: dict[str, Any], job: Job | None, made: list[Assessed]) -> dict[str, Any]:
    """The test to make next, or why there is none.

    The page without a job, which a tablet keeps, has every kind hidden, with what bars it: its
    script shows the first that the car allows and that is not made yet.
    """
    role = getattr(getattr(context.get("request"), "user", None), "role", "")
    if job is None:
        bars = [kept_page(kind) for kind in KINDS.values()]
        return {"job": None, "kinds": KINDS.values(), "bars": bars, "may_test": True, "made": []}
    if role not in (TECHNICIAN, OWNER):
        return {"job": job, "why": "Tests are the technicians’ work."}
    said: dict[str, Any] = {"job": job, "may_test": True, "made": made}
    states = list(job.car_states.all())
    system, done = system_of(job.vehicle.system), made_before(made, states, overrides_of(job))
    again = can_be_made(to_make_again(states, made), done, system)
    if again:
        before = any(one.stands and one.step.kind == again.name for one in made)
        return said | {"kind": again, "again": True, "before": before}
    left = not_made(made)
    kind = can_be_made(left, done, system)
    if kind:
        return said | {"kind": kind}
    waits = orders_open(left, done, system)
    return said | {"waits": waits, "last": last_made(made), "count": count(made)}


def kept_page(kind: Kind) -> dict[str, Any]:
    """What a kept page has to know of a kind: what bars it, and what must come first."""
    told = kind.as_json()
    return {name: told[name] for name in ("name", "bars", "orders", "waits")}


@register.inclusion_tag("diagnostics/_tests.html")
def tests(job: Job | None, made: list[Assessed]) -> dict[str, Any]:
    """Every test by the part of the job it belongs to; those this car bars come last in theirs.

    On the page without a job its script sorts out what the car bars.
    """
    system = system_of(job.vehicle.system) if job else System()
    told = {one.step.kind for one in made if one.stands}
    groups = []
    for code, words in GROUPS.items():
        kinds = [(kind, kind.forbids(system)) for kind in KINDS.values() if kind.about == code]
        offered = [(kind, kind.name in told) for kind, barred in kinds if not barred]
        if kinds:
            groups.append(
                {
                    "words": words,
                    "offered": offered,
                    "barred": [(kind, barred) for kind, barred in kinds if barred],
                    "made": sum(done for _kind, done in offered),
                }
            )
    return {"job": job, "groups": groups}


@register.inclusion_tag("diagnostics/_last_steps.html")
def last_steps(job: Job, made: list[Assessed]) -> dict[str, Any]:
    """The last three steps and the way to all of them."""
    return {"job": job, "count": len(made), "last": made[: -LAST - 1 : -1]}


def orders_open(kinds: Iterable[Kind], done: list[Made], system: System) -> list[str]:
    """What must come first before those of the kinds may be made that the car allows."""
    left = [kind for kind in kinds if not kind.forbids(system)]
    return list({order.first: None for kind in left for order in kind.not_kept(done, system)})


def count(made: list[Assessed]) -> int:
    """How many tests stand: a correction and what could not be done are none of their own."""
    return sum(one.stands for one in made)


def last_made(made: list[Assessed]) -> Assessed | None:
    """The newest test that stands, which says what to do next."""
    return next((one for one in reversed(made) if one.stands), None)


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
