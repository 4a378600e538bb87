"""Which of an owner's overrides still bear: each ends when its job is closed."""

from collections.abc import Iterable
from datetime import datetime

from django.db.models import OuterRef, QuerySet, Subquery

from diagnostics.models import Override
from jobs.models import StageMove


def with_end() -> QuerySet[Override]:
    """The overrides with their givers, and when the job of each was closed since."""
    closed = StageMove.objects.filter(
        job=OuterRef("job"), to="closed", moved_at__gte=OuterRef("given_at")
    )
    ends = Subquery(closed.order_by("moved_at").values("moved_at")[:1])
    return Override.objects.select_related("entry__author").annotate(job_closed_at=ends)


def in_force(overrides: Iterable[Override], at: datetime | None = None) -> list[Override]:
    """Those that bear now, or bore at a moment: a job that is opened again carries none."""
    return [
        one
        for one in overrides
        if (one.ended_at is None if at is None else bore(one.given_at, one.ended_at, at))
    ]


def bore(given_at: datetime, ended_at: datetime | None, at: datetime) -> bool:
    """Whether the moment lies between."""
    return given_at <= at and (ended_at is None or at < ended_at)
