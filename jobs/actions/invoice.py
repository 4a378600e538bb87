"""Writing an invoice: the next number of the year, beside what was agreed and done by then."""

from typing import Any

from django.db.models import Max
from django.urls import reverse
from django.utils import timezone

from jobs.actions.job import job_of
from jobs.logbook import Refused
from jobs.models import Entry, Invoice
from jobs.models.agreed import agreed_now
from jobs.models.done import done_words
from jobs.models.line_words import changed
from jobs.models.priced_head import head_of
from jobs.told import PricedTold

WRITTEN_MEANWHILE = (
    "Invoice {label} was written for this job meanwhile. Open the page again and look: nothing is"
    " billed twice."
)
GONE = "The invoice that this one was to replace was replaced meanwhile. Open the page again."


def write_invoice(entry: Entry, told: PricedTold, said: dict[str, Any]) -> dict[str, Any]:
    """The row. One that takes the place of another supersedes it.

    Raises:
        Refused: an invoice came in between, so that this would bill the same work once more.

    """
    job = job_of(entry)
    counting = job.invoices.filter(superseded_by=None).first()
    if counting and counting.key != said["on"]:
        raise Refused(WRITTEN_MEANWHILE.format(label=counting.label))
    if said["on"] and not counting:
        raise Refused(GONE)
    year = timezone.localtime(entry.arrived_at).year
    last = Invoice.objects.filter(year=year).aggregate(last=Max("number"))["last"] or 0
    agreed = agreed_now(job)
    columns = vars(told)
    row = Invoice.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        head=head_of(job),
        year=year,
        number=last + 1,
        estimate=agreed.estimate,
        agreed=agreed.amount if agreed.currency == told.currency else None,
        agreed_words=agreed.words,
        changed=changed(agreed.estimate, told.lines, columns) if agreed.estimate else [],
        done=list(done_words(job)),
        old_parts=said["old_parts"],
        corrected_why=said["corrected_why"] if counting else "",
        **columns,
    )
    if counting:
        counting.superseded_by = row
        counting.save(update_fields=["superseded_by"])
    return {"url": f"{reverse('invoice')}?job={job.key}&version={row.key}", "label": row.label}
