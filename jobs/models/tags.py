"""A tag at the car, "A/C must not be run", for a reason that a person gave."""

from django.db import models

from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.wordings import words

# Short enough to be read from two meters; common practice, no source.
REASONS = {
    "loop_open": "The loop is open",
    "no_refrigerant": "No refrigerant in it",
    "vacuum": "Under vacuum",
    "nitrogen": "Nitrogen in it",
    "no_oil": "Oil not in",
    "no_drier": "Drier not fitted",
    "locked": "Compressor locked or rough",
    "belt_off": "Belt off or bypassed",
    "unknown_gas": "Gas not known",
    "high_voltage": "Work at high voltage",
    "unplugged": "Unplugged on purpose",
    "hands_in": "Somebody works on it",
}


class Tag(Keyed):
    """Why a car's A/C must not be run, as somebody said it. Never changed.

    What the tests say of it is worked out when the tag is printed, and stands in no row.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="tags")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="tag_told")
    reasons = models.JSONField(default=list)
    words = models.CharField(max_length=120, blank=True)
    before = models.CharField(max_length=120, blank=True)

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.job_id}: {', '.join(self.sentences)}"

    @property
    def sentences(self) -> list[str]:
        """The reasons as they are printed."""
        return [
            text for text in (*(words(REASONS, one) for one in self.reasons), self.words) if text
        ]
