"""Prices and taxes: lines that are told anew or ended, and never go."""

import uuid
from typing import Any, TypeVar

from django.db import models
from django.db.models import Q, QuerySet

from jobs.models.entries import Entry

WHAT = {
    "labor": "Labor rate",
    "operation": "Labor operation",
    "part": "Part",
    "refrigerant": "Refrigerant",
    "oil": "Oil",
}
UNITS = {
    "labor": {"h": "hour"},
    "operation": {"time": "time"},
    "part": {"piece": "piece", "m": "meter", "ft": "foot"},
    "refrigerant": {"g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound"},
    "oil": {"mL": "milliliter", "fl oz": "fluid ounce", "L": "liter"},
}
TAXED = {"labor": "Labor", "parts": "Parts", "refrigerant": "Refrigerant and oil"}


class Listed(models.Model):
    """A row of a list. `line` is the same through all changes of one line; the last row counts."""

    line = models.UUIDField(default=uuid.uuid4)
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="%(class)s")
    name = models.CharField(max_length=120)
    from_at = models.DateTimeField()
    ended = models.BooleanField(default=False)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        abstract = True

    def __str__(self) -> str:
        return self.name


class Price(Listed):
    """`amount` counts the smallest unit of `currency`, for one `unit`; `minutes` of an operation.

    An operation without an amount costs its minutes at a labor rate.
    """

    TOLD = ("name", "what", "part_number", "unit", "amount", "currency", "minutes")
    what = models.CharField(max_length=20)
    part_number = models.CharField(max_length=60, blank=True)
    unit = models.CharField(max_length=10)
    amount = models.BigIntegerField(null=True, blank=True)
    currency = models.CharField(max_length=3)
    minutes = models.PositiveIntegerField(null=True, blank=True)

    class Meta:
        indexes = [models.Index(fields=["what", "name"], name="price_by_name")]
        constraints = [
            models.CheckConstraint(
                condition=Q(what__in=list(WHAT)),
                name="price_what_known",
                violation_error_message="A price is of labor, a part, refrigerant or oil.",
            ),
            models.CheckConstraint(
                condition=Q(amount__isnull=True) | Q(amount__gte=0),
                name="price_not_below_zero",
                violation_error_message="A price is zero or more.",
            ),
            models.UniqueConstraint(
                fields=["line"],
                condition=Q(superseded_by__isnull=True),
                name="price_line_once",
                violation_error_message="One row of a price counts.",
            ),
        ]


class Tax(Listed):
    """A share in millionths of what it is taken on: codes of TAXED."""

    TOLD = ("name", "millionths", "taken_on")
    millionths = models.PositiveIntegerField()
    taken_on = models.JSONField(default=list)

    class Meta:
        verbose_name_plural = "taxes"
        constraints = [
            models.CheckConstraint(
                condition=Q(millionths__lte=1_000_000),
                name="tax_share",
                violation_error_message="A tax takes up to all of it.",
            ),
            models.UniqueConstraint(
                fields=["line"],
                condition=Q(superseded_by__isnull=True),
                name="tax_line_once",
                violation_error_message="One row of a tax counts.",
            ),
        ]


Row = TypeVar("Row", bound=Any)


def in_force(rows: QuerySet[Row]) -> QuerySet[Row]:
    """Those that count now."""
    return rows.filter(superseded_by__isnull=True, ended=False)
