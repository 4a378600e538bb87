"""What an intake left open: facts that may wait, and what was odd about those that came.

Data with the name of the page where each is settled; diagnostics adds its own points to them.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from jobs import vin
from jobs.models.jobs import Consent, Job


@dataclass(frozen=True)
class OpenPoint:
    """One thing between a job and its next stage. `page` is the route's name."""

    code: str
    sentence: str
    page: str

    @property
    def page_words(self) -> str:
        """The page as people say it."""
        return PAGES[self.page]


PAGES = {
    "customer": "Customer",
    "consent": "Consent",
    "vehicle": "Car",
    "system": "Air conditioning",
}


def open_points(job: Job, consents: list[Consent]) -> list[OpenPoint]:
    """All at once, in the order in which they are asked at the counter.

    Makes no query of its own when the job came with car, customer and system.
    """
    return [*of_people(job, consents), *of_car(job), *of_system(job)]


def of_people(job: Job, consents: list[Consent]) -> Iterator[OpenPoint]:
    """Whom to call, who pays, what was agreed."""
    if not job.customer.phone:
        yield OpenPoint("phone", "Phone of the customer: not noted", "customer")
    if not job.payer:
        yield OpenPoint("payer", "Who pays: not asked", "customer")
    if not consents:
        yield OpenPoint("consent", "Consent no. 1, to find the fault: not given yet", "consent")
    elif not consents[-1].how:
        yield OpenPoint(
            "consent_how", f"Consent no. {consents[-1].number}: how it was given", "consent"
        )


def of_car(job: Job) -> Iterator[OpenPoint]:
    """What tells the car."""
    car = job.vehicle
    if not car.vin:
        yield OpenPoint("vin", "VIN: not read yet", "vehicle")
    elif vin.calls_for_another_look(car.vin):
        yield OpenPoint("vin", f"VIN {car.vin}: {car.vin_mark}", "vehicle")
    if not job.odometer:
        yield OpenPoint("odometer", "Odometer: not read yet", "vehicle")


def of_system(job: Job) -> Iterator[OpenPoint]:
    """What steps and amounts need to know of the A/C."""
    system = job.vehicle.system
    if not system.drive:
        yield OpenPoint("drive", "How the compressor is driven: not looked at yet", "system")
    if not system.voltage:
        yield OpenPoint("voltage", "System voltage: not noted", "system")
    if not system.refrigerant:
        yield OpenPoint("refrigerant", "Refrigerant on the label: not read yet", "system")
    if system.label_charge_mg is None:
        yield OpenPoint("label_charge", "Label charge: not read yet", "system")
    elif "label_charge" not in system.sources:
        yield OpenPoint("label_charge_source", "Label charge: where it was read", "system")
