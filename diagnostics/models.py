"""The tables of why it does not cool: test steps, and what an owner decided against the order."""

from datetime import datetime
from uuid import UUID

from django.db import models
from django.utils.dateformat import format as date_words

from jobs.ledger import shown_mass
from jobs.models import Entry, Equipment, Job
from jobs.models.base import Keyed
from jobs.models.said import kept_as_typed
from jobs.models.wordings import in_shop_time

TOLD = "{told}"
CAPS = {"on": "Both on", "missing": "One is missing", "no_reach": "Out of reach"}
LABELS = {
    "updated": "Filled in and put on",
    "stands": "The one there is still right",
    "none": "None was put on",
}
# Marks of what was told beside what a kind reads: a step that has one is not empty.
ODDLY_TOLD = ("unknown_field", "told_twice")


class Step(Keyed):
    """One test made once, or the note that it could not be made. Never changed, only superseded.

    `key` is its entry's, `made_at` its `done_at`: of a correction, when the test was made that it
    puts right. `readings` is {name: {"si", "typed", "unit"} or the code of an answer},
    `kept` {name: why an odd value stays}, `marks` [{"field", "code", "sentence", "told", "why"}]
    what was odd or against an order when it was recorded; the sentence has TOLD where `told`, as it
    was typed, is put in when it is shown. `not_done` is a code of its kind; readings taken
    before may stand beside it. How the car stood then is told by the times of what else was entered
    (as_it_stood.py), not kept here: a tablet may bring it hours after the step.
    `corrected_why` says what was wrong with the step this one corrects, empty: no reason given.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="steps")
    number = models.PositiveIntegerField()
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="step_made")
    kind = models.CharField(max_length=40)
    kind_version = models.PositiveSmallIntegerField()
    made_at = models.DateTimeField()
    readings = models.JSONField(default=dict)
    kept = models.JSONField(default=dict)
    marks = models.JSONField(default=list)
    seen = models.TextField(blank=True)
    not_done = models.CharField(max_length=40, blank=True)
    not_done_words = models.CharField(max_length=300, blank=True)
    corrected_why = models.CharField(max_length=300, blank=True)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    # Read with the row by as_it_stood.py: the switch, empty when nobody had told, and the
    # number of the car state; how many photos came with its entry, and the key of the last discard
    # that names it.
    failing_then: str
    state_then: int
    photo_count: int
    thrown_away: UUID | None
    # Whether its author held the qualification that such a test needs, by the day it was made;
    # true where it needs none.
    qualified_then: bool

    class Meta:
        ordering = ["job", "number"]
        constraints = [
            models.UniqueConstraint(
                fields=["job", "number"],
                name="step_number_once",
                violation_error_message="This job already has a step of that number.",
            ),
            models.CheckConstraint(
                condition=~models.Q(kind=""),
                name="step_has_a_kind",
                violation_error_message="A step is of a kind.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: step {self.number}"

    @property
    def marks_said(self) -> list[dict[str, str]]:
        """Its marks, each with the whole `sentence`: what was told, and why it stays."""
        return [
            {
                **mark,
                "sentence": kept_as_typed(
                    mark["sentence"].replace(TOLD, mark.get("told", "")), mark["why"]
                ),
            }
            for mark in self.marks
        ]


class Override(models.Model):
    """An owner who lets a job go against an order, with the reason that prints.

    `order` is its code. It opens that order where nobody looked yet, never against what was found,
    until a test shuts it, the car is changed in what the order looks at, or the job is closed.
    Never changed, never deleted. `job_closed_at` is read with it (overridden.py).
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="overrides")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="override_given")
    order = models.CharField(max_length=40)
    reason = models.CharField(max_length=300)
    given_at = models.DateTimeField()

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.order}"

    @property
    def ended_at(self) -> datetime | None:
        """When its job was closed since; None: it was not."""
        ended: datetime | None = self.__dict__.get("job_closed_at")
        return ended

    @property
    def said(self) -> str:
        """By whom, when and why."""
        return by_owner("Overridden", self.entry, self.reason)


class Waiver(models.Model):
    """An owner who waives an open point, with the reason that prints. It is no pass.

    `code` and `about` tell the point; where the job has none such any more it bears on nothing.
    `point` is what the point said, without what tells a person. Never changed, never deleted.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="waivers")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="waiver_given")
    code = models.CharField(max_length=60)
    about = models.CharField(max_length=200)
    point = models.TextField()
    reason = models.CharField(max_length=300)
    given_at = models.DateTimeField()

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.code}"

    @property
    def said(self) -> str:
        """By whom, when and why."""
        return by_owner("Waived", self.entry, self.reason)


def by_owner(what: str, entry: Entry, reason: str) -> str:
    """Waived by T. Okafor-Lindqvist, 30 Nov 2026, 14:10: the reason."""
    return f"{what} by {entry.author.name}, {in_shop_time(entry.happened_at)}: {reason}"


class Named(models.Model):
    """Which of the shop's instruments a step was read with, for one quantity.

    `quantity` is a code of physics.quantities; one that is not listed stays as told.
    """

    step = models.ForeignKey(Step, models.PROTECT, related_name="named")
    quantity = models.CharField(max_length=20)
    equipment = models.ForeignKey(Equipment, models.PROTECT, related_name="named_by")

    class Meta:
        ordering = ["id"]
        constraints = [
            models.UniqueConstraint(
                fields=["step", "quantity"],
                name="instrument_named_once",
                violation_error_message="This step already names an instrument for that.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.step_id}: {self.quantity}"


class PricesTyped(Keyed):
    """What was typed of prices, hours and terms for one job. Never changed, only superseded.

    `key` is its entry's. `values` has by field what this entry told and nothing else, null: it was
    taken back. Which value holds is told by the times of all that stand (price_sheet.py). Money
    counts the smallest unit of `currency`, hours are whole minutes, amounts mg and µL.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="prices_typed")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="prices_told")
    currency = models.CharField(max_length=3)
    values = models.JSONField(default=dict)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["id"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(currency=""),
                name="prices_typed_in_a_currency",
                violation_error_message="Prices are typed in a currency.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {len(self.values)} typed"


class Decision(Keyed):
    """Which way to repair was chosen, and what it rested on as it stood then.

    `key` is its entry's. `plan` has the codes of its repairs joined by +, OTHER_WAY: another than
    was offered. `reasons` are codes, `offered` the plans as they were offered with their prices,
    `rested_on` the words of the verdict; both are frozen, `saw` is the number of the job's entries
    that they rest on, `page_saw` that of the page on which it was decided, null: a kept page did
    not tell. It is no consent.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="decisions")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="decision_made")
    plan = models.CharField(max_length=200)
    words = models.CharField(max_length=500)
    decided_by = models.CharField(max_length=20)
    told_how = models.CharField(max_length=20, blank=True)
    reasons = models.JSONField(default=list)
    why = models.TextField(blank=True)
    offered = models.JSONField(default=list)
    rested_on = models.JSONField(default=list)
    saw = models.PositiveIntegerField()
    page_saw = models.PositiveIntegerField(null=True, blank=True)
    corrected_why = models.CharField(max_length=300, blank=True)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["id"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(plan=""),
                name="decision_has_a_plan",
                violation_error_message="A decision says what was chosen.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.words}"


class Verified(Keyed):
    """Caps and service label as they were seen after the work. Never changed, only superseded.

    `key` is its entry's. `caps` and `label` are codes of CAPS and LABELS, empty: not told by this
    one. What stands on the label is kept as typed; `label_mg` is null where it was not told or
    cannot be.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="verified")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="verified_told")
    caps = models.CharField(max_length=20, blank=True)
    label = models.CharField(max_length=20, blank=True)
    label_refrigerant = models.CharField(max_length=60, blank=True)
    label_mg = models.BigIntegerField(null=True, blank=True)
    label_unit = models.CharField(max_length=10, blank=True)
    label_oil = models.CharField(max_length=100, blank=True)
    label_on = models.DateField(null=True, blank=True)
    corrected_why = models.CharField(max_length=300, blank=True)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["id"]
        verbose_name_plural = "verified"

    def __str__(self) -> str:
        return f"{self.job_id}: {self.caps or '-'}, {self.label or '-'}"

    @property
    def words(self) -> str:
        """What was told, in a line."""
        label = LABELS.get(self.label, self.label)
        told = (("caps", CAPS.get(self.caps, self.caps)), ("label", label), ("", self.label_said))
        return "; ".join(f"{name}: {said}".lstrip(": ") for name, said in told if said)

    @property
    def label_lacks(self) -> list[str]:
        """What a service label has and was not told, in words."""
        told = {
            "refrigerant": self.label_refrigerant,
            "grams": self.label_mg is not None,
            "oil": self.label_oil,
            "day": self.label_on,
        }
        return [words for words, there in told.items() if not there]

    @property
    def label_said(self) -> str:
        """What stands on the label, in a line; empty: nothing of it was told."""
        mass = "" if self.label_mg is None else shown_mass(self.label_mg, self.label_unit or "g")
        day = date_words(self.label_on, "j M Y") if self.label_on else ""
        return ", ".join(filter(None, (self.label_refrigerant, mass, self.label_oil, day)))
