"""Writing what jobs are found by."""

from collections.abc import Iterable

from jobs.models import FoundBy, Job
from jobs.search import folded_texts


def refold(jobs: Iterable[Job]) -> None:
    """Write the folded text of jobs whose car or customer is new or changed, with two queries.

    In the caller's transaction. `jobs` come with their car and customer.
    """
    FoundBy.objects.bulk_create(
        [FoundBy(job=job, folded=text) for job, text in folded_texts(jobs)],
        update_conflicts=True,
        unique_fields=["job"],
        update_fields=["folded"],
    )
