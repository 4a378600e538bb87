"""Who may issue a record: an owner, or a technician qualified for what the job's tests needed."""

from collections.abc import Iterable
from datetime import date

from django.utils import timezone

from diagnostics.assess import Assessed, steps_of
from diagnostics.evidence.read_with import NEEDS, REFRIGERANT
from jobs.models import Job, Person
from jobs.models.loop_works import standing_works
from jobs.models.people import BAY, OWNER
from jobs.models.qualifications import PAPERS, holds


def needed_by(made: Iterable[Assessed]) -> list[str]:
    """The qualifications that the tests that stand needed, each once."""
    told = (NEEDS.get(one.step.kind, "") for one in made if one.stands)
    return list(dict.fromkeys(one for one in told if one))


def needed_in(job: Job) -> list[str]:
    """The qualifications that what was done in a job needed: its tests, and work on its loop."""
    works = [REFRIGERANT] if standing_works(job.loop_works.all()) else []
    return list(dict.fromkeys([*needed_by(steps_of(job)), *works]))


def may_issue(person: Person, needed: Iterable[str], day: date) -> bool:
    """Whether somebody may issue that day; cards are read for a technician only."""
    if person.role == OWNER:
        return True
    cards = list(person.qualifications.all())
    return all(holds(cards, kind, day) for kind in needed)


def why_not(job: Job, person: Person) -> str:
    """Why somebody may not issue the record of a job, and who may; empty: they may.

    Reads more than one query only where something is needed that a technician does not hold.
    """
    needed = [] if person.role == OWNER else needed_in(job)
    today = timezone.localdate()
    if not needed or may_issue(person, needed, today):
        return ""
    papers = " and a ".join(PAPERS[kind] for kind in needed)
    people = Person.objects.filter(is_active=True, role__in=BAY)
    can = [
        one.name
        for one in people.prefetch_related("qualifications").order_by("name")
        if may_issue(one, needed, today)
    ]
    who = f"These can: {', '.join(can)}." if can else "The owner can."
    return (
        f"What was done in this job needs a {papers}, valid today, of the technician who issues its"
        f" record; none of {person.name} is entered. {who}"
    )
