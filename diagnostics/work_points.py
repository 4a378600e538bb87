"""Open points of work on the loop: what was done against an order, and what was not told of it.

Nothing of it is refused. A point stands for as long as the work does.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence

from django.db.models import Prefetch, QuerySet, prefetch_related_objects
from django.utils import timezone

from diagnostics.assess import Assessed, made, system_of
from diagnostics.booked import differs
from diagnostics.evidence.orders import ORDERS, OWN_HOSES
from diagnostics.evidence.read_with import REFRIGERANT
from diagnostics.loop_as_told import as_told
from diagnostics.loop_state import OPEN, LoopState, loop_state
from diagnostics.overridden import in_force
from diagnostics.points import StepPoint
from jobs.cylinder_limits import SENTENCES, in_words
from jobs.models import CarState, Change, Job, LoopWork
from jobs.models.changes import standing
from jobs.models.loop_works import FILLS, PUTS_IN, RECOVERED, TAKES_OUT, standing_works
from jobs.models.oil_works import amount_of
from jobs.models.points import PAGES
from jobs.models.qualifications import PAPERS, day_words, holds

LEAKS = {
    "not_repaired": "charged into a leak that was found and is not repaired.",
    "not_found": "charged, although refrigerant was missing and no place was found.",
}
WAS_OPEN = "charged while the loop was open, as far as is noted."
NO_VACUUM = "charged, and no deep vacuum was noted since the loop was open."
NO_OIL = "charged before oil was noted back in."
UNTOLD = "how much came out is not told. It stays unknown, and is no zero."
PUMPED_OPEN = "begun while the loop was open, as far as is noted."
WHY_TWICE = "with_refrigerant_why"
TWICE = (
    "oil out with the refrigerant is told by a recovery, too. Is it the same? Then correct this."
)
REPLACES_NOTHING = "was to replace work that is not in this job, and replaces nothing."


def work_points(job: Job, steps: Sequence[Assessed], states: Sequence[CarState]) -> list[StepPoint]:
    """All at once; the job's work comes with it, or is read in one query."""
    prefetch_related_objects([job], Prefetch("loop_works", works_told()))
    works = standing_works(job.loop_works.all())
    if not works:
        return []
    return [
        *(found for one in works for found in (*of_work(one), *of_person(one))),
        *of_orders(job, works, steps, states),
        *of_oil(works),
        *of_steps(works, steps),
    ]


def works_told() -> QuerySet[LoopWork]:
    """Work on loops with its state, its author and that one's cards."""
    rows = LoopWork.objects.select_related("entry__author", "state", "supersedes")
    return rows.prefetch_related("entry__author__qualifications")


def point(work: LoopWork, code: str, sentence: str) -> StepPoint:
    """One point about a piece of work, seen on its page."""
    words = f"{work.words}: {sentence}"
    return StepPoint(code, words, None, work.what, PAGES[work.what], f"{work.key} {code}")


def of_work(work: LoopWork) -> Iterator[StepPoint]:
    """What its own entry leaves open."""
    told = work.told
    if work.corrects_nothing:
        yield point(work, "corrects_nothing", REPLACES_NOTHING)
    if told.get("cylinder") == "unnamed":
        named = f" (“{told['cylinder_named']}”)" if told.get("cylinder_named") else ""
        sentence = f"its cylinder is not entered here{named}. Enter it, then correct this."
        yield point(work, "cylinder_unnamed", sentence)
    elif work.what in (*TAKES_OUT, *PUTS_IN) and not told.get("cylinder"):
        yield point(work, "cylinder_untold", "which cylinder is not told. Correct it.")
    if "recovery" in told.get("did", ()):
        yield point(work, "grams_untold", UNTOLD)
    if told.get("leak") in LEAKS:
        yield point(work, "into_leak", LEAKS[told["leak"]])
    for mark in work.entry.marks:
        if mark["code"] in SENTENCES:
            yield point(work, mark["code"], in_words(mark["code"], mark.get("figures", {})))


def of_person(work: LoopWork) -> Iterator[StepPoint]:
    """Who had no card for it that day, by what is entered now."""
    author, day = work.entry.author, timezone.localdate(work.entry.done_at)
    if not holds(author.qualifications.all(), REFRIGERANT, day):
        sentence = (
            f"no {PAPERS[REFRIGERANT]} of {author.name} that was valid on {day_words(day)} is"
            " entered."
        )
        yield point(work, f"not_qualified_{REFRIGERANT}", sentence)


def of_orders(
    job: Job, works: Sequence[LoopWork], steps: Sequence[Assessed], states: Sequence[CarState]
) -> Iterator[StepPoint]:
    """What should have come first, by what was made before each; hoses once, where they went on."""
    system, let = system_of(job.vehicle.system), list(job.overrides.all())
    hoses: set[str] = set()
    for work in works:
        at = work.state.opened_at if work.state else work.entry.done_at
        before = [one for one in steps if one.step.made_at < at]
        then = [state for state in states if state.opened_at < at]
        done = made(before, then, in_force(let, at), at)
        codes = [code for code in OWN_HOSES if code not in hoses and work.what != "oil"]
        did = {*work.told.get("did", ())}
        codes += ["leak_search_first"] if did & {*RECOVERED} else []
        for code in codes:
            if not ORDERS[code].is_kept(done, system):
                hoses |= {code}
                yield point(work, code, ORDERS[code].broken)
        if work.what == "evacuation":
            loop = loop_before(job, work, before, then)
            yield from of_evacuation(work, loop)
        if work.what in PUTS_IN and did & {*FILLS}:
            loop = loop_before(job, work, before, then)
            yield from of_charge(work, loop, did)


def loop_before(
    job: Job, work: LoopWork, before: Sequence[Assessed], then: Sequence[CarState]
) -> LoopState:
    """How the loop was when that began."""
    began = work.state.opened_at if work.state else work.entry.done_at
    changes = [one for one in changes_told(job) if one.state in then]
    told = [one for one in as_told(job) if one.moment < began]
    return loop_state(before, changes, told=told)


def changes_told(job: Job) -> list[Change]:
    """The changes that stand; read once of one job."""
    rows = Change.objects.select_related("entry", "state", "supersedes")
    prefetch_related_objects([job], Prefetch("changes", rows))
    return standing(job.changes.all())


def of_charge(work: LoopWork, loop: LoopState, did: Collection[str]) -> Iterator[StepPoint]:
    """What the loop was not ready for; a machine may have evacuated and oiled it in the same go."""
    if loop.code in OPEN and "evacuated" not in did:
        yield point(work, "closed_first", WAS_OPEN)
    elif loop.was_open and "evacuated" not in did:
        yield point(work, "evacuated_first", NO_VACUUM)
    if loop.oil_out and "oil_in" not in did:
        yield point(work, "oil_first", NO_OIL)


def of_evacuation(work: LoopWork, loop: LoopState) -> Iterator[StepPoint]:
    """Whether the loop was closed first."""
    if loop.code in OPEN:
        yield point(work, "closed_first", PUMPED_OPEN)


def of_oil(works: Sequence[LoopWork]) -> Iterator[StepPoint]:
    """Oil that came out with the refrigerant, told by a recovery and by the oil's page."""
    if any(one.told.get("oil_out") for one in works if one.what in TAKES_OUT):
        for work in works:
            if amount_of(work, "with_refrigerant") and not work.entry.fields.get(WHY_TWICE):
                yield point(work, "oil_twice", TWICE)


def of_steps(works: Iterable[LoopWork], steps: Iterable[Assessed]) -> Iterator[StepPoint]:
    """Tests whose figures differ from what was booked."""
    listed = list(works)
    for one in steps:
        sentence = differs(one, listed) if one.stands else ""
        if sentence:
            number, about = one.step.number, str(one.step.key)
            yield StepPoint("differs_from_booked", sentence, number, about=about)
