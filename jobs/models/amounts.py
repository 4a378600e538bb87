"""Grams and milliliters: what they lie in, what moved from where to where, and by which work.

Nothing here is ever changed or deleted: what a place holds is the sum of its moves, and a move that
was wrong is undone by another that names it. What nobody weighed is no move; it stays unknown.
"""

from collections import Counter
from collections.abc import Iterable
from datetime import datetime

from django.db import models
from django.db.models import F, Q

from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.equipment import Equipment
from jobs.models.jobs import CarState, Job

REFRIGERANT, OIL, DYE = "refrigerant", "oil", "dye"
SUBSTANCES = {REFRIGERANT: "Refrigerant", OIL: "Oil", DYE: "Dye"}  # mg, µL, µL
CAR, CYLINDER, HOSE = "car", "cylinder", "hose"
PLACES = {
    CAR: "The car",
    CYLINDER: "Cylinder",
    HOSE: "Hoses",
    "supplier": "Bought",
    "stock": "Oil from the shelf",
    "part": "Oil in a new part",
    "waste": "Used oil",
    "reclaim": "Sent for reclaim",
    "lost": "Lost",
    "unexplained": "Not explained",
    "unnamed": "A cylinder that is not entered here",
}
CYLINDER_KINDS = {
    "refillable": "Refillable cylinder",
    "new": "New refrigerant, not refillable",
    "machine": "Tank of a service machine",
    "contaminated": "For contaminated refrigerant",
    "nitrogen": "Nitrogen",
    "tracer": "Tracer gas",
}
WORKS = {
    "recovery": "Recovery",
    "oil": "Oil",
    "evacuation": "Evacuation",
    "charge": "Charge",
    "machine_cycle": "Cycle of a service machine",
}


class Cylinder(Keyed):
    """One cylinder or tank. Its key is that of the entry that told of it first.

    One row, put right in place; what stood before stands in the logbook. `refrigerant` is its code,
    "" where any may be in it. Masses are mg, `water_capacity_ul` is µL of water, null: not told.
    """

    entry = models.OneToOneField(Entry, models.PROTECT, related_name="cylinder_told")
    name = models.CharField(max_length=80)
    kind = models.CharField(max_length=20)
    refrigerant = models.CharField(max_length=20, blank=True)
    serial = models.CharField(max_length=80, blank=True)
    tare_mg = models.PositiveBigIntegerField(null=True, blank=True)
    water_capacity_ul = models.PositiveBigIntegerField(null=True, blank=True)
    tested_until = models.DateField(null=True, blank=True)
    machine = models.ForeignKey(
        Equipment, models.PROTECT, null=True, blank=True, related_name="tanks"
    )
    gone_since = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["name", "id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(kind__in=list(CYLINDER_KINDS)),
                name="cylinder_kind_known",
                violation_error_message="This kind of cylinder is not known here.",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class Move(models.Model):
    """So much of one substance, from one place to another. Never changed, never deleted.

    `amount` is mg of refrigerant, µL of oil or dye. `gas` is the refrigerant's code or the oil's
    type, "" where nobody told. `number` tells it from others of its entry. `undoes`: this one takes
    that one back, at the moment of that one.
    """

    entry = models.ForeignKey(Entry, models.PROTECT, related_name="moves")
    number = models.PositiveSmallIntegerField()
    job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="moves")
    substance = models.CharField(max_length=20)
    gas = models.CharField(max_length=40, blank=True)
    amount = models.PositiveBigIntegerField()
    from_place = models.CharField(max_length=20)
    from_cylinder = models.ForeignKey(
        Cylinder, models.PROTECT, null=True, blank=True, related_name="moves_out"
    )
    to_place = models.CharField(max_length=20)
    to_cylinder = models.ForeignKey(
        Cylinder, models.PROTECT, null=True, blank=True, related_name="moves_in"
    )
    happened_at = models.DateTimeField()
    undoes = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="undone_by"
    )

    class Meta:
        ordering = ["happened_at", "id"]
        indexes = [models.Index(fields=["happened_at"], name="move_by_time")]
        constraints = [
            models.CheckConstraint(
                condition=Q(amount__gt=0),
                name="move_moves_something",
                violation_error_message="A move is of more than nothing.",
            ),
            models.CheckConstraint(
                condition=Q(substance__in=list(SUBSTANCES)),
                name="move_substance_known",
                violation_error_message="A move is of refrigerant, oil or dye.",
            ),
            models.CheckConstraint(
                condition=Q(from_place__in=list(PLACES), to_place__in=list(PLACES)),
                name="move_places_known",
                violation_error_message="A move is between places that are known here.",
            ),
            models.CheckConstraint(
                condition=(
                    (Q(from_place=CYLINDER) & Q(from_cylinder__isnull=False))
                    | (~Q(from_place=CYLINDER) & Q(from_cylinder__isnull=True))
                )
                & (
                    (Q(to_place=CYLINDER) & Q(to_cylinder__isnull=False))
                    | (~Q(to_place=CYLINDER) & Q(to_cylinder__isnull=True))
                ),
                name="move_names_its_cylinder",
                violation_error_message="A move out of or into a cylinder names it.",
            ),
            models.CheckConstraint(
                condition=~Q(from_place=F("to_place"))
                | (Q(from_place=CYLINDER) & ~Q(from_cylinder=F("to_cylinder"))),
                name="move_goes_somewhere",
                violation_error_message="A move goes to another place.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.amount} {self.substance}: {self.from_place} > {self.to_place}"


class LoopWork(Keyed):
    """One piece of work that moves refrigerant or oil, or takes the air out: a code of WORKS.

    `key` is its entry's. `told` has by field what its form read: {"si", "typed", "unit"} of a
    number, else the code or the words; "words" is the work in a few words, "did" and "touches" are
    what it tells of its car state, "mistake" that it was entered by mistake. `state` is the car
    state that it opened, null: none. Never changed, only superseded.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="loop_works")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="loop_work")
    what = models.CharField(max_length=20)
    state = models.ForeignKey(
        CarState, models.PROTECT, null=True, blank=True, related_name="loop_works"
    )
    told = models.JSONField(default=dict)
    corrected_why = models.CharField(max_length=300, blank=True)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["entry__done_at", "entry__happened_at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(what__in=list(WORKS)),
                name="loop_work_known",
                violation_error_message="This work on the loop is not known here.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.what}"

    @property
    def words(self) -> str:
        """What was done, in a few words: Recovery: 410 g into Cylinder 3."""
        return str(self.told.get("words") or WORKS[self.what])

    @property
    def mistake(self) -> bool:
        """Whether it corrects what did not happen at all."""
        return bool(self.told.get("mistake"))

    @property
    def corrects_nothing(self) -> bool:
        """Whether it was to take the place of work that is not in this job."""
        return bool(self.entry.corrects) and not hasattr(self, "supersedes")


def held(moves: Iterable[Move], substance: str = REFRIGERANT) -> Counter[int]:
    """What each cylinder holds by its moves: {its pk: mg or µL}, below zero where a book is off."""
    sums: Counter[int] = Counter()
    for one in moves:
        if one.substance == substance:
            if one.to_cylinder_id:
                sums[one.to_cylinder_id] += one.amount
            if one.from_cylinder_id:
                sums[one.from_cylinder_id] -= one.amount
    return sums


def total(moves: Iterable[Move], substance: str, *, out: bool) -> int:
    """So much left the car, or went into it, by these moves; mg or µL."""
    of_it = [one for one in moves if one.substance == substance]
    return sum(one.amount for one in of_it if (one.from_place if out else one.to_place) == CAR)


# Moves that count one by one: not taken back, and not what takes another back.
STANDING = Q(undoes=None, undone_by=None)


def until(moment: datetime) -> Q:
    """The moves that had happened by then."""
    return Q(happened_at__lte=moment)
