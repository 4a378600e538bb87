"""Each time somebody was asked: what for, who, how, when, what came of it, and up to how much."""

from collections.abc import Iterable
from datetime import datetime

from django.db import models

from jobs import money
from jobs.models.entries import Entry
from jobs.models.estimates import Estimate
from jobs.models.jobs import Job
from jobs.models.named import Named
from jobs.models.wordings import in_shop_time

FIND_FAULT, ESTIMATE, WORK = "find_fault", "estimate", "work"
AGREED, UNSIGNED, REFUSED, NOT_REACHED = "agreed", "refused_to_sign", "refused", "not_reached"
OUTCOMES = {
    AGREED: "Agreed",
    UNSIGNED: "Agreed, but refused to sign",
    REFUSED: "Refused to agree",
    NOT_REACHED: "Could not be reached",
}
YES = (AGREED, UNSIGNED)
CUSTOMER, NAMED, OTHER = "customer", "named", "other"
IN_PERSON = "in_person"
CALLED = ("phone", "message")


class Consent(models.Model):
    """One time that somebody was asked to agree, and what came of it.

    `about` is FIND_FAULT, WORK in words (`work`), or ESTIMATE: one version, which no later one
    changes. Money counts the currency's smallest unit: `amount` is the revised total up to which it
    was agreed, `added` by how much that is more than `before`, what was agreed until then as the
    page said it (null: not told). `giver` is a code: the customer, somebody `named`, or another.
    `tries` are the times (ISO 8601) at which nobody could be reached; `strokes` as in
    jobs/signature.py. `text` is what was shown, frozen with its hash, without any name, so that it
    stays whole where somebody is forgotten: who it was stands beside it. `withdrawn_by` is a
    corrected intake that tells of no consent any more. Never changed, only superseded.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="consents")
    number = models.PositiveIntegerField()
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="consent_given")
    about = models.CharField(max_length=20, default=FIND_FAULT)
    outcome = models.CharField(max_length=20, default=AGREED)
    estimate = models.ForeignKey(
        Estimate, models.PROTECT, null=True, blank=True, related_name="consents"
    )
    work = models.TextField(blank=True)
    amount = models.PositiveBigIntegerField(null=True, blank=True)
    added = models.BigIntegerField(null=True, blank=True)
    before = models.PositiveBigIntegerField(null=True, blank=True)
    currency = models.CharField(max_length=3)
    given_by = models.CharField(max_length=200)
    giver = models.CharField(max_length=20, blank=True)
    named = models.ForeignKey(Named, models.PROTECT, null=True, blank=True, related_name="consents")
    how = models.CharField(max_length=40)
    number_called = models.CharField(max_length=60, blank=True)
    tries = models.JSONField(default=list, blank=True)
    strokes = models.JSONField(default=list, blank=True)
    signed_name = models.CharField(max_length=200, blank=True)
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
            ),
            models.CheckConstraint(
                condition=~models.Q(outcome__in=YES) | models.Q(amount__isnull=False),
                name="consent_has_its_amount",
                violation_error_message="Who agrees agrees up to an amount.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: consent {self.number}"

    @property
    def stands(self) -> bool:
        """Whether it is still what was told."""
        return not (self.superseded_by_id or self.withdrawn_by_id)

    @property
    def counts(self) -> bool:
        """Whether it is still what was agreed; a refusal agrees to nothing."""
        return self.stands and self.outcome in YES

    @property
    def gone(self) -> str:
        """Why it counts no more; empty: it stands as told."""
        if self.superseded_by:
            return f"Superseded by consent no. {self.superseded_by.number}; it counts no more."
        if self.withdrawn_by:
            when = in_shop_time(self.withdrawn_by.happened_at)
            return f"Not in the corrected intake of {when}; it counts no more."
        return ""

    @property
    def about_words(self) -> str:
        """What was asked for: find the fault, estimate 2, or the work in words."""
        if self.estimate:
            return f"estimate {self.estimate.number}"
        return self.work if self.about == WORK else "find the fault"

    @property
    def about_short(self) -> str:
        """The same where the work itself stands beside it."""
        return "work in words" if self.about == WORK else self.about_words

    @property
    def amount_words(self) -> str:
        """The revised total with its currency; empty: none was told."""
        return "" if self.amount is None else money.shown(self.amount, self.currency)

    @property
    def added_words(self) -> str:
        """The added cost with its currency; empty: not told."""
        return "" if self.added is None else money.shown(self.added, self.currency)

    @property
    def tried(self) -> list[datetime]:
        """When nobody could be reached; where no time was told, when it was entered."""
        told = [datetime.fromisoformat(at) for at in self.tries]
        return told or ([self.given_at] if self.outcome == NOT_REACHED else [])

    @property
    def signed_words(self) -> str:
        """How it was signed; empty: it was not, and nobody says why."""
        if self.outcome == UNSIGNED:
            return "Refused to sign"
        if self.strokes:
            return "Signed by hand"
        return "Name typed, not drawn" if self.signed_name else ""

    @property
    def lacks(self) -> list[str]:
        """What of the seven items nobody noted, and the signature of who stood there."""
        told: dict[str, str | bool] = {"how it was given": self.how}
        if self.about != FIND_FAULT:
            told["added cost"] = "" if self.added is None else "told"
            told["number called"] = self.number_called or self.how not in CALLED
            told["signature"] = self.signed_words or self.how != IN_PERSON
        return [name for name, value in told.items() if not value]


def in_time(consents: Iterable[Consent]) -> list[Consent]:
    """Those that stand, in the order in which they were given."""
    standing = [one for one in consents if one.stands]
    return sorted(standing, key=lambda one: (one.given_at, one.number))


def agreed_to(consents: Iterable[Consent]) -> list[Consent]:
    """Those by which something is agreed now, the last to be given last.

    A refusal takes back what was said before to the same estimate; it leaves all else agreed.
    """
    found: list[Consent] = []
    for one in in_time(consents):
        if one.counts:
            found.append(one)
        elif one.outcome == REFUSED and one.estimate_id:
            found = [other for other in found if other.estimate_id != one.estimate_id]
    return found


def in_force(consents: Iterable[Consent]) -> Consent | None:
    """The one that says up to how much: the last that was given; None: nothing is agreed.

    One to find the fault does so as long as there is none to any work, whenever it was put right.
    """
    found = agreed_to(consents)
    work = [one for one in found if one.about != FIND_FAULT]
    return next(iter((work or found)[::-1]), None)


def agreed_before(last: Consent | None, currency: str) -> int | None:
    """What was agreed until then in a currency's smallest unit; None: it was in another one."""
    if last is None:
        return 0
    return last.amount or 0 if last.currency == currency else None


def making_up(consents: Iterable[Consent]) -> list[Consent]:
    """What the agreed work is made up of: the estimate last agreed to, and works in words since.

    The last of them says up to how much for all. An estimate is the whole of its job, so what was
    said in words before it is in it, or is no more.
    """
    work = to_work(consents)
    places = [place for place, one in enumerate(work) if one.about == ESTIMATE]
    return work[places[-1] :] if places else work


def to_work(consents: Iterable[Consent]) -> list[Consent]:
    """Those agreed to that are for more than to find the fault."""
    return [one for one in agreed_to(consents) if one.about != FIND_FAULT]
