"""What is done with a cylinder itself, outside a job: bought, weighed, poured over, given away."""

from django.db import models
from django.db.models import Q

from jobs.models.amounts import Cylinder
from jobs.models.base import Keyed
from jobs.models.entries import Entry

PURCHASE, WEIGHING, TRANSFER, RECLAIM, GONE = "purchase", "weighing", "transfer", "reclaim", "gone"
CYLINDER_WORKS = {
    PURCHASE: "Bought",
    WEIGHING: "Weighed",
    TRANSFER: "From cylinder to cylinder",
    RECLAIM: "Sent for reclaim",
    GONE: "Given back or scrapped",
}
# Where a difference between scale and book comes from, as far as a person can say.
EXPLAINED = {
    "vented": "Vented when hoses were connected or taken off",
    "scale": "The scale, or the tare",
    "not_booked": "Something moved and was not booked",
    "not_explained": "Not explained",
}
# How a cylinder went: what was left in it by the book goes there.
WENT = {
    "returned": ("Given back to the supplier", "supplier"),
    "reclaimed": ("Went for reclaim with what was in it", "reclaim"),
    "scrapped": ("Scrapped, empty", "unexplained"),
}


class CylinderWork(Keyed):
    """One piece of work on a cylinder, of CYLINDER_WORKS. `key` is its entry's.

    `at` is when it happened: of a correction, when what it corrects did. `amount_mg` is what moved;
    a weighing has `gross_mg` and `tare_mg` instead. `stands_mg` is what was in it from then on, by
    scale or because it went: what the book has at that moment is brought to it, whatever arrives
    later. `told` has codes and words by field. Never changed, only superseded; `taken_back`: it was
    entered by mistake and nothing of it was.
    """

    entry = models.OneToOneField(Entry, models.PROTECT, related_name="cylinder_work")
    what = models.CharField(max_length=20)
    at = models.DateTimeField()
    cylinder = models.ForeignKey(Cylinder, models.PROTECT, related_name="works")
    to_cylinder = models.ForeignKey(
        Cylinder, models.PROTECT, null=True, blank=True, related_name="works_into"
    )
    amount_mg = models.PositiveBigIntegerField(null=True, blank=True)
    gross_mg = models.PositiveBigIntegerField(null=True, blank=True)
    tare_mg = models.PositiveBigIntegerField(null=True, blank=True)
    stands_mg = models.BigIntegerField(null=True, blank=True)
    told = models.JSONField(default=dict)
    taken_back = models.BooleanField(default=False)
    corrected_why = models.CharField(max_length=300, blank=True)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(what__in=list(CYLINDER_WORKS)),
                name="cylinder_work_known",
                violation_error_message="This work on a cylinder is not known here.",
            ),
            models.CheckConstraint(
                condition=Q(to_cylinder=None) | ~Q(to_cylinder=models.F("cylinder")),
                name="cylinder_work_between_two",
                violation_error_message="It goes from one cylinder into another.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.what} {self.cylinder_id}"

    @property
    def counts(self) -> bool:
        """Whether it stands: nothing took its place, and it was no mistake."""
        return not self.superseded_by_id and not self.taken_back

    @property
    def words(self) -> str:
        """What it was, and the code's words where somebody gave one."""
        if self.told.get("how") in WENT:
            return WENT[self.told["how"]][0]
        of_code = EXPLAINED.get(self.told.get("explained", ""), "")
        known = CYLINDER_WORKS.get(self.what, self.what)
        return f"{known} (difference: {of_code[:1].lower()}{of_code[1:]})" if of_code else known
