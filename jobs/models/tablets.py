"""The shop's tablets, as the shop server knows them: each browser in which somebody signed in."""

from django.db import models
from django.db.models.functions import Lower

from jobs.models.base import Keyed
from jobs.models.people import Person


class Tablet(Keyed):
    """One browser that may send what is typed in it, by the key in its cookie.

    Contacts are bookkeeping, not entries. `last_contact` is when it last asked; what it told of
    itself then stands with its time `told_at`: how many entries it had not sent, with how many
    photos, how many of them waited for a person, since when the oldest was kept, all it keeps in
    bytes by its own count, the version of its script, and whether its browser promised to throw
    nothing away. Each is None or empty where it was never told. `px_per_mm` was chosen on it.
    A revoked one sends nothing, and no PIN works in it.
    """

    name = models.CharField(max_length=60, blank=True)
    named_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="tablets_named"
    )
    named_at = models.DateTimeField(null=True, blank=True)
    last_contact = models.DateTimeField(null=True, blank=True)
    told_at = models.DateTimeField(null=True, blank=True)
    unsent = models.PositiveIntegerField(null=True, blank=True)
    photos = models.PositiveIntegerField(null=True, blank=True)
    waiting = models.PositiveIntegerField(null=True, blank=True)
    oldest_at = models.DateTimeField(null=True, blank=True)
    kept_bytes = models.PositiveBigIntegerField(null=True, blank=True)
    version = models.CharField(max_length=40, blank=True)
    persisted = models.BooleanField(null=True, blank=True)
    px_per_mm = models.DecimalField(max_digits=3, decimal_places=1, null=True, blank=True)
    browser = models.CharField(max_length=60, blank=True)
    pins = models.BooleanField(default=False)
    revoked_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="tablets_revoked"
    )
    revoked_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                Lower("name"),
                condition=~models.Q(name=""),
                name="tablet_name_once",
                violation_error_message="Another tablet has that name.",
            ),
            models.CheckConstraint(
                condition=models.Q(revoked_by=None, revoked_at=None)
                | models.Q(revoked_by__isnull=False, revoked_at__isnull=False),
                name="tablet_revoked_by_somebody",
                violation_error_message="Who revoked a tablet is kept with when.",
            ),
            models.CheckConstraint(
                condition=models.Q(unsent=None)
                | models.Q(
                    photos__isnull=False,
                    kept_bytes__isnull=False,
                    told_at__isnull=False,
                    waiting__lte=models.F("unsent"),
                ),
                name="tablet_told_whole",
                violation_error_message="What a tablet tells of itself, it tells whole.",
            ),
        ]

    def __str__(self) -> str:
        return self.words

    @property
    def words(self) -> str:
        """Its name; one without a name by what its browser is, and the beginning of its key."""
        return self.name or f"{self.browser or 'Tablet'}, no name yet ({str(self.key)[:4]})"
