"""The shop's instruments and machines: what each is, how good, and when it was last checked."""

from collections.abc import Iterable
from datetime import date
from typing import Any

from django.db import models

from diagnostics.physics.quantities import QUANTITIES, Stated
from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.qualifications import day_words
from jobs.models.wordings import words

KINDS = {
    "gauge_set": "Gauge set",
    "vacuum_gauge": "Vacuum gauge",
    "scale": "Scale",
    "multimeter": "Multimeter",
    "current_clamp": "Current clamp",
    "thermometer": "Thermometer",
    "leak_detector": "Leak detector",
    "identifier": "Refrigerant identifier",
    "recovery_machine": "Recovery machine",
    "service_machine": "Service machine",
    "vacuum_pump": "Vacuum pump",
    "insulation_tester": "Insulation tester",
    "other": "Something else",
}
# What a thing of a kind reads where nobody told otherwise.
READS: dict[str, tuple[str, ...]] = {
    "gauge_set": ("pressure",),
    "vacuum_gauge": ("vacuum",),
    "scale": ("mass",),
    "multimeter": ("voltage", "current", "resistance"),
    "current_clamp": ("current",),
    "thermometer": ("temperature",),
    "leak_detector": ("leak",),
    "identifier": ("gas",),
    "recovery_machine": ("recovery",),
    "service_machine": ("pressure", "mass", "recovery"),
    "insulation_tester": ("insulation",),
}
# Classes of recovery machines by the standard on their plate, as a test step names them.
RECOVERY_CLASSES = {"older": "Older, SAE J2210", "newer": "Newer, SAE J2788"}
NOT_CHECKED = "check not noted"


class Equipment(Keyed):
    """One thing with a serial number. Its key is that of the entry that told of it first.

    `name` is what people here call it. `reads` are quantities (physics.quantities), `accuracy` is
    {quantity: {"typed", "share", "fixed"}} as its maker states it, in SI. What stood in a column
    before stands in the logbook. `pictured` is the last entry about it that came with a photo.
    """

    entry = models.OneToOneField(Entry, models.PROTECT, related_name="equipment_told")
    pictured = models.ForeignKey(Entry, models.PROTECT, null=True, blank=True, related_name="+")
    name = models.CharField(max_length=80)
    kind = models.CharField(max_length=30)
    recovery_class = models.CharField(max_length=20, blank=True)
    maker = models.CharField(max_length=80, blank=True)
    model = models.CharField(max_length=80, blank=True)
    serial = models.CharField(max_length=80, blank=True)
    made = models.CharField(max_length=40, blank=True)
    standard = models.CharField(max_length=120, blank=True)
    reads = models.JSONField(default=list)
    accuracy = models.JSONField(default=dict)
    out_of_use_since = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["kind", "name", "id"]
        verbose_name_plural = "equipment"

    def __str__(self) -> str:
        return self.name

    @property
    def kind_words(self) -> str:
        """What it is; of a recovery machine also its class."""
        known = words(KINDS, self.kind)
        if not self.recovery_class:
            return known
        return f"{known} ({words(RECOVERY_CLASSES, self.recovery_class)})"

    @property
    def plate_words(self) -> str:
        """Maker, model and serial number, as far as they are noted."""
        serial = f"serial {self.serial}" if self.serial else ""
        return ", ".join(filter(None, (" ".join(filter(None, (self.maker, self.model))), serial)))

    @property
    def accuracy_words(self) -> list[str]:
        """What it reads, each with its accuracy as stated."""
        return [f"{QUANTITIES[one].words}: {self.accuracy_of(one)}" for one in self.reads_known]

    @property
    def reads_known(self) -> list[str]:
        """The quantities that this version of the program knows."""
        return [one for one in self.reads if one in QUANTITIES]

    def accuracy_of(self, quantity: str) -> str:
        """How far off it may be in one quantity."""
        told = self.stated(quantity)
        if told:
            return told.words
        asked = QUANTITIES.get(quantity)
        return "accuracy not noted" if asked and asked.units else "named only"

    def stated(self, quantity: str) -> Stated | None:
        """The same as a number; None: not noted."""
        told: dict[str, Any] | None = self.accuracy.get(quantity)
        return Stated(told["share"], told["fixed"], told["typed"]) if told else None

    def out_of_use(self, day: date) -> bool:
        """Whether it was put aside by that day."""
        return self.out_of_use_since is not None and self.out_of_use_since <= day

    def check_on(self, day: date) -> "Check | None":
        """The last check that had been made by that day."""
        made = [one for one in self.checks.all() if one.counts and one.checked_on <= day]
        return max(made, key=lambda one: (one.checked_on, one.pk), default=None)

    def check_words(self, day: date) -> str:
        """How it stood with its check on that day."""
        last = self.check_on(day)
        return last.words(day) if last else NOT_CHECKED

    def due_words(self, day: date) -> str:
        """The same in short: until when its check holds."""
        last = self.check_on(day)
        if last and last.until and last.until >= day:
            return f"checked until {day_words(last.until)}"
        return self.check_words(day)

    def overdue_on(self, day: date) -> date | None:
        """By when it was to be checked, where that day was past; None: it was not past, or unknown.

        That no check is noted is no date that has passed.
        """
        last = self.check_on(day)
        return last.until if last and last.until and last.until < day else None


class Check(Keyed):
    """One check of one thing: on which day, and until when that holds (null: not said).

    Never changed, only superseded.
    """

    equipment = models.ForeignKey(Equipment, models.PROTECT, related_name="checks")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="check_told")
    checked_on = models.DateField()
    until = models.DateField(null=True, blank=True)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["checked_on", "id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(until=None) | models.Q(until__gte=models.F("checked_on")),
                name="check_holds_from_its_day",
                violation_error_message="A check cannot run out before it was made.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.equipment_id}: checked {self.checked_on}"

    @property
    def counts(self) -> bool:
        """Whether nothing took its place."""
        return not self.superseded_by_id

    def words(self, day: date) -> str:
        """When it was made and until when it holds, as of a day."""
        made = f"checked {day_words(self.checked_on)}"
        if self.until is None:
            return made
        if self.until < day:
            return f"was to be checked by {day_words(self.until)}"
        return f"{made}, until {day_words(self.until)}"


class TabletSet(models.Model):
    """Which instruments lie beside a tablet: their keys, as last tapped there."""

    tablet = models.UUIDField(unique=True)
    entry = models.ForeignKey(Entry, models.PROTECT, related_name="+")
    things = models.JSONField(default=list)

    def __str__(self) -> str:
        return f"tablet {self.tablet}"


def in_use(day: date) -> list[Equipment]:
    """What is in use that day, with its checks; in two queries."""
    listed = Equipment.objects.prefetch_related("checks")
    return [one for one in listed if not one.out_of_use(day)]


def beside(tablet: Any, things: Iterable[Equipment]) -> list[Equipment]:
    """Those of `things` that lie beside this tablet, in the list's order."""
    row = TabletSet.objects.filter(tablet=tablet).first() if tablet else None
    keys = set(row.things) if row else set()
    return [one for one in things if str(one.key) in keys]
