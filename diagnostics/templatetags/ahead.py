"""What the board shows of diagnostics: the next step of each job, and how its loop is."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django import template
from django.core.cache import cache
from django.db.models import OuterRef, Prefetch, Subquery, prefetch_related_objects

from diagnostics.as_it_stood import as_it_stood
from diagnostics.assess import Assessed, assess_all, overrides_of, system_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.concluded import Concluded
from diagnostics.evidence.kind import Kind
from diagnostics.loop_as_told import as_told, notes_told, waits_told
from diagnostics.loop_state import OPEN, LoopState, loop_state
from diagnostics.models import Step
from diagnostics.next_step import Next, next_of
from diagnostics.overridden import with_end
from diagnostics.points import MUST_NOT_RUN, Gate, gates, must_not_run
from diagnostics.shop_told import ShopTold, shop_told
from diagnostics.templatetags.steps import kept_page
from diagnostics.weighing import Around, weighed
from jobs.models import Change, Entry, Job
from jobs.models.changes import standing

register = template.Library()
KEPT = 3600  # seconds; what is told anew has another name


@dataclass(frozen=True)
class Ahead:
    """One job's next step and its loop in words. `danger` is empty where nothing follows."""

    kind: str
    title: str
    next: str
    loop: str
    danger: str

    @property
    def said(self) -> str:
        """The next step as one, not as what was found: Next: gas identified, 5 minutes."""
        return as_next(self.next) if self.kind else self.next


@dataclass(frozen=True)
class Looked:
    """The same with all that it was told from."""

    ahead: Ahead
    step: Next
    found: Concluded
    around: Around
    loop: LoopState


def as_next(words: str) -> str:
    """A test as what comes next."""
    return f"Next: {words[:1].lower()}{words[1:]}"


@register.simple_tag
def look_ahead(jobs: Sequence[Job]) -> dict[int, Ahead]:
    """By the job's id, at a fixed number of queries; the jobs come with car and system.

    What was worked out is given again until something new is told of the job, or of none.
    """
    names = {
        job.pk: f"ahead.{job.key}.{last}" for job, last in zip(jobs, told_of(jobs), strict=True)
    }
    kept: dict[str, Ahead] = cache.get_many(names.values())
    new = [job for job in jobs if names[job.pk] not in kept]
    found = {names[pk]: ahead for pk, ahead in worked_out(new).items()} if new else {}
    cache.set_many(found, KEPT)
    return {pk: (kept | found)[name] for pk, name in names.items()}


def told_of(jobs: Sequence[Job]) -> list[str]:
    """For each job the numbers of the last entry of it and of the last one of no job."""
    newest = Entry.objects.order_by("-pk").values("pk")
    rows = Job.objects.filter(pk__in=[job.pk for job in jobs]).values_list(
        "pk", Subquery(newest.filter(job_key=OuterRef("key"))[:1])
    )
    last, of_none = dict(rows), newest.filter(job_key=None).first()
    return [f"{last.get(job.pk)}.{of_none and of_none['pk']}" for job in jobs]


def worked_out(jobs: Sequence[Job]) -> dict[int, Ahead]:
    """The same from the steps and changes of the jobs."""
    with_others = Step.objects.select_related("entry", "superseded_by", "supersedes")
    steps = as_it_stood(with_others.order_by("number"))
    changes = Change.objects.select_related("entry", "state", "supersedes")
    let = Prefetch("overrides", with_end())
    around = ("car_states", Prefetch("changes", changes), Prefetch("steps", steps), let)
    told = Prefetch("waitings", waits_told()), Prefetch("handovers", notes_told())
    prefetch_related_objects(list(jobs), *around, *told)
    shop = shop_told()
    return {job.pk: looked(job, read(job, shop)).ahead for job in jobs}


@register.simple_tag
def next_kept() -> dict[str, Any]:
    """What the board that a tablet keeps needs to say what is next on each car."""
    return {
        "all": [
            kept_page(kind) | {"words": as_next(test_in_a_line(kind))} for kind in KINDS.values()
        ],
    }


def test_in_a_line(kind: Kind) -> str:
    """A test as a row of the board says it."""
    return f"{kind.title}, {kind.minutes} minute{'s' if kind.minutes != 1 else ''}"


@register.filter
def of(found: Mapping[int, Ahead], job: Job) -> Ahead:
    """One job's."""
    return found[job.pk]


def read(job: Job, shop: ShopTold) -> list[Assessed]:
    """The steps of a job that came with them."""
    states, let = job.car_states.all(), job.overrides.all()
    return assess_all(job.steps.all(), system_of(job.vehicle.system), states, let, shop)


def looked(job: Job, made: list[Assessed]) -> Looked:
    """What comes next and how the loop is, by the steps and changes that came with the job."""
    system, states = system_of(job.vehicle.system), list(job.car_states.all())
    changes, let = standing(job.changes.all()), overrides_of(job)
    loop = loop_state(made, changes, told=as_told(job))
    shut = gates(system, made, states, loop)
    around = Around(system, job.failing_now, made, states, changes, loop, shut, let)
    found = weighed(around)
    step = next_of(found, around)
    name, title = (step.best.kind.name, step.best.kind.title) if step.best else ("", "")
    danger = " ".join(dangers(loop, shut))
    return Looked(Ahead(name, title, step.words, loop.words, danger), step, found, around, loop)


def dangers(loop: LoopState, shut: list[Gate]) -> Iterator[str]:
    """What everybody near the car has to know, by the gates that are shut.

    An override lets a test be made; it takes no danger away, so none opens a gate here.
    """
    if any(gate.code == "dead_first" for gate in shut):
        yield "High voltage not proven dead."
    if loop.code in OPEN:
        yield "Loop open, as far as is noted."
    if must_not_run(shut):
        yield f"{MUST_NOT_RUN}."
    elif loop.run:
        yield f"{loop.run.partition(':')[0]}."
