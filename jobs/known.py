"""Whether a car was here before: looked for by VIN, then by plate, and told, never assumed.

A VIN that is the same on another plate is the car with new plates, or a VIN misread; a plate that
is the same on another VIN is perhaps another car. So a person says which it is.
"""

import uuid
from collections.abc import Callable
from dataclasses import dataclass

from jobs import ledger, search
from jobs.models import Job, Vehicle
from jobs.models.shop import units_chosen
from jobs.models.vehicles import REFRIGERANTS
from jobs.models.wordings import words

VIN_LENGTH = 6  # fewer characters say nothing about which car it is
PLATE_LENGTH = 3
EARLIER_MAX = 10


@dataclass(frozen=True)
class Known:
    """The newest job of a car that is like the one told, and how alike: a code of SAID."""

    job: Job
    how: str

    @property
    def words(self) -> str:
        """What is the same and what is not."""
        car = self.job.vehicle
        return SAID[self.how].format(plate=car.plate, vin=car.vin[-6:])

    @property
    def car_words(self) -> str:
        """What need not be typed again: plate, make, year, VIN, refrigerant and charge as noted."""
        car, system = self.job.vehicle, self.job.vehicle.system
        charge = system.label_charge_mg
        mass = units_chosen().unit("g")
        told = (
            car.plate,
            car.make_model,
            str(car.model_year or ""),
            f"VIN {car.vin}" if car.vin else "",
            words(REFRIGERANTS, system.refrigerant),
            f"label charge {ledger.both(charge, mass)}" if charge else "",
        )
        return ", ".join(one for one in told if one)


SAID = {
    "same": "This car was here",
    "plate": "A car with this plate was here",
    "new_plate": "This VIN was here on the plate {plate}",
    "other_vin": "This plate was here on a car whose VIN ends in {vin}",
}


def may_be(vehicle: Vehicle, plate: str, vin: str) -> bool:
    """Whether it can be the car told: not where both plate and VIN are another's."""
    other_plate = search.fold(plate) != search.fold(vehicle.plate)
    told, here = search.fold(vin), search.fold(vehicle.vin)
    return not (other_plate and (not told or not here or told != here))


def known_car(plate: str, vin: str, but: uuid.UUID | None = None) -> Known | None:
    """The car as the shop knows it; None: it does not. `but`: a job that is left out."""
    plate, vin = search.fold(plate), search.fold(vin)
    if len(vin) >= VIN_LENGTH:
        found = newest(vin, lambda car: search.fold(car.vin) == vin, but)
        if found:
            same = not plate or search.fold(found.vehicle.plate) == plate
            return Known(found, "same" if same else "new_plate")
    if len(plate) < PLATE_LENGTH:
        return None
    found = newest(plate, lambda car: search.fold(car.plate) == plate, but)
    if found is None:
        return None
    return Known(found, "other_vin" if vin and found.vehicle.vin else "plate")


def earlier_jobs(job: Job) -> list[Job]:
    """The visits before this one of the same car, or of one that is like it; the newest first."""
    known = known_car(job.vehicle.plate, job.vehicle.vin, job.key)
    cars = {job.vehicle_id, *([known.job.vehicle_id] if known else ())}
    rows = Job.objects.filter(vehicle__in=cars, pk__lt=job.pk).order_by("-pk")
    return list(rows.select_related("customer", "vehicle")[:EARLIER_MAX])


def newest(word: str, is_same: Callable[[Vehicle], bool], but: uuid.UUID | None) -> Job | None:
    """The newest job whose car is the same."""
    found = search.find([word]).jobs
    return next((one for one in found if one.key != but and is_same(one.vehicle)), None)
