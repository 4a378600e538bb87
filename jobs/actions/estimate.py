"""Writing a version of an estimate: numbered as it arrives, beside those before."""

from typing import Any

from django.urls import reverse

from jobs.actions.job import job_of
from jobs.models import Entry, Estimate
from jobs.models.line_words import changed
from jobs.models.priced_head import head_of
from jobs.told import PricedTold


def write_estimate(entry: Entry, told: PricedTold, from_what: dict[str, Any]) -> dict[str, Any]:
    """The next version. It supersedes the one with the number before, whichever that was.

    One that was written on an older version still gets the next number; which it was written on
    stays with it.
    """
    job = job_of(entry)
    kept = {one.key: one for one in job.estimates.all()}
    last = max(kept.values(), key=lambda one: one.number, default=None)
    columns = vars(told)
    row = Estimate.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        head=head_of(job),
        number=last.number + 1 if last else 1,
        plan=from_what["plan"],
        decision=from_what["decision"],
        before=kept.get(from_what["on"]),
        changed=changed(last, told.lines, columns) if last else [],
        **columns,
    )
    if last:
        last.superseded_by = row
        last.save(update_fields=["superseded_by"])
    return {"url": f"{reverse('estimate')}?job={job.key}&version={row.key}", "number": row.number}
