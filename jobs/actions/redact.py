"""Writing that a customer asked to be forgotten; records go once their years are over."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Any

from django.db import transaction
from django.db.models import Q
from django.urls import reverse

from jobs import forget
from jobs.kept_bytes import place
from jobs.logbook import take_write_lock
from jobs.models import Customer, Entry, Photo, Record
from jobs.models.records import kept_years
from jobs.paper.shelf import ENDING, FOLDER


def redact(entry: Entry, told: dict[str, Any]) -> dict[str, Any]:
    """Take the customer out of rows and entries, and the marked photos off the disk."""
    customer = standing(Customer.objects.get(key=told["customer"]))
    forget.take_out(customer, entry.happened_at, also=[entry])
    entry.refresh_from_db(fields=["fields", "marks"])
    remove(forget.files_of(chosen(customer, told["photos"]), entry.happened_at))
    let_records_go(entry.happened_at)
    return {"url": f"{reverse('history')}?customer={customer.key}", "customer": str(customer.key)}


def standing(customer: Customer) -> Customer:
    """The customer that stands for this one."""
    return customer.merged_into or customer


def chosen(customer: Customer, names: Iterable[str]) -> list[Photo]:
    """The customer's photos among those named."""
    people = forget.family(customer)
    keys = [key for one in people for key in one.jobs.values_list("key", flat=True)]
    rows = Photo.objects.filter(job_key__in=keys).select_related("entry")
    asked = set(names)
    return [one for one in rows if forget.photo_name(one) in asked]


def remove(files: Iterable[tuple[str, str, str]]) -> None:
    """Take files off the disk once the rows are written, those that no other row needs."""
    for folder, digest, ending in files:
        needed = Q(stored_sha256=digest) | Q(sent_sha256=digest, stored_sha256="", why__gt="")
        shown = Q(stored_sha256=digest) | Q(small_sha256=digest)
        if folder == "photos" and Photo.objects.filter(shown).exists():
            continue
        others = Photo.objects.filter(needed).exclude(why__startswith=forget.PHOTO_GONE)
        if folder == "originals" and others.exists():
            continue
        path = place(folder, digest, ending)
        transaction.on_commit(lambda path=path: path.unlink(missing_ok=True))  # type: ignore[misc]


def let_records_go(now: datetime) -> int:
    """Blank the records of those taken out whose years are over; how many. The hashes stay.

    Called with each taking out and at each start of the program.
    """
    until = now - timedelta(days=365.25 * kept_years())
    gone = Record.objects.filter(
        job__customer__redacted_at__isnull=False, let_go_at=None, frozen_at__lt=until
    )
    with transaction.atomic():
        take_write_lock()
        records = list(gone)
        for record in records:
            record.data, record.changed, record.let_go_at = "", "", now
            record.save(update_fields=["data", "changed", "let_go_at"])
        for digest in {one.pdf_sha256 for one in records}:
            if not Record.objects.filter(pdf_sha256=digest, let_go_at=None).exists():
                path = place(FOLDER, digest, ENDING)
                transaction.on_commit(lambda path=path: path.unlink(missing_ok=True))  # type: ignore[misc]
    return len(records)
