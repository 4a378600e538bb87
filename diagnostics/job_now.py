"""A job as it stands now, read once: what its stages, its closing and its points are told from."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from diagnostics.assess import Assessed, overrides_of, steps_of, system_of
from diagnostics.covered import not_covered
from diagnostics.decided import NO_DECISION, lacks_decision, other_than_estimated
from diagnostics.loop_as_told import as_told
from diagnostics.loop_state import LoopState, loop_state
from diagnostics.models import Override, Waiver
from diagnostics.points import Gate, StepPoint, gates, repair_points, step_points
from diagnostics.repaired import work_of
from diagnostics.still_around import still_around
from diagnostics.waived import Waived, parted, waivers_of
from diagnostics.weighing import Around
from diagnostics.work_points import work_points
from jobs.models import CarState, Change, Entry, Job, StageMove
from jobs.models.changes import changes_of, standing
from jobs.models.cylinder_points import OF_NOW, points_of_job
from jobs.models.jobs import states_of
from jobs.models.marks import marks_in_words
from jobs.models.points import (
    PAGES,
    OpenPoint,
    in_page_order,
    of_conflicts,
    of_discards,
    open_points,
)
from jobs.models.stages import closed_by
from jobs.models.wordings import in_shop_time

WHERE = {  # the page where a late fact is looked at
    "step": ("steps", "Test steps"),
    **dict.fromkeys(("change", "loop_parts"), ("repair", PAGES["repair"])),
    "taken_out": ("taken_out", "Old parts taken out"),
    "decision": ("decision", "Decision"),
    "verified": ("verification", "Verification"),
    **{page: (page, words) for page, words in PAGES.items()},
    "named": ("consent", PAGES["consent"]),
}
# The facts of a car that are looked at where they arrive after its job was closed.
WHAT = {
    "step": "A test",
    "change": "A change on the car",
    "loop_parts": "What was seen of the loop’s parts",
    "taken_out": "Where an old part went",
    "decision": "A decision",
    "recovery": "A recovery",
    "charge": "A charge",
    "machine_cycle": "A machine’s cycle",
    "customer": "What was told of the customer",
    "consent": "A consent",
    "named": "Who may say yes",
    "old_part": "What becomes of the old parts",
    "vehicle": "What was told of the car",
    "system": "What was told of the air conditioning",
    "failing_now": "Whether it fails",
    "intake": "A corrected intake",
    "verified": "A look at caps and service label",
}
Points = list[OpenPoint | StepPoint]


@dataclass(frozen=True)
class JobNow:
    """`points` are all that are open, waived ones among them; `changes` those that stand.

    `shut` are the gates that are shut, those among them that an owner overrode.
    """

    job: Job
    states: list[CarState]
    steps: list[Assessed]
    changes: list[Change]
    overrides: list[Override]
    waivers: list[Waiver]
    loop: LoopState
    shut: list[Gate]
    points: Points

    @property
    def around(self) -> Around:
        """The same as its tests are weighed."""
        system = system_of(self.job.vehicle.system)
        told = (self.steps, self.states, self.changes, self.loop, self.shut, self.overrides)
        return Around(system, self.job.failing_now, *told)

    @property
    def parted(self) -> tuple[Points, list[Waived]]:
        """The points that are open, and those that were waived."""
        return parted(self.points, self.waivers)


def job_now(job: Job) -> JobNow:
    """Read it all, at a fixed number of queries. `job` comes with customer, car and system."""
    states = states_of(job)
    overrides = overrides_of(job)
    steps = steps_of(job, states, overrides)
    told = list(changes_of(job))
    consents = list(job.consents.select_related("superseded_by", "withdrawn_by"))
    marked = Entry.objects.filter(job_key=job.key).exclude(marks=[]).order_by("id")
    entries = list(marked.select_related("author"))
    of_job = [
        *open_points(job, consents, told),
        *of_conflicts(entries, marks_in_words(entries)),
        *of_discards(entries),
    ]
    changes = standing(told)
    loop = loop_state(steps, changes, told=as_told(job))
    points = all_points(in_page_order(of_job), steps, states, job)
    points += still_around(job, loop)
    points = [*(one for one in points if one.code not in OF_NOW), *of_cylinders(job)]
    return JobNow(
        job,
        states,
        steps,
        changes,
        overrides,
        waivers_of(job),
        loop,
        gates(system_of(job.vehicle.system), steps, states, loop, work=work_of(job)),
        points,
    )


def all_points(
    of_job: Iterable[OpenPoint], steps: Sequence[Assessed], states: Iterable[CarState], job: Job
) -> Points:
    """All that is open, waived or not: of job, repair, steps, work on the loop, what came late."""
    begun = list(states)
    of_repair = repair_points(work_of(job), job, steps)
    of_tests = [*step_points(steps, begun), *work_points(job, steps, begun)]
    decided = [*undecided(job), *beyond_estimate(job)]
    return [*of_job, *of_repair, *of_tests, *decided, *after_closed(job)]


def of_cylinders(job: Job) -> list[StepPoint]:
    """What the book says now of the cylinders that its refrigerant went through."""
    return [
        StepPoint(one.code, one.sentence, None, "cylinders", "Cylinders", one.about)
        for one in points_of_job(job)
    ]


def undecided(job: Job) -> list[StepPoint]:
    """Repair began and nobody noted what was decided, or the estimate is of another decision."""
    found = []
    if lacks_decision(job):
        found.append(StepPoint("no_decision", NO_DECISION, None, "decision", "Decision"))
    other = other_than_estimated(job)
    if other:
        found.append(StepPoint("other_decision", other, None, "estimate", PAGES["estimate"]))
    return found


def beyond_estimate(job: Job) -> list[StepPoint]:
    """A part was fitted that the estimate agreed to has no line for."""
    return [
        StepPoint("not_covered", sentence, None, "consent", PAGES["consent"], key)
        for sentence, key in not_covered(job)
    ]


def after_closed(job: Job) -> list[StepPoint]:
    """What came in after a job was closed: booked as any fact, and to be looked at."""
    move = closed_by(job)
    return list(points_of_late(late_entries(job, move), move)) if move else []


def late_entries(job: Job, move: StageMove) -> list[Entry]:
    """The facts that arrived after the entry that closed the job."""
    later = Entry.objects.filter(job_key=job.key, pk__gt=move.entry_id)
    return list(later.filter(kind__in=WHAT).order_by("id"))


def points_of_late(entries: Iterable[Entry], move: StageMove) -> Iterable[StepPoint]:
    """One point for each of them."""
    for entry in entries:
        page, page_words = WHERE.get(entry.kind, ("job", "Job"))
        what = WHAT[entry.kind]
        yield StepPoint(
            "after_closed",
            f"{what} of {in_shop_time(entry.happened_at)} arrived after the job was closed,"
            f" {in_shop_time(move.moved_at)}. Look at it; a paper issued before does not have it.",
            None,
            page,
            page_words,
            str(entry.key),
        )
