"""The shop itself: one row of what holds now, and each change of it with when it began."""

from django.db import models
from django.db.models import Q

from diagnostics.physics.shown_units import ShownIn
from jobs.models.entries import Entry

PAPERS = {"a4": "A4", "us-letter": "Letter"}
ROUNDINGS = {"total": "Once, on the total", "line": "On each line"}
# What becomes of a fraction of the smallest unit of a tax.
HALVES = {"up": "Half up", "even": "Half to even", "down": "Fraction left out"}
SUNDRIES = {
    "none": "None",
    "amount": "One amount a job",
    "percent": "A share of the labor",
}
NONE_BEFORE = "none"  # what a form says it was opened with, where no part was told yet


def between(column: str, low: int, high: int) -> Q:
    """Not told, or within."""
    return Q((f"{column}__isnull", True)) | Q((f"{column}__range", (low, high)))


class Shop(models.Model):
    """What is printed, what money is counted in, and how things are shown; exactly one row.

    `units` is {quantity: unit} where another than the usual one was chosen, `phrases` {where:
    [phrase, …]}. `air_pa` is the air's usual pressure there, told by itself or, with `altitude_m`,
    worked out from that. Of sundries `sundries_minor` counts the currency's smallest unit,
    `sundries_millionths` is the share; `record_years` and `comeback_days` are empty as long as
    nobody told them.
    """

    name = models.CharField(max_length=120)
    address = models.TextField(blank=True)
    phone = models.CharField(max_length=60, blank=True)
    web = models.CharField(max_length=200, blank=True)
    tax_number = models.CharField(max_length=120, blank=True)
    letterhead = models.TextField(blank=True)
    currency = models.CharField(max_length=3)
    paper = models.CharField(max_length=10, default="a4")
    tax_rounding = models.CharField(max_length=10, default="total")
    tax_halves = models.CharField(max_length=10, default="up")
    sundries = models.CharField(max_length=10, default="none")
    sundries_minor = models.BigIntegerField(null=True, blank=True)
    sundries_millionths = models.PositiveIntegerField(null=True, blank=True)
    units = models.JSONField(default=dict, blank=True)
    altitude_m = models.IntegerField(null=True, blank=True)
    air_pa = models.PositiveIntegerField(null=True, blank=True)
    phrases = models.JSONField(default=dict, blank=True)
    law = models.TextField(blank=True)
    record_years = models.PositiveSmallIntegerField(null=True, blank=True)
    comeback_days = models.PositiveSmallIntegerField(null=True, blank=True)
    demo = models.BooleanField(default=False)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(id=1),
                name="shop_is_one",
                violation_error_message="There is one shop in a data folder.",
            ),
            models.CheckConstraint(
                condition=Q(paper__in=list(PAPERS)),
                name="shop_paper_known",
                violation_error_message="Paper is A4 or Letter.",
            ),
            models.CheckConstraint(
                condition=Q(tax_rounding__in=list(ROUNDINGS)),
                name="shop_rounding_known",
                violation_error_message="Taxes are rounded on each line or on the total.",
            ),
            models.CheckConstraint(
                condition=Q(tax_halves__in=list(HALVES)),
                name="shop_halves_known",
                violation_error_message="Halves are rounded up, to even, or left out.",
            ),
            models.CheckConstraint(
                condition=Q(sundries__in=list(SUNDRIES)),
                name="shop_sundries_known",
                violation_error_message="Sundries are none, an amount or a share.",
            ),
            models.CheckConstraint(
                condition=between("air_pa", 30_000, 120_000),
                name="shop_air_is_air",
                violation_error_message="That is no pressure of the air.",
            ),
            models.CheckConstraint(
                condition=between("record_years", 1, 100),
                name="shop_record_years",
                violation_error_message="Records are kept 1 to 100 years.",
            ),
            models.CheckConstraint(
                condition=between("comeback_days", 1, 3_650),
                name="shop_comeback_days",
                violation_error_message="A comeback is one within 1 to 3650 days.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def lines(self) -> list[str]:
        """What stands under its name on paper."""
        told = [*self.letterhead.splitlines(), *self.address.splitlines()]
        told += [self.phone, self.web, self.tax_number]
        return [line for line in told if line.strip()]


class ShopChange(models.Model):
    """One part of the settings as it was told, in force from then until the next of that part."""

    entry = models.OneToOneField(Entry, models.PROTECT, related_name="shop_change")
    part = models.CharField(max_length=20)
    values = models.JSONField()
    from_at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["part", "from_at"], name="shop_change_part")]

    def __str__(self) -> str:
        return f"{self.part} from {self.from_at:%Y-%m-%d}"


def units_chosen() -> ShownIn:
    """The units of the shop: the usual ones but for those it chose; in one query."""
    return ShownIn(Shop.objects.values_list("units", flat=True).first() or {})


def changes_until(moment: object) -> dict[str, str]:
    """The keys of the entries by whose settings the shop worked at a moment, by part."""
    told = ShopChange.objects.filter(from_at__lte=moment).order_by("from_at", "id")
    return {part: str(key) for part, key in told.values_list("part", "entry__key")}
