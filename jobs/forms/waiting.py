"""What a car waits for, and that it does so no longer."""

from typing import Any

from django.utils.datastructures import MultiValueDict

from jobs.forms.day import Day
from jobs.forms.fields import Line, OnJob, Tap
from jobs.forms.place import NamesPeople, PersonTap
from jobs.forms.when import DAYS, Clock, day_told, happened, hours, moment_told, time_told
from jobs.logbook import Told
from jobs.models.waiting import BY_ITSELF, PAUSE_MINUTES, WHATS
from jobs.told import Waited

MINUTES = {
    "10": "10 minutes",
    "15": "15 minutes",
    "30": "30 minutes",
    "45": "45 minutes",
    "60": "1 hour",
    "120": "2 hours",
}
MINUTES_MAX = 7 * 24 * 60
HOW_LONG = "How long? Tap the minutes, or type them."
HOW_LONG_OR_UNTIL = "How long, or until when? Tap one of them."
NO_MINUTES = "Type whole minutes, such as 25."
TOO_MANY = "That is more than a week: tell the day and the time instead."
WHO = "Who? Tap a name, or say it in words."
# Without these words nobody knows what is waited for.
NEEDS_WORDS = {
    "part": "Which part?",
    "sublet": "Which work, and where was it sent?",
    "other": "What does it wait for?",
}
WITH_TIME = ("soak", "timer")  # by minutes or until a time; the others that run have minutes only


class WaitingForm(NamesPeople):
    """One thing that it waits for; several at once are several entries."""

    what = Tap("What does it wait for?", WHATS, required=True)
    words = Line(120, "Which, where, who?", "In a few words, such as the part’s name.")
    person = PersonTap("Who?", {})
    minutes = Tap("How long?", MINUTES)
    minutes_typed = Line(10, "Other minutes", "Counts instead of a tap.")
    due_day = Tap("Until, or expected", DAYS)
    due_hour = hours("At", "Without a day: the next time the clock shows this.")
    due_date = Day("Another day", "Counts instead of a tap.")
    due_time = Clock("Another time", "Counts instead of a tap.")

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        self.fields["person"].choices = self.people()  # type: ignore[attr-defined]
        self.fields["minutes_typed"].widget.attrs["inputmode"] = "numeric"

    def clean(self) -> dict[str, Any]:
        """Held to what this kind of waiting needs; what it does not ask for is not looked at."""
        said = super().clean()
        what = said.get("what", "")
        self.told = Waited(what)
        if what in BY_ITSELF:
            self.told = self.runs(what, said)
        elif what:
            self.told = self.waits(what, said)
        return said

    def runs(self, what: str, said: dict[str, Any]) -> Waited:
        """What runs by itself: its minutes, or its end."""
        minutes = self.read_minutes(said)
        base = happened(self.entry_told)
        at = time_told(said, "due") if what in WITH_TIME else None
        if minutes is None and what == "pause":
            minutes = PAUSE_MINUTES
        words = said.get("words", "") if what == "timer" else ""
        if minutes is None and at is None and not self.errors:
            self.add_error("minutes", HOW_LONG_OR_UNTIL if what in WITH_TIME else HOW_LONG)
        if minutes is not None or at is None:
            return Waited(what, words, minutes=minutes)
        return Waited(what, words, until=moment_told(day_told(said, "due", base), at, base))

    def waits(self, what: str, said: dict[str, Any]) -> Waited:
        """What waits for someone: in words or by name, with a day or a time where one was told."""
        words = said.get("words", "")
        person = said.get("person", "") if what == "person" else ""
        if what in NEEDS_WORDS and not words and "words" not in self.errors:
            self.add_error("words", NEEDS_WORDS[what])
        if what == "person" and not (person or words) and not self.errors:
            self.add_error("person", WHO)
        base = happened(self.entry_told)
        day, at = day_told(said, "due", base), time_told(said, "due")
        until = moment_told(day, at, base) if at else None
        return Waited(what, words, person, until=until, due_on=None if at else day)

    def read_minutes(self, said: dict[str, Any]) -> int | None:
        """Whole minutes, typed before tapped."""
        typed = said.get("minutes_typed", "")
        if not typed:
            tapped = said.get("minutes")
            return int(tapped) if tapped else None
        if not (typed.isascii() and typed.isdigit() and int(typed)):
            self.add_error("minutes_typed", NO_MINUTES)
            return None
        if int(typed) > MINUTES_MAX:
            self.add_error("minutes_typed", TOO_MANY)
            return None
        return int(typed)


class WaitingEndForm(OnJob):
    """That one is waited for no longer, named by the key of its entry.

    One that is not here is no mistake of who tapped: it may have been ended elsewhere.
    """

    waiting = Line(36, "What is over", required=True)
