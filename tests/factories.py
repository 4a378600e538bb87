"""Things to test with, made plainly. A job comes in as it does in the shop: as an entry."""

import functools
import uuid
from typing import Any

from django.contrib.auth.hashers import make_password

from jobs.entries import EQUIPMENT, INTAKE, QUALIFICATION
from jobs.logbook import EntryKind, Outcome, Told, enter
from jobs.models import Entry, Equipment, Job, Person, Qualification, Shop
from jobs.models.marks import marks_in_words
from jobs.models.people import OWNER, TECHNICIAN

PASSWORD = "nine grey herons"
# One typing of the intake form that leaves nothing open.
INTAKE_FIELDS = {
    "customer_name": "Ida Marwell",
    "phone": "555 010 0199",
    "plate": "KX.4731D",
    "make_model": "Brenloh Ilex 1.6",
    "model_year": "2017",
    "vin": "ZZ9HB1PA2ST000789",
    "odometer": "84200",
    "odometer_unit": "mi",
    "drive": "belt_clutch",
    "displacement": "fixed",
    "voltage": "12",
    "switched_side": "feed",
    "refrigerant": "R-134a",
    "label_charge": "520",
    "label_charge_unit": "g",
    "label_charge_source": "label",
    "branches": ["front"],
    "complaint": "Blows warm since last week.",
    "since": "weeks",
    "warm_when": ["always"],
    "topped_up": "no",
    "accident": "no",
    "other_work": "no",
    "payer": "customer",
    "consent_amount": "150",
    "consent_how": "in_person",
    "consent_text": "find_fault_1",
}

# Nothing but what cannot wait.
LEAST: dict[str, Any] = dict.fromkeys(INTAKE_FIELDS) | {
    "customer_name": "Ida",
    "plate": "KX.4731D",
    "complaint": "Warm.",
}


def make_shop(**columns: Any) -> Shop:
    """The shop, made once."""
    shop, _ = Shop.objects.get_or_create(
        id=1, defaults={"name": "Hollow Lane Cooling", "currency": "EUR", **columns}
    )
    return shop


def make_person(role: str = TECHNICIAN, **columns: Any) -> Person:
    """Somebody of that role, with a name of their own and PASSWORD."""
    first = {"name": f"{role} {uuid.uuid4().hex[:6]}", "password": hashed_once()}
    return Person.objects.create(role=role, **{**first, **columns})


@functools.cache
def hashed_once() -> str:
    """PASSWORD as a column has it; hashing is slow on purpose."""
    return make_password(PASSWORD)


def make_told(fields: dict[str, Any], author: Person | None = None, **told: Any) -> Told:
    """An entry as it comes in: texts or lists of texts by field name."""
    listed = {
        name: [value] if isinstance(value, str) else list(value) for name, value in fields.items()
    }
    first = {"key": uuid.uuid4(), "version": 1, "job_key": None}
    return Told(**{**first, **told}, fields=listed, author=author or make_person())


def tell_intake(author: Person | None = None, **fields: Any) -> Outcome:
    """Tell the logbook of a car; a field given as None is left out."""
    make_shop()
    told = {name: value for name, value in (INTAKE_FIELDS | fields).items() if value is not None}
    key = uuid.uuid4()
    return enter(INTAKE, make_told(told, author, key=key, job_key=key))


def make_job(author: Person | None = None, **fields: Any) -> Job:
    """A car that was taken in, with intake fields as given."""
    outcome = tell_intake(author, **fields)
    if not outcome.stands:
        raise AssertionError(f"{outcome.state}: {outcome.form.errors if outcome.form else ''}")
    rows = Job.objects.select_related("customer", "vehicle__system")
    return rows.get(key=outcome.key)


def tell(kind: EntryKind, job: Job, **fields: Any) -> Outcome:
    """Tell the logbook something about a job, as a technician."""
    return enter(kind, make_told(fields, job_key=job.key))


def intake_errors(**fields: Any) -> dict[str, str]:
    """The sentences by field when an otherwise complete intake comes back to its form."""
    outcome = tell_intake(**fields)
    if outcome.form is None:
        raise AssertionError(f"the form did not come back: {outcome.state}")
    return {name: " ".join(map(str, texts)) for name, texts in outcome.form.errors.items()}


def said_of(entry: Entry) -> list[str]:
    """What was odd about an entry, in the words that pages show."""
    return [mark.words for mark in marks_in_words([entry])[entry.pk]]


def qualify(person: Person, kind: str = "refrigerant", **fields: str) -> Qualification:
    """A card of somebody's, told by an owner; without an end unless one is given."""
    first = {"person": str(person.key), "kind": kind, "valid_from": "2020-01-01"}
    ends = {} if "valid_to" in fields else {"open_end": "no_end"}
    outcome = enter(QUALIFICATION, make_told({**first, **ends, **fields}, make_person(OWNER)))
    if not outcome.stands:
        raise AssertionError(f"{outcome.state}: {outcome.form.errors if outcome.form else ''}")
    return Qualification.objects.get(key=outcome.key)


def make_thing(kind: str = "gauge_set", **fields: Any) -> Equipment:
    """An instrument of the shop, told by an owner."""
    outcome = enter(EQUIPMENT, make_told({"kind": kind, **fields}, make_person(OWNER)))
    if not outcome.stands:
        raise AssertionError(f"{outcome.state}: {outcome.form.errors if outcome.form else ''}")
    return Equipment.objects.get(key=outcome.key)
