"""What several jobs found and changed, each in a line, in a fixed number of queries."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django import template
from django.db.models import Prefetch, prefetch_related_objects

from diagnostics.as_it_stood import as_it_stood
from diagnostics.assess import Assessed, assess_all, system_of
from diagnostics.models import Step
from diagnostics.shop_told import ShopTold, shop_told
from jobs.models import Change, Job
from jobs.models.changes import NOTHING, standing

register = template.Library()
SAID_MAX = 3  # of each; the job's page has them all


@dataclass(frozen=True)
class Past:
    """One job, what its tests found beside what is normal, and what was changed."""

    job: Job
    found: str
    changed: str


@register.simple_tag
def found_and_changed(jobs: Sequence[Job]) -> list[Past]:
    """The jobs with what was found and changed; they come with car, system and car states."""
    steps = as_it_stood(Step.objects.select_related("entry", "superseded_by").order_by("number"))
    changes = Change.objects.select_related("entry").order_by("id")
    prefetch_related_objects(
        list(jobs), "car_states", Prefetch("steps", steps), Prefetch("changes", changes)
    )
    shop = shop_told()
    return [Past(job, found(assessed(job, shop)), changed(job.changes.all())) for job in jobs]


def assessed(job: Job, shop: ShopTold) -> list[Assessed]:
    """The steps of a job, read before."""
    system = system_of(job.vehicle.system)
    return assess_all(job.steps.all(), system, job.car_states.all(), (), shop)


def found(made: Iterable[Assessed]) -> str:
    """What is not as it should be, by the tests that stand, the last first."""
    told = []
    for one in made:
        words = outcome_words(one)
        if words:
            told.append(f"{one.title}: {words}")
    return in_a_line(told)


def outcome_words(one: Assessed) -> str:
    """How a test came out, in a few words; empty: as it should, or it tells nothing."""
    if not (one.stands and one.meaning and one.meaning.outcome.carries):
        return ""
    return one.came_out.words if one.came_out and not one.came_out.normal else ""


def changed(changes: Iterable[Change]) -> str:
    """What was changed on the car and stands."""
    return in_a_line([one.words for one in standing(changes) if one.what != NOTHING])


def in_a_line(told: list[str]) -> str:
    """The last few, the last one first, and how many more there are."""
    words = "; ".join(told[: -SAID_MAX - 1 : -1])
    more = len(told) - SAID_MAX
    return f"{words}; {more} more" if more > 0 else words
