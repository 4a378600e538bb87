"""What is asked at a consent beyond its amount: what for, what came of it, who, how, signed."""

import re
from collections.abc import Iterable
from datetime import datetime, time, timedelta
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.functional import cached_property

from jobs.forms.fields import Line, Lines, OnJob, Tap, Typed, Why
from jobs.forms.when import happened
from jobs.models import Estimate, Job, Named
from jobs.models.agreed_texts import WORK_NOW, WORK_TEXTS
from jobs.models.consents import CUSTOMER, FIND_FAULT, NAMED, NOT_REACHED, OTHER, OUTCOMES, WORK
from jobs.models.estimates import in_force
from jobs.models.named import ended_by, who_may
from jobs.models.old_parts import CHOICES
from jobs.money import MINOR_MAX
from jobs.signature import NotASignature, Strokes, is_a_dot, read
from jobs.told import as_key

ABOUT = {FIND_FAULT: "Find the fault", WORK: "Other work, in words"}
WHO = {CUSTOMER: "The customer", OTHER: "Somebody else"}
NO_TIME = "Type times as 9:10, several parted by commas."
TRIES_MAX = 20
A_DOT = "That is a dot. Let the name be drawn, or tap that signing was refused."
SIGN = "Let it be signed here, type the name, or tap that signing was refused."
NO_SUCH_PERSON = "Nobody of that name is noted on this job. Tap who it was."
WHICH_WORK = "Say which work, or tap the estimate."
CLOCK = re.compile(r"([01]?\d|2[0-3])[:.h]([0-5]\d)")


class AboutTap(Tap):
    """What it is about: the fault, work in words, or one version of the estimate by its key."""

    def valid_value(self, value: Any) -> bool:
        """An answer of the list, or a version that another page showed."""
        return super().valid_value(value) or as_key(value) is not None


class WhoTap(Tap):
    """Who was asked: the customer, somebody named by key, or another."""

    def valid_value(self, value: Any) -> bool:
        """An answer of the list, or somebody named on another page."""
        return super().valid_value(value) or as_key(value) is not None


class AskedPart(OnJob):
    """The questions of a consent that is given after intake; what is not asked stays empty."""

    consent_about = AboutTap("What is it about?", ABOUT)
    consent_outcome = Tap("What came of it?", OUTCOMES)
    work = Lines(2000, "Which work?", "As it was said to the customer. Stands on the record.")
    consent_added = Typed("Added cost", "More than was agreed before. Tax included.")
    consent_amount_why = Why()
    consent_who = WhoTap("Who was asked?", WHO)
    number_called = Line(60, "Number called, or written to", "Stands on the record.")
    tried_at = Line(200, "Tried at", "Left empty: just now. Several with commas: 9:10, 9:40.")
    signature = forms.CharField(label="Signature", required=False, widget=forms.HiddenInput)
    signed_name = Line(200, "Or the name typed", "For whoever signs on paper. Marked “not drawn”.")
    old_parts = Tap("What becomes of the old parts?", CHOICES, "Asked before they leave the bay.")
    # What the page showed as agreed before, and that it asked for outcome and signature.
    consent_before = forms.IntegerField(
        required=False, min_value=0, max_value=MINOR_MAX, widget=forms.HiddenInput
    )
    consent_asked = forms.CharField(required=False, max_length=1, widget=forms.HiddenInput)
    work_text = forms.ChoiceField(
        choices=[(code, code) for code in WORK_TEXTS],
        widget=forms.HiddenInput,
        initial=WORK_NOW,
        required=False,
    )

    estimate: Estimate | None = None
    named: Named | None = None
    strokes: Strokes
    tries: list[datetime]

    def offers(self, estimates: Iterable[Estimate], named: Iterable[Named]) -> None:
        """Put the version in force and the persons named among the answers."""
        newest = in_force(estimates)
        if newest and newest.total is not None:
            told = f"{newest.words}: {newest.total_words}"
            self.fields["consent_about"].choices = [  # type: ignore[attr-defined]
                (str(newest.key), told),
                *((WORK, ABOUT[WORK]), (FIND_FAULT, ABOUT[FIND_FAULT])),
            ]
        people = [(str(one.key), one.words) for one in who_may(named)]
        if people:
            self.fields["consent_who"].choices = [  # type: ignore[attr-defined]
                (CUSTOMER, WHO[CUSTOMER]),
                *people,
                (OTHER, WHO[OTHER]),
            ]

    @cached_property
    def job(self) -> Job | None:
        """The job that it is about."""
        rows = Job.objects.select_related("customer")
        return rows.filter(key=self.job_key).first() if self.job_key else None

    def read_about(self, said: dict[str, Any]) -> str:
        """What it is about; of an estimate its version is looked up."""
        told = said.get("consent_about") or FIND_FAULT
        key = as_key(told)
        if key is None:
            return told
        rows = Estimate.objects.filter(job=self.job, key=key)
        self.estimate = rows.exclude(total=None).first()
        if self.estimate is None:
            self.add_error("consent_about", "The shop server has no such estimate of this job.")
        return "estimate"

    def read_who(self, said: dict[str, Any]) -> tuple[str, str]:
        """The code of who was asked, and their name; empty: the customer's."""
        told, typed = said.get("consent_who") or "", said.get("consent_by") or ""
        key = as_key(told)
        self.named = Named.objects.filter(job=self.job, key=key).first() if key else None
        if self.named and ended_by(self.named, happened(self.entry_told)):
            name, self.named = self.named.name, None
            return OTHER, name
        if self.named:
            return NAMED, self.named.name
        if key:
            self.add_error("consent_who", NO_SUCH_PERSON)
        if told == OTHER and not typed and said.get("consent_outcome") != NOT_REACHED:
            self.add_error("consent_by", "Who? Type the name.")
        if told == CUSTOMER or not typed:
            return CUSTOMER, ""
        return self.known_name(typed)

    def known_name(self, typed: str) -> tuple[str, str]:
        """A name that was typed: that of the customer, or another's."""
        same = self.job and typed.casefold() == self.job.customer.name.casefold()
        return (CUSTOMER if same else OTHER), typed

    def read_signature(self, said: dict[str, Any]) -> None:
        """The strokes that were drawn; a dot is asked about."""
        self.strokes = []
        try:
            strokes = read(said.get("signature") or "")
        except NotASignature as wrong:
            self.add_error("signature", str(wrong))
            return
        if is_a_dot(strokes):
            self.add_error("signature", A_DOT)
            return
        self.strokes = strokes

    def read_tries(self, said: dict[str, Any]) -> None:
        """The times at which nobody could be reached: the last of each before now."""
        self.tries = []
        base = timezone.localtime(happened(self.entry_told))
        parts = [one.strip() for one in (said.get("tried_at") or "").split(",") if one.strip()]
        found = [CLOCK.fullmatch(one) for one in parts]
        if len(parts) > TRIES_MAX or not all(found):
            self.add_error("tried_at", NO_TIME)
            return
        for one in filter(None, found):
            on = datetime.combine(base.date(), time(int(one[1]), int(one[2])))
            at = timezone.make_aware(on)
            self.tries.append(at if at <= base else at - timedelta(days=1))
