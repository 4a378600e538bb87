"""One visit of a car, the states it went through, and what was agreed."""

from uuid import UUID

from django.db import models
from django.db.models import Case, F, Q, Subquery, When

from diagnostics.physics.units import shown, with_unit
from jobs.models.base import Keyed
from jobs.models.closing import ending_words
from jobs.models.customers import Customer
from jobs.models.entries import Entry
from jobs.models.people import Person
from jobs.models.vehicles import Vehicle
from jobs.models.wordings import in_shop_time

STAGES = {
    "intake": "Intake",
    "testing": "Testing",
    "deciding": "Deciding",
    "repairing": "Repairing",
    "verifying": "Verifying",
    "closed": "Closed",
}
OPEN = [code for code in STAGES if code != "closed"]
# What was told of an earlier visit of the same car; "": nobody said it yet.
BEFORE = {
    "comeback": "The same trouble again (comeback)",
    "other_matter": "Another matter",
    "other_car": "It is not this car",
}
NEW_HERE = "new_here"  # no earlier visit is known, so nobody is asked
FAILING = {"yes": "Yes", "no": "No", "cannot_tell": "Can’t tell"}


class Job(Keyed):
    """One visit. `number` is a label given when the entry arrived; `key` is what links use.

    `follows` is the earlier visit whose trouble is back; `follows_told` is a code of BEFORE
    or NEW_HERE.
    `bay`, `key_hook`, `promised_at` and `has_it` are what was last told of them (models/places.py).
    `odometer` is as the car shows it, in whole `odometer_unit` (km or mi; empty: not told).
    """

    number = models.CharField(max_length=20)
    customer = models.ForeignKey(Customer, models.PROTECT, related_name="jobs")
    vehicle = models.ForeignKey(Vehicle, models.PROTECT, related_name="jobs")
    follows = models.ForeignKey(
        "self", models.PROTECT, null=True, blank=True, related_name="followed_by"
    )
    follows_told = models.CharField(max_length=20, blank=True)
    stage = models.CharField(max_length=20, default="intake")
    closing_kind = models.CharField(max_length=30, blank=True)
    failing_now = models.CharField(max_length=20, blank=True)
    complaint = models.TextField()
    complaint_answers = models.JSONField(default=dict)
    payer = models.CharField(max_length=40, blank=True)
    odometer = models.PositiveBigIntegerField(null=True, blank=True)
    odometer_unit = models.CharField(max_length=10, blank=True)
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="job_opened")
    opened_at = models.DateTimeField()
    bay = models.CharField(max_length=40, blank=True)
    key_hook = models.CharField(max_length=40, blank=True)
    promised_at = models.DateTimeField(null=True, blank=True)
    has_it = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="has_jobs"
    )

    class Meta:
        indexes = [models.Index(fields=["stage"], name="job_stage")]
        constraints = [
            models.UniqueConstraint(
                fields=["number"],
                name="job_number_once",
                violation_error_message="This job number is already given.",
            ),
            models.CheckConstraint(
                condition=models.Q(stage__in=list(STAGES)),
                name="job_stage_known",
                violation_error_message="This stage is not one a job can be in.",
            ),
        ]

    def __str__(self) -> str:
        return self.number

    @property
    def odometer_words(self) -> str:
        """The odometer as people read it; empty: not read."""
        return "" if self.odometer is None else shown_odometer(self.odometer, self.odometer_unit)

    @property
    def stage_words(self) -> str:
        """The stage as people say it."""
        return STAGES[self.stage]

    @property
    def closing_words(self) -> str:
        """How it was closed; empty: it is open."""
        return ending_words(self.closing_kind)

    @property
    def stands_words(self) -> str:
        """The stage in a line, and how it was closed."""
        stage, ended = self.stage_words.lower(), self.closing_words
        return f"{stage}: {ended[:1].lower()}{ended[1:]}" if ended else stage

    @property
    def complaint_line(self) -> str:
        """The first line of what the customer said."""
        return next((line.strip() for line in self.complaint.splitlines() if line.strip()), "")


def last_told(job: Job, but: UUID | None = None) -> int | None:
    """The number of the last entry that what is told of a job may rest on; `but` is left out.

    That is one of the job, of another job with the same car or customer, or of no job at all:
    people and the shop have names too.
    """
    same = Job.objects.filter(Q(vehicle=job.vehicle_id) | Q(customer=job.customer_id))
    others = Entry.objects.exclude(key=but) if but else Entry.objects.all()
    newest = others.order_by("-pk").values("pk")
    # One for each: asked together with "or", the whole logbook is read.
    found = Job.objects.filter(pk=job.pk).values_list(
        Subquery(newest.filter(job_key__in=same.values("key"))[:1]),
        Subquery(newest.filter(job_key=None)[:1]),
    )
    return max((one for one in found.get() if one is not None), default=None)


def shown_odometer(figure: int, unit: str) -> str:
    """An odometer's figure with its unit, as far as that was told."""
    figures = shown(figure, 0)
    return with_unit(figures, unit) if unit else figures


class CarState(models.Model):
    """Every entry that changes the car opens the next one and says which questions it touches.

    `number` counts them in the order in which they began, by the times at which things happened and
    not by arrival: one that arrives late moves those after it up, and a paper that was issued keeps
    the numbers it was printed with. The car as it came in, number 0, stands before everything that
    was done to it, whatever a clock says.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="car_states")
    number = models.PositiveIntegerField()
    opened_by = models.OneToOneField(Entry, models.PROTECT, related_name="car_state_opened")
    opened_at = models.DateTimeField()
    what = models.CharField(max_length=200)
    touches = models.JSONField(default=list)
    did = models.JSONField(default=list)  # what was done to the loop: codes of loop_works.DID

    class Meta:
        ordering = [
            Case(When(number=0, then=0), default=1),
            "opened_at",
            F("opened_by__sequence").asc(nulls_first=True),
            "opened_by_id",
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["job", "number"],
                name="car_state_number_once",
                violation_error_message="This car state is already open.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.number}"

    @property
    def words(self) -> str:
        """The state as people say it: the first one is the car as it came in."""
        return f"{self.what} (car state {self.number})" if self.number else "As it came in"


def states_of(job: Job) -> list[CarState]:
    """The states of a job's car in their order, read once of one job."""
    models.prefetch_related_objects([job], "car_states")
    return list(job.car_states.all())


class Consent(models.Model):
    """Who agreed to what, how, when, up to how much. The text shown is frozen with its hash.

    `amount` counts the currency's smallest unit. `withdrawn_by` is a corrected intake that tells of
    no consent any more. Never changed, only superseded.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="consents")
    number = models.PositiveIntegerField()
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="consent_given")
    amount = models.PositiveBigIntegerField()
    currency = models.CharField(max_length=3)
    given_by = models.CharField(max_length=200)
    how = models.CharField(max_length=40)
    text = models.TextField()
    text_sha256 = models.CharField(max_length=64)
    given_at = models.DateTimeField()
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )
    withdrawn_by = models.ForeignKey(
        Entry, models.PROTECT, null=True, blank=True, related_name="consents_withdrawn"
    )

    class Meta:
        ordering = ["number"]
        constraints = [
            models.UniqueConstraint(
                fields=["job", "number"],
                name="consent_number_once",
                violation_error_message="This consent is already kept.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: consent {self.number}"

    @property
    def counts(self) -> bool:
        """Whether it is still what was agreed."""
        return not (self.superseded_by_id or self.withdrawn_by_id)

    @property
    def gone(self) -> str:
        """Why it counts no more; empty: it does."""
        if self.superseded_by:
            return f"Superseded by consent no. {self.superseded_by.number}; it counts no more."
        if self.withdrawn_by:
            when = in_shop_time(self.withdrawn_by.happened_at)
            return f"Not in the corrected intake of {when}; it counts no more."
        return ""
