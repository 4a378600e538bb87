"""Writing what jobs are found by."""

from collections.abc import Iterable

from jobs.models import FoundBy, Job
from jobs.search import folded_text, of_merged_cars


def refold(jobs: Iterable[Job]) -> None:
    """Write the folded text of jobs whose car or customer is new or changed, with two queries.

    In the caller's transaction. `jobs` come with their car and customer.
    """
    rows = list(jobs)
    merged = of_merged_cars(rows)
    FoundBy.objects.bulk_create(
        [FoundBy(job=job, folded=folded_text(job, merged.get(job.vehicle_id, ()))) for job in rows],
        update_conflicts=True,
        unique_fields=["job"],
        update_fields=["folded"],
    )
