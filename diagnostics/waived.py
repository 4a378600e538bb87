"""Which open points an owner waived: a point stays waived only as long as it is the same one."""

from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256
from typing import Protocol, TypeVar

from django.db.models import Prefetch, prefetch_related_objects

from diagnostics.models import Waiver
from jobs.models import Job

ABOUT_LENGTH = 200  # of the column


class Pointed(Protocol):
    """An open point of the job or of its steps."""

    @property
    def code(self) -> str:
        """What it is."""

    @property
    def sentence(self) -> str:
        """What it says."""


Point = TypeVar("Point", bound=Pointed)


@dataclass(frozen=True)
class Waived:
    """An open point, and what waived it. It stays open in fact, and stays to be seen."""

    point: Pointed
    waiver: Waiver


def identity(point: Pointed) -> tuple[str, str]:
    """What tells a point from any other: its code and what it is about, else what it says.

    Another step, change, discard or value is another point.
    """
    about = getattr(point, "about", "")
    if not about or len(about) > ABOUT_LENGTH:
        about = sha256((about or point.sentence).encode()).hexdigest()
    return point.code, about


def waivers_of(job: Job) -> list[Waiver]:
    """All that was waived in a job, oldest first; read once of one job."""
    with_author = Waiver.objects.select_related("entry__author")
    prefetch_related_objects([job], Prefetch("waivers", with_author))
    return list(job.waivers.all())


def parted(points: Iterable[Point], waivers: Iterable[Waiver]) -> tuple[list[Point], list[Waived]]:
    """The points that are open, and those that were waived with what waived them last."""
    last = {(one.code, one.about): one for one in waivers}
    still, waived = [], []
    for point in points:
        waiver = last.get(identity(point))
        if waiver:
            waived.append(Waived(point, waiver))
        else:
            still.append(point)
    return still, waived
