"""Who wrote an estimate or an invoice, to whom and about which car, as it stood then."""

from typing import Any

from jobs.models.customers import name_gone
from jobs.models.jobs import Job
from jobs.models.shop import Shop


def head_of(job: Job) -> dict[str, dict[str, Any]]:
    """What stands above the lines: {"shop", "customer", "car"}, each {name: text}."""
    shop = Shop.objects.first()
    customer, car = job.customer, job.vehicle
    return {
        "shop": {
            "name": shop.name if shop else "",
            "lines": shop.lines if shop else [],
            "law": shop.law if shop else "",
        },
        "customer": {
            "name": customer.name,
            "address": customer.address,
            "phone": customer.phone,
        },
        "car": {
            "plate": car.plate,
            "words": car.words,
            "vin": car.vin,
            "odometer": job.odometer_words,
        },
    }


def without_customer(head: dict[str, Any], at: Any) -> dict[str, Any]:
    """The same of a customer who was taken out on request at that time."""
    return head and head | {"customer": {"name": name_gone(at), "address": "", "phone": ""}}
