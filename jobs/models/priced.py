"""What estimates and invoices share: lines with prices, taxes, and what they come to."""

from typing import Any

from django.db import models
from django.db.models import F, Q

from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.people import Person
from jobs.money import shown

SORTS = {
    "labor": "Labor",
    "part": "Part",
    "fluid": "Refrigerant or oil",
    "sundry": "Sundries",
    "other": "Something else",
    "discount": "Discount",
}
NO_TOTAL = "no total: a price is missing"
BELOW_ZERO = "no total: the discounts take off more than the rest costs"


class Priced(Keyed):
    """Lines with prices, at which taxes and rounding held then. Never changed, only superseded.

    `key` is its entry's. `head` is that of priced_head.py, empty in those written before there was
    one. Money counts the smallest unit of `currency`. `lines` is [{"code", "sort",
    "words", "quantity", "unit", "minutes", "much", "price", "per", "amount", "source", "taxed"}]:
    `sort` of SORTS; `quantity` an exact decimal as text in `unit`, empty: not told; `minutes` of
    labor by the hour, `much` of fluids in mg or µL; `price` for one `per`; `amount`, below zero for
    a discount, null: something of it is missing; `source` of changes.SOURCES; `taxed` of
    prices.TAXED, empty: no tax on it. `taxes` is [{"name", "millionths", "on", "base", "amount"}],
    `tax_rounding` and `tax_halves` are codes of shop.ROUNDINGS and HALVES. `subtotal`, `tax` and
    `total` are null where a line has no amount or they come out below zero.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="%(class)ss")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="%(class)s_written")
    head = models.JSONField(default=dict)
    currency = models.CharField(max_length=3)
    lines = models.JSONField(default=list)
    taxes = models.JSONField(default=list)
    tax_rounding = models.CharField(max_length=10)
    tax_halves = models.CharField(max_length=10)
    subtotal = models.BigIntegerField(null=True, blank=True)
    tax = models.BigIntegerField(null=True, blank=True)
    total = models.BigIntegerField(null=True, blank=True)
    note = models.TextField(blank=True)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    superseded_by_id: int | None

    class Meta:
        abstract = True

    @property
    def made_by(self) -> Person:
        """Who wrote it; it came with its entry's author."""
        return self.entry.author

    @property
    def counts(self) -> bool:
        """Whether no later one took its place."""
        return self.superseded_by_id is None

    @property
    def missing(self) -> list[str]:
        """The words of the lines of which a price or an amount is missing."""
        return [line["words"] for line in self.lines if line["amount"] is None]

    @property
    def total_words(self) -> str:
        """The total with its currency, or why there is none."""
        if self.total is not None:
            return shown(self.total, self.currency)
        return NO_TOTAL if self.missing else BELOW_ZERO


def adds_up(name: str) -> models.CheckConstraint:
    """There is a total only where both sums are, and it is both together."""
    whole = Q(total=F("subtotal") + F("tax"), total__gte=0, subtotal__gte=0)
    return models.CheckConstraint(
        condition=Q(total__isnull=True) | whole,
        name=name,
        violation_error_message="A total is its lines and its taxes.",
    )


Line = dict[str, Any]
