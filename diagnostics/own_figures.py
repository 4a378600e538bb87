"""The shop's own figure: after clutch parts alone, how often the compressor came due after all.

Counted from closed jobs whose repair was decided here and that are old enough to tell. No outside
figure exists (trade articles name none), so without enough jobs there is none.
"""

from collections.abc import Iterable
from datetime import datetime, timedelta

from django.db.models import Max, Q
from django.utils import timezone

from diagnostics.evidence.options.costing import Figure
from diagnostics.evidence.options.repairs_clutch import PARTS_OF_CLUTCH
from diagnostics.models import Decision
from jobs.models import Change
from jobs.models.closing import REPAIRED

DUE = "compressor"  # the part that comes due
THEN = ("compressor", "compressor_device", "electric_compressor")
MONTH = timedelta(days=365.25 / 12)


def own_figures(months: int) -> list[Figure]:
    """Counted for as long as the customer means to keep the car; 0: not typed, nothing is told."""
    if not months:
        return []
    span = months * MONTH
    old_enough = [
        (plan, car, closed)
        for plan, car, closed in repaired_jobs()
        if closed and closed <= timezone.now() - span
    ]
    due = compressors({car for _, car, _ in old_enough})
    return [
        Figure(after, then, came, of)
        for after in PARTS_OF_CLUTCH
        for came, of in [counted(after, old_enough, due, span)]
        for then in THEN
        if of
    ]


def repaired_jobs() -> Iterable[tuple[str, int, datetime | None]]:
    """Of jobs that ended repaired: what was decided, the car, when it was closed."""
    rows = Decision.objects.filter(
        superseded_by=None, job__stage="closed", job__closing_kind__in=REPAIRED
    )
    closed = Max("job__stage_moves__moved_at", filter=Q(job__stage_moves__to="closed"))
    return rows.annotate(closed=closed).values_list("plan", "job__vehicle_id", "closed")


def compressors(cars: set[int]) -> list[tuple[int, datetime]]:
    """When a compressor was fitted to which of these cars."""
    rows = Change.objects.filter(what="fitted", part=DUE, superseded_by=None)
    fitted = rows.filter(job__vehicle__in=cars) if cars else rows.none()
    return list(fitted.values_list("job__vehicle_id", "entry__done_at"))


def counted(
    after: str,
    jobs: Iterable[tuple[str, int, datetime | None]],
    due: Iterable[tuple[int, datetime]],
    span: timedelta,
) -> tuple[int, int]:
    """After how many of how many such repairs the compressor came due within the time."""
    listed = [(car, at) for plan, car, at in jobs if after in plan.split("+") and at]
    fitted = list(due)
    came = sum(
        any(car == other and at < when <= at + span for other, when in fitted) for car, at in listed
    )
    return came, len(listed)
