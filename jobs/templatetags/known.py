"""Whether the car of a job was here before, as long as nobody said what that has to do with it."""

from django import template

from jobs.known import Known, known_car
from jobs.models import Job

register = template.Library()


@register.simple_tag
def earlier_visit(job: Job | None) -> Known | None:
    """The newest visit before this one; None: there is none, it was told, or the job is closed."""
    if job is None or job.follows_told or job.stage == "closed":
        return None
    known = known_car(job.vehicle.plate, job.vehicle.vin, job.key)
    return known if known and known.job.pk < job.pk else None
