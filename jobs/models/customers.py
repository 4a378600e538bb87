"""Who brings the car."""

from datetime import datetime

from django.db import models

from jobs.models.base import Keyed
from jobs.models.wordings import shop_day

NO_NAME = "name taken out on request, {}"


def name_gone(at: datetime) -> str:
    """What stands in a name's place once it was taken out."""
    return NO_NAME.format(shop_day(at))


class Customer(Keyed):
    """A customer as told at the desk. `merged_into`: the row that stands for both.

    `redacted_at`: since then name, phone and address are taken out, here and wherever else they
    stood (jobs/forget.py); the name's place says so, so that every page and paper does.
    """

    name = models.CharField(max_length=200)
    phone = models.CharField(max_length=60, blank=True)
    address = models.TextField(blank=True)
    merged_into = models.ForeignKey("self", models.PROTECT, null=True, blank=True)
    redacted_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return self.name
