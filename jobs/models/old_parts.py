"""What is to become of the old parts, as the customer chose before they leave the bay.

What did become of each is told where it happens (taken_out.py). Asking is good
practice of the trade and a rule in some places; no rule is in here.
"""

from collections.abc import Iterable, Sequence

from django.db import models

from jobs.models.base import Keyed
from jobs.models.changes import Change, standing
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.wordings import words

RETURNED, SHOWN, SHOP, SELLER = "returned", "shown", "shop", "seller"
CHOICES = {
    RETURNED: "Give them back to the customer",
    SHOWN: "Show them, then the shop may keep them",
    SHOP: "The shop may keep them",
    SELLER: "They go back to the seller: core price or warranty",
}
# Where a part cannot have gone (taken_out.WENT) if the choice was kept. What was shown to whom
# nobody told, so nothing goes against that.
AGAINST = {
    RETURNED: ("core", "seller", "disposed"),
    SELLER: ("customer", "disposed"),
}
NOT_ASKED = "What becomes of the old parts: ask the customer before they leave the bay"


class OldPartChoice(Keyed):
    """One answer. `key` is that of its entry, an own one or a consent's.

    `choice` is a code of CHOICES, `where` the customer's wish in words where it is not the same for
    all parts. Never changed, only superseded; of several the last to happen counts.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="old_part_choices")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="old_part_chosen")
    choice = models.CharField(max_length=20)
    how = models.CharField(max_length=40, blank=True)
    where = models.CharField(max_length=300, blank=True)
    chosen_at = models.DateTimeField()
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["chosen_at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(choice__in=list(CHOICES)),
                name="old_part_choice_known",
                violation_error_message="This is no way to deal with an old part.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.choice}"

    @property
    def words(self) -> str:
        """The choice as people say it, with what was said beside it."""
        return ". ".join(text for text in (words(CHOICES, self.choice), self.where) if text)


def goes_against(one: OldPartChoice | None, went: str) -> bool:
    """Whether a part went where the customer had not chosen; a wish in words is not judged."""
    return one is not None and not one.where and went in AGAINST.get(one.choice, ())


def chosen(rows: Iterable[OldPartChoice]) -> OldPartChoice | None:
    """What counts now: the last to happen of those that stand; None: nobody asked yet."""
    standing_now = [one for one in rows if not one.superseded_by_id]
    return max(standing_now, key=lambda one: (one.chosen_at, one.pk), default=None)


def is_to_be_asked(changes: Iterable[Change], rows: Sequence[OldPartChoice]) -> bool:
    """Whether a part came in, so that an old one came out, and nobody asked what becomes of it."""
    return chosen(rows) is None and any(one.what == "fitted" for one in standing(changes))
