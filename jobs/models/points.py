"""What an intake left open: facts that may wait, and what was odd about those that came.

Data with the name of the page where each is settled; diagnostics adds its own points to them.
"""

import uuid
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from django.db.models import prefetch_related_objects

from jobs import vin
from jobs.models.changes import Change, standing
from jobs.models.conflicts import open_in_jobs, what_of
from jobs.models.consent_points import of_agreed
from jobs.models.consents import Consent, in_force
from jobs.models.discards import thrown_away
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.marks import Said
from jobs.models.priced_points import of_priced
from jobs.models.said import AFTER_YES, ASKED, SAID, in_a_line
from jobs.models.wordings import in_shop_time


@dataclass(frozen=True)
class OpenPoint:
    """One thing between a job and its next stage. `page` is the route's name."""

    code: str
    sentence: str
    page: str
    about: str = ""  # tells it from others of its code

    @property
    def page_words(self) -> str:
        """The page as people say it."""
        return PAGES[self.page]


PAGES = {
    "customer": "Customer",
    "consent": "Consent",
    "estimate": "Estimate",
    "invoice": "Invoice",
    "old_part": "Old parts",
    "vehicle": "Car",
    "system": "Air conditioning",
    "repair": "Repair",
    "recovery": "Recovery",
    "oil": "Oil",
    "evacuation": "Evacuation",
    "charge": "Charge",
    "machine_cycle": "Machine cycle",
}
LOOP_PAGES = ("recovery", "oil", "evacuation", "charge", "machine_cycle")  # work on the loop
ASKS_SERVER = ("estimate", "invoice")  # pages that no tablet keeps
ASKED_OF = ("estimates", "invoices", "named", "old_part_choices")  # rows of a job
CORRECTS_NOTHING = "was to replace a change that is not in this job, and replaces nothing"
# The fields of an intake that another page than the customer's asks for.
TAKEN_IN = {
    "vehicle": ("plate", "make_model", "model_year", "vin", "odometer"),
    "system": (
        *("drive", "clutch", "displacement", "voltage", "switched_side", "refrigerant"),
        *("label_charge", "branches", "coil", "gap_low"),
    ),
}
# Of an entry that was thrown away and stands: the page where it is put right, and what it is.
THROWN = {
    "intake": ("customer", "Intake"),
    "failing_now": ("customer", "Whether it fails now"),
    "customer": ("customer", "Customer"),
    "consent": ("consent", "Consent"),
    "estimate": ("estimate", "Estimate"),
    "named": ("consent", "Who may say yes"),
    "old_part": ("old_part", "Old parts"),
    "vehicle": ("vehicle", "Car"),
    "system": ("system", "Air conditioning"),
    "change": ("repair", "Change on the car"),
    "recovery": ("recovery", "Recovery"),
    "oil": ("oil", "Oil"),
    "evacuation": ("evacuation", "Evacuation"),
    "charge": ("charge", "Charge"),
    "machine_cycle": ("machine_cycle", "Machine cycle"),
}
THROWN_AWAY = (
    "thrown away on a tablet, but it had reached the shop server and stands. Correct it or enter it"
    " anew"
)
MAGNETIC_BESIDE_MOTOR = ("belt_electric", "magnetic")


def open_points(
    job: Job, consents: list[Consent], changes: Iterable[Change] = ()
) -> list[OpenPoint]:
    """All at once, in the order in which they are asked at the counter.

    Makes no query of its own when the job came with car, customer and system, and with its
    estimates and invoices, the persons named and what was chosen of old parts.
    """
    prefetch_related_objects([job], *ASKED_OF)
    agreed = [OpenPoint(*one) for one in of_agreed(job, consents, changes)]
    return [
        *of_people(job),
        *agreed,
        *of_prices(job, consents),
        *of_car(job),
        *of_system(job),
        *of_changes(changes),
    ]


def of_conflicts(entries: Iterable[Entry], said: Mapping[int, list[Said]]) -> list[OpenPoint]:
    """Values told differently that wait for a person; `said` has the entries' marks in words."""
    return [
        OpenPoint("conflict", mark.words, page_of(entry, mark.field), f"{entry.key} {mark.field}")
        for entry in entries
        for mark in said.get(entry.pk, ())
        if mark.open
    ]


def of_discards(entries: Iterable[Entry]) -> list[OpenPoint]:
    """What was thrown away on a tablet and stands here; of a step its own points say so."""
    return [point for one, discard in thrown_away(entries) for point in of_thrown(one, discard)]


def of_thrown(entry: Entry, discard: Entry) -> Iterator[OpenPoint]:
    """The point about one such entry."""
    if entry.kind in THROWN:
        page, words = THROWN[entry.kind]
        sentence = f"{words} of {in_shop_time(entry.happened_at)}: {THROWN_AWAY}"
        yield OpenPoint("discarded_stands", sentence, page, f"{entry.key} {discard.key}")


def conflicts_of(jobs: Sequence[Job]) -> dict[uuid.UUID, list[OpenPoint]]:
    """Conflicts and discards by job without the values, for tablets: a phone number may be one."""
    found: dict[uuid.UUID, list[OpenPoint]] = {}
    for entry, mark in open_in_jobs([job.key for job in jobs]):
        sentence = f"{what_of(mark)}: two told it differently. Which is right?"
        if entry.job_key:
            page, about = page_of(entry, mark["field"]), f"{entry.key} {mark['field']}"
            point = OpenPoint("conflict", sentence, page, about)
            found.setdefault(entry.job_key, []).append(point)
    discards = Entry.objects.filter(job_key__in=[job.key for job in jobs], kind="discard")
    for thrown, discard in thrown_away(discards.exclude(marks=[])):
        if thrown.job_key:
            found.setdefault(thrown.job_key, []).extend(of_thrown(thrown, discard))
    return found


def page_of(entry: Entry, field: str) -> str:
    """The page where a field of an entry is settled; an intake has fields of three pages."""
    if entry.kind in PAGES:
        return entry.kind
    return next((page for page, fields in TAKEN_IN.items() if field in fields), "customer")


def in_page_order(points: Iterable[OpenPoint]) -> list[OpenPoint]:
    """Points of one page together."""
    pages = list(PAGES)
    return sorted(points, key=lambda point: pages.index(point.page))


def of_changes(changes: Iterable[Change]) -> Iterator[OpenPoint]:
    """What waits about the parts that were fitted."""
    for change in standing(changes):
        if change.corrects_nothing:
            sentence = f"{change.words}: {CORRECTS_NOTHING}"
            yield OpenPoint("corrects_nothing", sentence, "repair", str(change.key))
        if change.lacks_serial:
            of = ", ".join(one.words for one in change.lacking) if change.also else change.words
            sentence = f"{of}: serial number not noted yet"
            yield OpenPoint("serial", sentence, "repair", str(change.key))


def of_people(job: Job) -> Iterator[OpenPoint]:
    """Whom to call, who pays, what was asked."""
    told = {"phone": job.customer.phone, "payer": job.payer}
    yield from missing("customer", "customer", "Not noted yet", told)
    asked = {name: job.complaint_answers.get(name) for name in ASKED if name not in AFTER_YES}
    yield from missing("asked", "customer", "Not asked yet", asked)


def of_prices(job: Job, consents: Iterable[Consent]) -> Iterator[OpenPoint]:
    """Estimates that left another out, invoices beyond what is agreed."""
    last = in_force(consents)
    agreed = (last.amount or 0, last.currency) if last else None
    for point in of_priced(job.estimates.all(), list(job.invoices.all()), agreed):
        yield OpenPoint(*point)


def of_car(job: Job) -> Iterator[OpenPoint]:
    """What tells the car."""
    car = job.vehicle
    told = {
        "make_model": car.make_model,
        "model_year": car.model_year,
        "vin": car.vin,
        "odometer": job.odometer is not None,
    }
    yield from missing("car", "vehicle", "Not noted yet", told)
    if vin.calls_for_another_look(car.vin):
        yield OpenPoint("vin", f"VIN {car.vin}: {car.vin_mark}", "vehicle", car.vin)


def of_system(job: Job) -> Iterator[OpenPoint]:
    """What steps and amounts need to know of the A/C; without a clutch no side is switched."""
    system = job.vehicle.system
    told: dict[str, object] = {
        "drive": system.drive,
        "displacement": system.displacement,
        "voltage": system.voltage,
        "refrigerant": system.refrigerant,
        "label_charge_mg": system.label_charge_mg is not None,
        "branches": system.branches,
    }
    if system.drive == "belt_electric":
        told["clutch"] = system.clutch
    if system.drive == "belt_clutch" or (system.drive, system.clutch) == MAGNETIC_BESIDE_MOTOR:
        told["switched_side"] = system.switched_side
    yield from missing("system", "system", "Not noted yet", told)
    if system.label_charge_mg is not None and "label_charge" not in system.sources:
        yield OpenPoint("label_charge_source", "Label charge: where it was read", "system")


def missing(code: str, page: str, begins: str, told: Mapping[str, object]) -> Iterator[OpenPoint]:
    """One point that names all of `told` ({column: value}) that is empty; none when nothing is."""
    empty = [in_a_line(SAID[column]) for column, value in told.items() if not value]
    if empty:
        about = ",".join(column for column, value in told.items() if not value)
        yield OpenPoint(code, f"{begins}: {', '.join(empty)}", page, about)
