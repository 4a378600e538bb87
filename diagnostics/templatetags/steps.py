"""What jobs' pages show of the tests: the next one, the last made, what is told, what bars what."""

from collections.abc import Iterable
from typing import Any

from django import template

from diagnostics.assess import Assessed, overrides_of, readings_of, steps_of, system_of
from diagnostics.decided import decisions_of, is_to_be_done, last_of
from diagnostics.evidence.catalogue import GROUPS, KINDS
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.runs import runs
from diagnostics.evidence.system import System
from diagnostics.job_now import Points, all_points
from diagnostics.loop_as_told import as_told
from diagnostics.loop_state import OPEN, LoopState, loop_state
from diagnostics.loop_worked import by_work
from diagnostics.next_step import Next, next_of
from diagnostics.points import Gate, against_loop, gates, must_not_run
from diagnostics.repaired import work_of
from diagnostics.waived import parted, waivers_of
from diagnostics.weighing import Around, weighed
from jobs.models import Change, Job
from jobs.models.changes import changes_of, standing
from jobs.models.handovers import Handover
from jobs.models.people import BAY
from jobs.models.points import OpenPoint
from jobs.views.access import role_of

register = template.Library()
LAST = 3


@register.simple_tag
def steps_made(job: Job | None) -> list[Assessed]:
    """The steps of a job, in one query however many there are; none for the page without a job."""
    return steps_of(job) if job else []


@register.simple_tag
def loop_told(job: Job | None, made: list[Assessed], changes: Iterable[Change]) -> LoopState | None:
    """The loop as it was read, changed and told of; None for the page without a job."""
    return loop_state(made, changes, told=as_told(job)) if job else None


@register.simple_tag
def with_step_points(
    points: Iterable[OpenPoint] | None, job: Job | None, made: list[Assessed]
) -> Points:
    """The job's open points, and those of its steps behind them; without those waived."""
    if job is None:
        return [*(points or ())]
    listed = all_points(points or (), made, job.car_states.all(), job)
    return parted(listed, waivers_of(job))[0]


@register.simple_tag
def gates_shut(job: Job | None, made: list[Assessed], loop: LoopState | None) -> list[Gate]:
    """What must not be done yet on this car, and why; nothing for the page without a job."""
    if not (job and loop):
        return []
    states, system = list(job.car_states.all()), system_of(job.vehicle.system)
    return gates(system, made, states, loop, overrides_of(job), work_of(job))


@register.simple_tag
def bars_running(shut: list[Gate]) -> list[Gate]:
    """Those by which something recorded says that the A/C must not be run."""
    return must_not_run(shut)


@register.inclusion_tag("diagnostics/_not_yet.html")
def not_yet(
    job: Job | None, shut: list[Gate], loop: LoopState | None, may_test: bool
) -> dict[str, Any]:
    """What must not be done yet, one row a gate, with the way to what opens it.

    And what of the loop nobody told, which is never to be read out of its state. Where something
    recorded says that it must not be run at all, what only waits to be looked at is not repeated.
    """
    shown = [gate for gate in shut if gate.found or gate.act != "run"]
    return {"job": job, "gates": shown, "loop": loop, "may_test": may_test}


@register.simple_tag
def note_against(
    note: Handover | None, made: list[Assessed], changes: Iterable[Change]
) -> list[str]:
    """What a hand-over note tells otherwise than tests and changes did until then."""
    if not note:
        return []
    done = by_work(note.job.car_states.all())
    return against_loop(note.stands, loop_state(made, changes, note.entry.done_at, done))


@register.inclusion_tag("diagnostics/_kind_link.html")
def kind_link(job: Job | None, name: str, looks: str = "alone", begins: str = "") -> dict[str, Any]:
    """The way to a test by its name; one that this program does not know stays as it was told."""
    return {"job": job, "kind": KINDS.get(name), "name": name, "looks": looks, "begins": begins}


@register.inclusion_tag("diagnostics/_next_tap.html", takes_context=True)
def next_tap(context: dict[str, Any], job: Job | None, form: Any) -> dict[str, Any]:
    """The test that comes next as an answer, chosen unless a person chose otherwise."""
    bound = form.is_bound
    told = str(form.data.get("next_test", "")) if bound else ""
    kind = KINDS.get(told)
    if kind is None and job:
        best = what_next(context, job, context.get("made") or []).best
        kind = best.kind if best else None
    return {"kind": kind, "chosen": not bound or bool(told), "form": form}


@register.inclusion_tag("diagnostics/_next_step.html", takes_context=True)
def next_step(context: dict[str, Any], job: Job | None, made: list[Assessed]) -> dict[str, Any]:
    """The test to make next, or why there is none.

    The page without a job, which a tablet keeps, has every kind hidden, with what bars it: its
    script shows the first that the car allows and that is not made yet.
    """
    role = role_of(context.get("request"))
    if job is None:
        bars = [kept_page(kind) for kind in KINDS.values()]
        return {"job": None, "kinds": KINDS.values(), "bars": bars}
    if role not in BAY:
        return {"job": job, "why": "Tests are the technicians’ work."}
    loop = context.get("loop")
    step = what_next(context, job, made)
    told = {"job": job, "step": step, "last": last_made(made), "count": count(made)}
    return told | {
        "loop_open": bool(loop and loop.code in OPEN),
        "decided": to_be_done(context, job),
    }


def to_be_done(context: dict[str, Any], job: Job) -> str:
    """What was decided and is not begun, in words; empty: nothing."""
    decision = last_of(decisions_of(job))
    if decision is None:
        return ""
    changes = context.get("changes")
    told = standing(changes_of(job)) if changes is None else changes
    return decision.words if is_to_be_done(decision, told) else ""


def what_next(context: dict[str, Any], job: Job, made: list[Assessed]) -> Next:
    """What comes next on a job's page, by its steps, changes, loop and gates."""
    around = around_on(context, job, made)
    return next_of(weighed(around), around)


def around_on(context: dict[str, Any], job: Job, made: list[Assessed]) -> Around:
    """A job as a page has it: with its loop, and perhaps its changes and its gates."""
    states, system = list(job.car_states.all()), system_of(job.vehicle.system)
    overrides, loop = overrides_of(job), context.get("loop")
    shut, changes = context.get("shut"), context.get("changes")
    if shut is None:
        shut = gates(system, made, states, loop, overrides) if loop else []
    told = standing(changes_of(job)) if changes is None else changes
    return Around(system, job.failing_now, made, states, told, loop, shut, overrides)


@register.inclusion_tag("diagnostics/_all_tests.html", takes_context=True)
def all_tests(context: dict[str, Any], job: Job | None, made: list[Assessed]) -> dict[str, Any]:
    """Every test behind one touch, for those who test; the page without a job has it for all."""
    role = role_of(context.get("request"))
    return {"job": job, "made": made, "may_test": job is None or role in BAY}


def kept_page(kind: Kind) -> dict[str, Any]:
    """What a kept page has to know of a kind: what bars it, and what must come first."""
    told = kind.as_json()
    return {name: told[name] for name in ("name", "about", "bars", "orders", "waits")} | {
        "runs": runs(kind)
    }


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


@register.inclusion_tag("diagnostics/_just_told.html")
def just_told(job: Job | None, made: list[Assessed]) -> dict[str, Any]:
    """The last step recorded, and a look that saw the complaint where the switch tells nothing."""
    last = max(made, key=lambda one: one.step.number, default=None)
    return {"last": last, "seen": seen_now(job, made) if job else None}


def seen_now(job: Job, made: list[Assessed]) -> Assessed | None:
    """The last look at the complaint on the car as it is, where nobody turned the switch."""
    now = max((one.number for one in job.car_states.all()), default=0)
    looks = [
        one
        for one in made
        if one.stands and one.step.kind == "complaint_seen" and one.step.state_then >= now
    ]
    last = None if job.failing_now else last_made(looks)
    return last if last and readings_of(last.step).get("there") == "yes" else None


def count(made: list[Assessed]) -> int:
    """How many tests stand: a correction and what could not be done are none of their own."""
    return sum(one.stands for one in made)


def last_made(made: list[Assessed]) -> Assessed | None:
    """The newest test that stands, which says what to do next."""
    standing = (one for one in made if one.stands)
    return max(standing, key=lambda one: (one.step.made_at, one.step.number), default=None)
