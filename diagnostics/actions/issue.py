"""Freezing an issue: data, file and both their hashes, together or not at all."""

from typing import Any

from django.urls import reverse

from diagnostics.record.build import Heading, record_data
from diagnostics.record.issues import data_of, entries_of, last_issue, next_number
from diagnostics.record.words import several, when
from diagnostics.told import Asked
from jobs.actions.job import job_of
from jobs.logbook import Refused
from jobs.models import Entry, Job, Record
from jobs.paper.fonts import FontMissing
from jobs.paper.frozen import SCHEMA, exact_text, sha256
from jobs.paper.shelf import put_away
from jobs.paper.typeset import CannotTypeset, typeset


def freeze(entry: Entry, asked: Asked) -> dict[str, Any]:
    """Freeze the next issue of the entry's job.

    Raises:
        Refused: somebody froze this issue first, something was entered since the page was opened,
            or the file cannot be made. Nothing is frozen then.

    """
    job = job_of(entry)
    last = last_issue(job)
    refuse_what_was_not_seen(job, last, entry, asked)
    heading = Heading(asked.issue, entry.author, entry.arrived_at, asked.changed, asked.address)
    data = record_data(job, heading, data_of(last))
    frozen = exact_text(data)
    try:
        pdf = typeset(frozen).pdf
    except (CannotTypeset, FontMissing) as trouble:
        raise Refused(f"{trouble} Nothing was frozen.") from trouble
    Record.objects.create(
        job=job,
        issue=asked.issue,
        entry=entry,
        schema=SCHEMA,
        data=frozen,
        data_sha256=sha256(frozen),
        pdf_sha256=put_away(pdf),
        pdf_bytes=len(pdf),
        changed=data["record"]["changed"],
        issued_by=entry.author,
        frozen_at=entry.arrived_at,
    )
    return {"url": f"{reverse('record')}?job={job.key}&issue={asked.issue}", "issue": asked.issue}


def refuse_what_was_not_seen(job: Job, last: Record | None, entry: Entry, asked: Asked) -> None:
    """An issue rests on what its issuer saw.

    Raises:
        Refused: another issue or other entries came in between.

    """
    if asked.issue != next_number(last):
        raise Refused(
            f"Issue {last.issue} was frozen {when(last.frozen_at)} by {last.issued_by.name}."
            " Open the page again to freeze the one after it."
            if last
            else "No issue of this record was frozen yet. Open the page again to freeze issue 1."
        )
    new = entries_of(job).exclude(pk=entry.pk).count() - asked.entries
    if new:
        raise Refused(
            f"Since this page was opened {several(new, 'entry', 'entries')} came in for this job."
            " Open the page again and look at what is new before you freeze it."
        )
