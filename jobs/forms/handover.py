"""The note from whoever leaves a job to whoever goes on with it, and that somebody took it over."""

import uuid
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import TOO_LONG, Line, Lines, OnJob, Tap, Taps
from jobs.logbook import Told
from jobs.models import Job, Person
from jobs.models.handovers import ANYONE, ANYONE_WORDS, ONLY_ON, STANDS
from jobs.told import HandedOver

NOTHING_TOLD = "Tap what stands now or what comes next, or say it in words."
UNKNOWN_NOTE = "This names no note that can be taken over. Open the job again."


class HandoverForm(OnJob):
    """To whom, what stands, what next: each by a tap."""

    to = Tap("To whom?", {ANYONE: ANYONE_WORDS})
    to_name = Line(80, "Or to, by name")
    stands = Taps("What stands now?", STANDS, "Tap all that the next one has to know at the car.")
    next_test = Line(40, "What comes next?")
    next_words = Line(200, "What comes next, in your words", "If it is something else.")
    said = Lines(1000, "Anything else?", "In a few words.")

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        job: Job | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, job_key=job.key if job else None, **kwargs)
        self.people = list(Person.objects.all()) if job or told else []
        names = [(str(one.key), one.name) for one in self.people]
        cast("Tap", self.fields["to"]).choices = [*names, (ANYONE, ANYONE_WORDS)]

    def fit(self, job: Job, author: Person) -> None:
        """Leave out of sight what does not fit such a car, and who cannot be the next.

        All of it is taken all the same: who left since was named in a note that was typed before.
        """
        gone = [one for one in self.people if one.pk == author.pk or not one.is_active]
        cast("Tap", self.fields["to"]).elsewhere = [str(one.key) for one in gone]
        drive = job.vehicle.system.drive
        stands = cast("Taps", self.fields["stands"])
        stands.elsewhere = [code for code, drives in ONLY_ON.items() if drive not in drives]

    def clean_next_test(self) -> str:
        """A test's name as tests are called; what it is called on screen, its own room knows."""
        name = str(self.cleaned_data["next_test"])
        if name and not name.isidentifier():
            raise ValidationError("This is no test. Tap the one shown, or say it in words.")
        return name

    def clean(self) -> dict[str, Any]:
        """Something has to be told, or the note says nothing."""
        said = super().clean()
        told = ("stands", "next_test", "next_words", "said")
        if not any(said.get(name) for name in told) and not self.errors:
            self.add_error("stands", NOTHING_TOLD)
        return said

    def handed_over(self) -> HandedOver:
        """The note as rows keep it."""
        said = self.cleaned_data
        to = said["to"]
        return HandedOver(
            to=uuid.UUID(to) if to and to != ANYONE else None,
            **{
                name: said[name]
                for name in ("to_name", "stands", "next_test", "next_words", "said")
            },
        )


class TakenOverForm(OnJob):
    """That somebody goes on where a note left off."""

    handover = forms.UUIDField(
        widget=forms.HiddenInput,
        error_messages={"required": UNKNOWN_NOTE, "invalid": UNKNOWN_NOTE, "max_length": TOO_LONG},
    )
