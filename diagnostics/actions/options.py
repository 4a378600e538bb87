"""Writing what was typed of prices, hours and terms."""

from typing import Any

from django.urls import reverse

from diagnostics.models import PricesTyped
from diagnostics.told import PricesTold
from jobs.actions.corrections import in_order, link
from jobs.actions.job import job_of
from jobs.models import Entry


def record_prices(entry: Entry, told: PricesTold) -> dict[str, Any]:
    """Write what is new; a correction takes the place of the earlier one, in any order."""
    job = job_of(entry)
    row = PricesTyped.objects.create(
        key=entry.key, job=job, entry=entry, currency=told.currency, values=dict(told.values)
    )
    link(in_order(list(job.prices_typed.select_related("entry", "superseded_by")), row))
    return {"url": f"{reverse('options')}?job={job.key}"}
