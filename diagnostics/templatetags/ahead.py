"""What the board shows of diagnostics: the next step of each job, and how its loop is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django import template
from django.core.cache import cache
from django.db.models import OuterRef, Prefetch, Subquery, prefetch_related_objects

from diagnostics.as_it_stood import as_it_stood
from diagnostics.assess import Assessed, assess_all, overrides_of, system_of, touched_since
from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.orders import PROVEN_DEAD
from diagnostics.loop_state import OPEN, loop_state
from diagnostics.models import Override, Step
from diagnostics.shop_told import ShopTold, shop_told
from diagnostics.templatetags.steps import next_kind
from jobs.models import Change, Entry, Job
from jobs.models.changes import standing
from jobs.models.said import in_a_line

register = template.Library()
KEPT = 3600  # seconds; what is told anew has another name
NONE_LEFT = "No test is left to make, or each waits for another"


@dataclass(frozen=True)
class Ahead:
    """One job's next step and its loop in words. `danger` is empty where nothing follows."""

    kind: str
    title: str
    next: str
    loop: str
    danger: str


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
    let = Prefetch("overrides", Override.objects.select_related("entry__author"))
    around = ("car_states", Prefetch("changes", changes), Prefetch("steps", steps), let)
    prefetch_related_objects(list(jobs), *around)
    shop = shop_told()
    return {job.pk: ahead_of(job, read(job, shop)) for job in jobs}


@register.filter
def of(found: Mapping[int, Ahead], job: Job) -> Ahead:
    """One job's."""
    return found[job.pk]


def read(job: Job, shop: ShopTold) -> list[Assessed]:
    """The steps of a job that came with them."""
    states, let = job.car_states.all(), job.overrides.all()
    return assess_all(job.steps.all(), system_of(job.vehicle.system), states, let, shop)


def ahead_of(job: Job, made: list[Assessed]) -> Ahead:
    """What comes next and how the loop is, by the steps and changes that came with the job."""
    loop = loop_state(made, standing(job.changes.all()))
    states, let = list(job.car_states.all()), overrides_of(job)
    kind = next_kind(system_of(job.vehicle.system), made, states, let, loop)
    words = f"Next: {in_a_line(kind.title)}, {kind.minutes} minutes" if kind else NONE_LEFT
    dangers = ["Loop open, as far as is noted."] if loop.code in OPEN else []
    if job.vehicle.system.drive in WITH_HIGH_VOLTAGE and not proven_dead(job, made):
        dangers.insert(0, "High voltage not proven dead.")
    if loop.run:
        dangers.append(f"{loop.run.partition(':')[0]}.")
    name, title = (kind.name, kind.title) if kind else ("", "")
    return Ahead(name, title, words, loop.words, " ".join(dangers))


def proven_dead(job: Job, made: list[Assessed]) -> bool:
    """Whether the last test of it says so, and the car was not changed in that since."""
    tests = [one for one in made if one.stands and one.meaning and one.step.kind == "hv_isolation"]
    last = max(tests, key=lambda one: one.step.made_at, default=None)
    if last is None or last.meaning is None or touched_since(last, job.car_states.all()):
        return False
    return last.meaning.outcome.code in PROVEN_DEAD
