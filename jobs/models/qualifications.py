"""What somebody is qualified for, by which card, from when to when."""

from collections.abc import Iterable
from datetime import date

from django.db import models
from django.utils.dateformat import format as date_words

from diagnostics.physics.units import NO_BREAK
from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.people import Person

REFRIGERANT, HIGH_VOLTAGE, OTHER = "refrigerant", "high_voltage", "other"
QUALIFICATIONS = {
    REFRIGERANT: "Refrigerant handling",
    HIGH_VOLTAGE: "High voltage",
    OTHER: "Something else",
}
# The same where a sentence names the paper itself.
PAPERS = {
    REFRIGERANT: "certificate for refrigerant work",
    HIGH_VOLTAGE: "certificate for high-voltage work",
}


def day_words(day: date) -> str:
    """A day as pages and papers say it: 3 Mar 2026, never torn apart."""
    return date_words(day, "j M Y").replace(" ", NO_BREAK)


class Qualification(Keyed):
    """One card of one person, as the owner typed it off. Never changed, only superseded.

    `valid_to` is the last day on which it holds; null: none stands on it. `mistake`: it was never
    this person's, and what it superseded was entered by mistake. `pictured` is the entry that has
    the photo of the card: its own, or that of the row it corrects.
    """

    person = models.ForeignKey(Person, models.PROTECT, related_name="qualifications")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="qualification_told")
    pictured = models.ForeignKey(Entry, models.PROTECT, null=True, blank=True, related_name="+")
    kind = models.CharField(max_length=20)
    own_words = models.CharField(max_length=120, blank=True)
    number = models.CharField(max_length=80, blank=True)
    issuer = models.CharField(max_length=120, blank=True)
    valid_from = models.DateField()
    valid_to = models.DateField(null=True, blank=True)
    mistake = models.BooleanField(default=False)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["kind", "valid_from", "id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(kind__in=list(QUALIFICATIONS)),
                name="qualification_kind_known",
                violation_error_message="Refrigerant handling, high voltage, or something else.",
            ),
            models.CheckConstraint(
                condition=models.Q(valid_to=None) | models.Q(valid_to__gte=models.F("valid_from")),
                name="qualification_ends_after_it_begins",
                violation_error_message="It cannot run out before it begins.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.person_id}: {self.words}"

    @property
    def stands(self) -> bool:
        """Whether nothing took its place, and it was no mistake."""
        return not self.superseded_by_id and not self.mistake

    @property
    def words(self) -> str:
        """What it is for."""
        known = QUALIFICATIONS.get(self.kind, self.kind)
        if self.kind == OTHER:
            return self.own_words or known
        return f"{known} ({self.own_words})" if self.own_words else known

    def valid_on(self, day: date) -> bool:
        """Whether it holds on that day."""
        ended = self.valid_to is not None and day > self.valid_to
        return self.stands and self.valid_from <= day and not ended

    def until_words(self, today: date) -> str:
        """How long it holds, as of a day."""
        if self.valid_from > today:
            return f"valid from {day_words(self.valid_from)}"
        if self.valid_to is None:
            return "no end date on it"
        said = "ran out" if self.valid_to < today else "valid to"
        return f"{said} {day_words(self.valid_to)}"

    def card_words(self) -> str:
        """Number and issuer, as far as they are noted."""
        number = f"no. {self.number}" if self.number else "number not noted"
        return ", ".join(filter(None, (number, self.issuer)))


def standing(rows: Iterable[Qualification]) -> list[Qualification]:
    """Those that count."""
    return [one for one in rows if one.stands]


def holds(rows: Iterable[Qualification], kind: str, day: date) -> bool:
    """Whether any of somebody's qualifications is of that kind and holds on that day."""
    return any(one.kind == kind and one.valid_on(day) for one in rows)
