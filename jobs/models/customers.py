"""Who brings the car."""

from django.db import models

from jobs.models.base import Keyed


class Customer(Keyed):
    """A customer as told at the desk. `merged_into`: the row that stands for both."""

    name = models.CharField(max_length=200)
    phone = models.CharField(max_length=60, blank=True)
    address = models.TextField(blank=True)
    merged_into = models.ForeignKey("self", models.PROTECT, null=True, blank=True)

    def __str__(self) -> str:
        return self.name
