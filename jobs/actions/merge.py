"""Writing that two customers or two cars are one: jobs move by pointing, no row is deleted."""

from typing import Any

from django.db.models import QuerySet
from django.urls import reverse

from jobs.actions.refold import refold
from jobs.actions.same import take_over
from jobs.logbook import Refused
from jobs.models import Customer, Entry, Job, Vehicle
from jobs.told import Merged

MERGED_MEANWHILE = "One of the two was merged meanwhile. Look at them again."
NAME_GONE = "The name of one of the two was taken out on request, so they are not put together."
CUSTOMER_COLUMNS = ("name", "phone", "address")
CAR_COLUMNS = ("plate", "vin", "vin_mark", "make_model", "model_year")
SYSTEM_COLUMNS = (
    *("drive", "clutch", "displacement", "voltage", "switched_side", "refrigerant"),
    *("label_charge_mg", "oil_name", "label_oil_ul", "branches", "coil_milliohm"),
    *("gap_low_um", "gap_high_um", "sources"),
)


def merge(entry: Entry, told: Merged) -> dict[str, Any]:
    """Let one row stand for both; the result names what moved, by keys only.

    Raises:
        Refused: either was merged meanwhile, or a name was taken out.

    """
    move = merge_customers if told.about == "customer" else merge_cars
    moved = move(entry, told)
    return {
        "url": f"{reverse('history')}?{told.about}={told.stays}",
        "stays": str(told.stays),
        "goes": str(told.goes),
        "moved": [str(key) for key in moved],
    }


def merge_customers(entry: Entry, told: Merged) -> list[Any]:
    """Jobs and cars of the one that goes point to the one that stays."""
    rows = {one.key: one for one in Customer.objects.filter(key__in=[told.stays, told.goes])}
    stays, goes = rows[told.stays], rows[told.goes]
    if stays.merged_into_id or goes.merged_into_id:
        raise Refused(MERGED_MEANWHILE)
    if stays.redacted_at or goes.redacted_at:
        raise Refused(NAME_GONE)
    entry.marks = [*entry.marks, *take_over(entry, stays, columns(goes, CUSTOMER_COLUMNS))]
    moved = list(goes.jobs.values_list("key", flat=True))
    goes.jobs.update(customer=stays)
    goes.vehicles.update(customer=stays)
    end(Customer.objects.all(), stays, goes)
    fold_again(Job.objects.filter(customer=stays))
    return moved


def merge_cars(entry: Entry, told: Merged) -> list[Any]:
    """The same of cars, with what is known of the A/C."""
    cars = Vehicle.objects.select_related("system").filter(key__in=[told.stays, told.goes])
    rows = {one.key: one for one in cars}
    stays, goes = rows[told.stays], rows[told.goes]
    if stays.merged_into_id or goes.merged_into_id:
        raise Refused(MERGED_MEANWHILE)
    asked = take_over(entry, stays, columns(goes, CAR_COLUMNS))
    asked += take_over(entry, stays.system, columns(goes.system, SYSTEM_COLUMNS))
    entry.marks = [*entry.marks, *asked]
    moved = list(goes.jobs.values_list("key", flat=True))
    goes.jobs.update(vehicle=stays)
    end(Vehicle.objects.all(), stays, goes)
    fold_again(Job.objects.filter(vehicle=stays))
    return moved


def columns(row: Any, names: tuple[str, ...]) -> dict[str, Any]:
    """Some columns of a row."""
    return {name: getattr(row, name) for name in names}


def end(rows: QuerySet[Any], stays: Any, goes: Any) -> None:
    """Name what stands for a row, and for those it stood for: one step leads there from each."""
    rows.filter(merged_into=goes).update(merged_into=stays)
    rows.filter(pk=goes.pk).update(merged_into=stays)


def fold_again(jobs: QuerySet[Job]) -> None:
    """What the jobs are found by."""
    refold(jobs.select_related("customer", "vehicle"))
