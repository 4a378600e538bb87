"""Since when this database has told tablets what it has, without a step back."""

from django.db import models

from jobs.models.base import Keyed


class Epoch(Keyed):
    """A time in which what was acknowledged to a tablet is in the database.

    A restored backup is older than what tablets were told, so a new epoch begins with it; a tablet
    that sees another `key` than before offers again what it has had acknowledged. `why` is a
    sentence for a person.
    """

    began_at = models.DateTimeField()
    why = models.CharField(max_length=300)

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.key}: {self.why}"


def current() -> Epoch | None:
    """The epoch that holds now; None in a database that no migration has filled."""
    return Epoch.objects.last()
