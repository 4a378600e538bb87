"""Where the car is, where its key hangs, when it is promised, who has it."""

from typing import Any, cast

from django.utils.datastructures import MultiValueDict

from jobs.forms.day import Day
from jobs.forms.fields import DASH, Line, OnJob, Tap, Taps, is_dash
from jobs.forms.when import DAYS, Clock, day_told, happened, hours, moment_told, time_told
from jobs.logbook import Told
from jobs.models import Person
from jobs.models.places import WORD_LENGTH, bay_words, bays_in_use, people_here
from jobs.told import as_key

ME = "me"
NOTHING_TOLD = "Nothing is told yet: tap or type what is new."
WHAT_TIME = "At what time? Tap one, or type it."


class BayTap(Tap):
    """One of the bays in use; another tablet may have known more of them."""

    def valid_value(self, value: Any) -> bool:
        """Any short word."""
        return len(str(value)) <= WORD_LENGTH


class PersonTap(Tap):
    """A person of the shop, also one who left since."""

    def valid_value(self, value: Any) -> bool:
        """An answer of the list, or anybody's key."""
        if super().valid_value(value):
            return True
        key = as_key(value)
        return key is not None and Person.objects.filter(key=key).exists()


class NamesPeople(OnJob):
    """A form with people as taps once it is about a job; the page that a tablet keeps has none."""

    def people(self) -> list[tuple[str, str]]:
        """Key and name of each."""
        return [(str(one.key), one.name) for one in people_here()] if self.job_key else []


class PlaceForm(NamesPeople):
    """Each part by itself; what is left empty stays as it is."""

    bay = BayTap("Where is it?", {})
    bay_words = Line(WORD_LENGTH, "Another place", "Yard, wash, a bay not listed.")
    key_hook = Line(WORD_LENGTH, "Key hook", "Where its key hangs.")
    takes_out = Taps("Not there any more", {"bay": "In no bay or place", "key_hook": "On no hook"})
    promised_day = Tap("Promised for", {**DAYS, DASH: "Nothing promised"})
    promised_hour = hours("At", "Without a day: the next time the clock shows this.")
    promised_date = Day("Another day", "Counts instead of a tap.")
    promised_time = Clock("Another time", "Counts instead of a tap.")
    has_it = PersonTap("Who has it?", {})

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        bays = [(bay, bay_words(bay)) for bay in bays_in_use()]
        self.fields["bay"].choices = bays  # type: ignore[attr-defined]
        answers = [(ME, "I have it"), *self.people(), (DASH, "Nobody")]
        self.fields["has_it"].choices = answers  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """Something must be told, and a promise has its time."""
        said = super().clean()
        self.told: dict[str, str] = {}
        bay = said.get("bay_words") or said.get("bay")
        for name, text in (("bay", bay), ("key_hook", said.get("key_hook"))):
            if text:
                self.told[name] = "" if is_dash(text) else text
        for name in said.get("takes_out") or ():
            self.told.setdefault(name, "")
        if said.get("has_it"):
            self.told["has_it"] = self.who(said["has_it"])
        self.read_promise(said)
        if not self.told and not self.errors:
            self.add_error("bay", NOTHING_TOLD)
        return said

    def fit(self, author: Person) -> None:
        """Leave out the name of who types it, who taps “I have it”; it is taken all the same."""
        cast("Tap", self.fields["has_it"]).elsewhere = [str(author.key)]

    def who(self, tapped: str) -> str:
        """The key of who has it; empty: nobody."""
        if tapped == ME and self.entry_told:
            return str(self.entry_told.author.key)
        return "" if tapped == DASH else tapped

    def read_promise(self, said: dict[str, Any]) -> None:
        """The promised moment, or that nothing is promised any more."""
        base = happened(self.entry_told)
        day, at = day_told(said, "promised", base), time_told(said, "promised")
        if at:
            self.told["promised_at"] = moment_told(day, at, base).isoformat()
        elif day:
            self.add_error("promised_hour", WHAT_TIME)
        elif said.get("promised_day") == DASH:
            self.told["promised_at"] = ""
