"""Estimates: numbered versions of one job, none of which takes away what another said."""

from collections.abc import Iterable

from django.db import models

from jobs.models.priced import Priced, adds_up


class Estimate(Priced):
    """What a repair was said to cost. `number` counts the versions of one job as they arrived.

    `plan` are the codes of the repairs it was made from, `decision` the key of the decision that
    chose them, null: none. `before` is the version it was written on, null: it is the first, or was
    begun anew. `changed` has what changed against the version before by number, in sentences.
    The one that no other supersedes is in force; superseded ones stay as they were. A consent is to
    one of them, by its key, and to none without a total.
    """

    number = models.PositiveIntegerField()
    plan = models.CharField(max_length=200, blank=True)
    decision = models.UUIDField(null=True, blank=True)
    before = models.ForeignKey(
        "self", models.PROTECT, null=True, blank=True, related_name="written_on"
    )
    changed = models.JSONField(default=list)

    class Meta:
        ordering = ["job", "number"]
        constraints = [
            models.UniqueConstraint(
                fields=["job", "number"],
                name="estimate_number_once",
                violation_error_message="This job already has an estimate of that number.",
            ),
            adds_up("estimate_adds_up"),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.words}"

    @property
    def words(self) -> str:
        """Estimate 2."""
        return f"Estimate {self.number}"

    @property
    def may_be_agreed(self) -> bool:
        """Whether somebody can say yes to it: it has a total and no later one took its place."""
        return self.total is not None and self.counts

    @property
    def skipped(self) -> bool:
        """Whether it was written on an older version while another had come."""
        return self.number > 1 and (self.before is None or self.before.number != self.before_number)

    @property
    def before_number(self) -> int:
        """The number of the version before it."""
        return self.number - 1


def in_force(estimates: Iterable[Estimate]) -> Estimate | None:
    """The one that no later one superseded."""
    return next((one for one in estimates if one.counts), None)
