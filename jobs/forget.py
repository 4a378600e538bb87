"""Taking a customer out who asks to be forgotten: name, phone and address, wherever they stand.

Rows stay, and so do keys, fingerprints, results and grams; what is blanked is text. An answer of a
form that asks for a name is emptied whole. In any other text of the customer's jobs (what was said,
seen, noted) the name, the phone and the address are replaced where they were typed, with every
table that points to a job or an entry walked, whichever room it belongs to. It can be done again at
any time and finds what came since: so an entry that a tablet brings later is blanked as it arrives.

An issued record is not touched here: a paper that was handed over is kept as proof until the
shop's years are over (let_go).
"""

import re
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any

from django.apps import apps
from django.db import models
from django.db.models import Q

from jobs.models import (
    Consent,
    Customer,
    Entry,
    Estimate,
    FoundBy,
    Invoice,
    Job,
    Named,
    Photo,
    Record,
    Reused,
    Vehicle,
)
from jobs.models.customers import NO_NAME, name_gone
from jobs.models.priced_head import without_customer
from jobs.models.said import PERSONAL
from jobs.search import folded_texts
from jobs.told import WAS

ANSWERS = (
    *("customer_name", "phone", "address", "consent_by", "number_called", "signature"),
    *("signed_name", "named_name", "named_phone"),
)
PERSONAL_ANSWERS = frozenset([*ANSWERS, *(WAS + name for name in ANSWERS)])
# As which a discard says what was thrown away.
PERSONAL_KINDS = ("intake", "customer", "consent", "named")
HERE = "(taken out)"
OWN_WAY = (Customer, Consent, Named, Entry, Reused, Record, FoundBy, Vehicle, Job)
TEXTS = (models.CharField, models.TextField, models.JSONField)
GONE = NO_NAME.partition("{")[0]
PHOTO_GONE = "Taken out on request"
PHONE_DIGITS = 6  # fewer say nothing about whose phone it is


def arrived(entry: Entry | Reused) -> None:
    """Blank what has just come for a job whose customer was taken out; mostly there is none."""
    if entry.job_key is None:
        return
    told = Customer.objects.filter(jobs__key=entry.job_key, redacted_at__isnull=False)
    for customer in told:
        take_out(customer, customer.redacted_at or entry.arrived_at)


def take_out(customer: Customer, at: datetime, also: Iterable[Entry] = ()) -> None:
    """Blank a customer and those merged into them, in rows and entries; `also`: other entries."""
    people = family(customer)
    jobs = list(Job.objects.filter(customer__in=people).select_related("customer", "vehicle"))
    keys = {job.key for job in jobs}
    told: list[Entry | Reused] = [
        *Entry.objects.filter(Q(job_key__in=keys) | Q(kind="discard")),
        *Reused.objects.filter(Q(job_key__in=keys) | Q(kind="discard")),
        *also,
    ]
    own = [one for one in told if one.job_key in keys]
    consents = list(Consent.objects.filter(job__in=jobs))
    named = list(Named.objects.filter(job__in=jobs))
    out = Texts([*texts_of(people, own), *told_with(consents, named)])
    for one in told:
        blank_entry(one, out, own=one.job_key in keys)
    blank_agreed(consents, named, out, at)
    for person in people:
        person.name, person.phone, person.address = name_gone(at), "", ""
        person.redacted_at = person.redacted_at or at
        person.save()
    for record in Record.objects.filter(job__in=jobs):
        Record.objects.filter(pk=record.pk).update(changed=out.out_of(record.changed))
    blank_rows(jobs, out)
    blank_heads(jobs, at)
    fold(jobs, people)


def told_with(consents: Iterable[Consent], named: Iterable[Named]) -> Iterator[str]:
    """The names and numbers that stand with what was agreed."""
    for consent in consents:
        yield from (consent.given_by, consent.signed_name, consent.number_called)
    for one in named:
        yield from (one.name, one.phone)


def blank_agreed(consents: list[Consent], named: list[Named], out: "Texts", at: datetime) -> None:
    """Who agreed, by which number, with which hand; what was agreed and its hash stay.

    The text that was shown has no name of itself; one that was typed into the work is taken out,
    and the hash is still that of the text as it was shown.
    """
    for consent in consents:
        consent.given_by = name_gone(at)
        consent.number_called, consent.signed_name, consent.strokes = "", "", []
        consent.work, consent.text = out.out_of(consent.work), out.out_of(consent.text)
    columns = ["given_by", "number_called", "signed_name", "strokes", "work", "text"]
    Consent.objects.bulk_update(consents, columns)
    for one in named:
        one.name, one.phone = name_gone(at), ""
    Named.objects.bulk_update(named, ["name", "phone"])


def blank_heads(jobs: list[Job], at: datetime) -> None:
    """Whom the estimates and invoices of these jobs were written to."""
    for model in (Estimate, Invoice):
        for one in model.objects.filter(job__in=jobs):
            one.head = without_customer(one.head, at)
            one.save(update_fields=["head"])


def family(customer: Customer) -> list[Customer]:
    """A customer with those who were merged into them, and into those."""
    found, new = [customer], [customer]
    while new:
        new = list(Customer.objects.filter(merged_into__in=new))
        found += new
    return found


def texts_of(people: Iterable[Customer], own: Iterable[Entry | Reused]) -> Iterator[str]:
    """Every name, phone and address that was ever told of these people."""
    for person in people:
        yield from (person.name, person.phone, person.address)
    for entry in own:
        for name in PERSONAL_ANSWERS & {*entry.fields}:
            yield from entry.fields[name]
        for mark in entry.marks:
            for told in (mark.get("stood"), mark.get("told")):
                if isinstance(told, dict):
                    yield from (str(told.get(name) or "") for name in PERSONAL)


class Texts:
    """What is to be taken out of other texts: names, phones and lines of addresses, as typed."""

    def __init__(self, told: Iterable[str]) -> None:
        lines = {line.strip() for text in told for line in text.splitlines()}
        lines = {line for line in lines if line and not line.startswith(GONE)}
        self.patterns = [pattern(line) for line in sorted(lines, key=len, reverse=True)]

    def out_of(self, text: str) -> str:
        """A text without them. One word alone may be a code, and is left as it is."""
        for words, found in self.patterns:
            if words > 1 or re.search(r"\s", text):
                text = found.sub(HERE, text)
        return text

    def out_of_all(self, told: Any) -> Any:
        """The same for all texts in what JSON holds."""
        if isinstance(told, str):
            return self.out_of(told)
        if isinstance(told, list):
            return [self.out_of_all(one) for one in told]
        if isinstance(told, dict):
            return {name: self.out_of_all(one) for name, one in told.items()}
        return told


def pattern(line: str) -> tuple[int, re.Pattern[str]]:
    """How many words it has, and by what it is found: whole words, any blanks between them.

    A phone is found by its digits, however they are parted.
    """
    digits = re.sub(r"\D", "", line)
    if len(digits) >= PHONE_DIGITS and not re.search(r"[^\W\d_]", line):
        parted = r"[^\w\n]{0,3}".join(digits)
        return 2, re.compile(rf"(?<!\d)\+?\(?{parted}(?!\d)")
    words = line.split()
    found = r"\s+".join(map(re.escape, words))
    return len(words), re.compile(rf"(?<!\w){found}(?!\w)", re.IGNORECASE if words[1:] else 0)


def blank_entry(entry: Entry | Reused, out: Texts, *, own: bool) -> None:
    """The answers, marks and names of files of one entry; its key and fingerprint stay."""
    before = (entry.fields, entry.marks, entry.photos)
    fields = {
        name: [""] if own and name in PERSONAL_ANSWERS else out.out_of_all(texts)
        for name, texts in entry.fields.items()
    }
    if own and entry.kind == "discard" and kind_discarded(entry) in PERSONAL_KINDS:
        fields["content"] = [""]
    marks = [blank_mark(mark, out) if own else mark for mark in entry.marks]
    photos = out.out_of_all(entry.photos) if own else entry.photos
    if before != (fields, marks, photos):
        entry.fields, entry.marks, entry.photos = fields, marks, photos
        entry.save(update_fields=["fields", "marks", "photos"])


def kind_discarded(entry: Entry | Reused) -> str:
    """What a discard says was thrown away."""
    return "".join(entry.fields.get("discarded_kind", ()))


def blank_mark(mark: dict[str, Any], out: Texts) -> dict[str, Any]:
    """A mark with a person's columns empty, and its other texts looked through."""
    sides = {
        side: {name: "" if name in PERSONAL else out.out_of_all(one) for name, one in told.items()}
        for side in ("stood", "told")
        if isinstance(told := mark.get(side), dict)
    }
    return {**mark, **sides}


def blank_rows(jobs: list[Job], out: Texts) -> None:
    """The texts of the jobs, and of every row that points to one of them or to an entry."""
    entries = Entry.objects.filter(job_key__in=[job.key for job in jobs])
    for job in jobs:
        blank_row(job, out)
    for model in apps.get_models():
        if model in OWN_WAY or model._meta.proxy:  # noqa: SLF001
            continue
        about = Q()
        for field in model._meta.get_fields():  # noqa: SLF001
            if isinstance(field, models.ForeignKey) and field.related_model is Job:
                about |= Q(**{f"{field.name}__in": jobs})
            if isinstance(field, models.ForeignKey) and field.related_model is Entry:
                about |= Q(**{f"{field.name}__in": entries})
        rows: Iterable[models.Model] = models.QuerySet(model).filter(about) if about else ()
        for row in rows:
            blank_row(row, out)


def blank_row(row: models.Model, out: Texts) -> None:
    """The texts of one row."""
    new: dict[str, Any] = {}
    for field in row._meta.concrete_fields:  # noqa: SLF001
        if isinstance(field, TEXTS) and not field.choices:
            told = getattr(row, field.attname)
            blanked = out.out_of_all(told)
            if blanked != told:
                new[field.attname] = blanked
    if new:
        models.QuerySet(type(row)).filter(pk=row.pk).update(**new)


def fold(jobs: Iterable[Job], people: Iterable[Customer]) -> None:
    """What the jobs are found by, with what is left of the customer."""
    by_id = {one.pk: one for one in people}
    rows = list(jobs)
    for job in rows:
        job.customer = by_id[job.customer_id]
    for job, text in folded_texts(rows):
        FoundBy.objects.filter(job=job).update(folded=text)


def photo_name(photo: Photo) -> str:
    """A photo's name on a form: its entry's key and its number there."""
    return f"{photo.entry.key}:{photo.number}"


def files_of(photos: Iterable[Photo], at: datetime) -> list[tuple[str, str, str]]:
    """Blank photos, their lines in their entries and what was noted of them.

    Returned are the files to remove: folder, hash, ending.
    """
    gone = f"{PHOTO_GONE}, {name_gone(at).rpartition(', ')[2]}."
    files = []
    for photo in photos:
        shown = [one for one in (photo.stored_sha256, photo.small_sha256) if one]
        files += [("photos", one, ".jpg") for one in shown]
        if not photo.stored_sha256:
            files.append(("originals", photo.sent_sha256, ""))
        entry = Entry.objects.get(pk=photo.entry_id)
        entry.photos = [
            {**one, "name": "", "stored_sha256": "", "why": gone} if number == photo.number else one
            for number, one in enumerate(entry.photos, start=1)
        ]
        entry.save(update_fields=["photos"])
        for told in noted_in(photo):
            told.fields = {**told.fields, "note": [""]}
            told.save(update_fields=["fields"])
        photo.name, photo.stored_sha256, photo.small_sha256 = "", "", ""
        photo.note, photo.why = "", gone
        photo.width, photo.height, photo.sent_bytes = None, None, 0
        photo.save()
    return files


def noted_in(photo: Photo) -> Iterator[Entry | Reused]:
    """The entries in which something was noted of a photo, what was sent twice among them.

    A row keeps what was noted last: another photo of the same entry that stays has it there.
    """
    key = photo.entry.key
    filed = Q(kind="photo_filed", fields__of=[str(key)], fields__number=[str(photo.number)])
    about = Q(kind="photo", key=key) | Q(kind="photo", corrects=key, photos=[]) | filed
    first = [one for one in Entry.objects.filter(about) if one.fields.get("note")]
    again = Reused.objects.filter(about | Q(key__in=[one.key for one in first]))
    yield from first
    yield from (one for one in again if one.fields.get("note"))
