"""Invoices: what was done and used, at what price, beside what had been agreed."""

from django.db import models

from jobs.models.estimates import Estimate
from jobs.models.priced import Priced, adds_up
from jobs.money import shown


class Invoice(Priced):
    """One invoice. `number` counts those of one `year` of the shop, in the order they were written.

    `estimate` and `agreed` (smallest units, null: nothing was) are what it was held against when it
    was written: `agreed_words` says so, `changed` what is otherwise than on the estimate. `done`
    has in sentences what stood on the job of changes and amounts, `old_parts` what became of the
    old parts; all of it stays as it was. One that was wrong is superseded by another with a number
    of its own, which says in `corrected_why` what was wrong; no estimate is changed by any.
    """

    year = models.PositiveSmallIntegerField()
    number = models.PositiveIntegerField()
    estimate = models.ForeignKey(
        Estimate, models.PROTECT, null=True, blank=True, related_name="invoices"
    )
    agreed = models.BigIntegerField(null=True, blank=True)
    agreed_words = models.TextField(blank=True)
    changed = models.JSONField(default=list)
    done = models.JSONField(default=list)
    old_parts = models.TextField(blank=True)
    corrected_why = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["year", "number"]
        constraints = [
            models.UniqueConstraint(
                fields=["year", "number"],
                name="invoice_number_once",
                violation_error_message="This invoice number is already given.",
            ),
            models.CheckConstraint(
                condition=models.Q(total__isnull=False),
                name="invoice_has_a_total",
                violation_error_message="An invoice has a total.",
            ),
            adds_up("invoice_adds_up"),
        ]

    def __str__(self) -> str:
        return self.label

    @property
    def label(self) -> str:
        """Its number as it is printed: INV-26-0041."""
        return f"INV-{self.year % 100:02}-{self.number:04}"

    @property
    def over(self) -> int:
        """By how much it is more than was agreed then; all of it where nothing was."""
        return max(0, (self.total or 0) - (self.agreed or 0))

    @property
    def over_words(self) -> str:
        """The same in words; empty: it is not more."""
        return shown(self.over, self.currency) if self.over else ""
