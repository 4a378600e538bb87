"""Freezing an issue: data, file and both their hashes, together or not at all.

The paper of a long job takes seconds to set. It is set before the write lock is taken, so that
nobody waits for it, and is stored only if nothing came in since its data were read.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.urls import reverse
from django.utils import timezone

from diagnostics.record.build import Heading, record_data
from diagnostics.record.issues import data_before, entries_of, last_issue, next_number
from diagnostics.record.qualified import why_not
from diagnostics.record.words import several
from diagnostics.told import Asked
from jobs.actions.job import job_with
from jobs.logbook import Meanwhile, Refused, Told
from jobs.models import Entry, Job, Record
from jobs.models.jobs import last_told
from jobs.models.wordings import in_shop_time
from jobs.paper.fonts import FontMissing
from jobs.paper.frozen import SCHEMA, exact_text, sha256
from jobs.paper.shelf import put_away
from jobs.paper.typeset import CannotTypeset, typeset


@dataclass(frozen=True)
class SetPaper:
    """A paper that was set and is not stored yet.

    `moment` is when its data were read, `last` the number of the last entry they rest on.
    """

    job: Job
    moment: datetime
    last: int | None
    frozen: str
    changed: str
    pdf: bytes


def set_paper(said: Told | Entry, asked: Asked) -> SetPaper:
    """Read the job and set the paper of its next issue, as `said` asks for it.

    The last entry is read first: what comes in while the rest is read shows by its higher number.

    Raises:
        Refused: somebody froze this issue first, something was entered since the page was opened,
            its issuer lacks what the job's tests needed, or the file cannot be made.

    """
    job, moment = job_with(said.job_key), timezone.now()
    seen = last_told(job, said.key)
    last = last_issue(job)
    refuse_what_was_not_seen(job, last, said, asked)
    unqualified = why_not(job, said.author)
    if unqualified:
        raise Refused(unqualified)
    heading = Heading(asked.issue, said.author, moment, asked.changed, asked.address)
    data = record_data(job, heading, data_before(last))
    frozen = exact_text(data)
    try:
        pdf = typeset(frozen).pdf
    except (CannotTypeset, FontMissing) as trouble:
        raise Refused(f"{trouble} Nothing was issued.") from trouble
    return SetPaper(job, moment, seen, frozen, data["record"]["changed"], pdf)


def freeze(entry: Entry, asked: Asked, paper: SetPaper) -> dict[str, Any]:
    """Store a paper as the next issue of the entry's job, inside the write lock.

    Raises:
        Meanwhile: something was entered since the paper's data were read. Nothing is frozen then.

    """
    if last_told(paper.job, entry.key) != paper.last:
        raise Meanwhile
    record = Record.objects.create(
        job=paper.job,
        issue=asked.issue,
        entry=entry,
        schema=SCHEMA,
        data=paper.frozen,
        data_sha256=sha256(paper.frozen),
        pdf_sha256=put_away(paper.pdf),
        pdf_bytes=len(paper.pdf),
        changed=paper.changed,
        issued_by=entry.author,
        frozen_at=paper.moment,
    )
    return {
        "url": f"{reverse('record')}?job={paper.job.key}&issue={asked.issue}",
        "issue": asked.issue,
        "data_sha256": record.data_sha256,
        "pdf_sha256": record.pdf_sha256,
    }


def refuse_what_was_not_seen(
    job: Job, last: Record | None, said: Told | Entry, asked: Asked
) -> None:
    """An issue rests on what its issuer saw, up to the moment the button was pressed.

    What arrives later, while the paper is being set, is in it.

    Raises:
        Refused: another issue or other entries came in between.

    """
    if asked.issue != next_number(last):
        raise Refused(
            f"Issue {last.issue} was made {in_shop_time(last.frozen_at)}"
            f" by {last.issued_by.name}."
            " Open the page again for the one after it."
            if last
            else "This record was not issued yet. Open the page again for issue 1."
        )
    arrived = entries_of(job).filter(arrived_at__lte=said.typed_at).exclude(key=said.key)
    new = arrived.count() - asked.entries
    if new > 0:  # below: the server's clock was set back since those came
        raise Refused(
            f"Since this page was opened {several(new, 'entry', 'entries')} came in for this job."
            " Open the page again and look at what is new before you issue it."
        )
