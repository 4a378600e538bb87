"""What the forms that move refrigerant share: which cylinder, how many grams, by which scale."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from functools import cached_property
from typing import Any

from django.db.models import Q
from django.utils import timezone
from django.utils.datastructures import MultiValueDict

from diagnostics.physics.refrigerants import REFRIGERANTS
from diagnostics.physics.shown_units import ShownIn
from jobs import ledger
from jobs.cylinder_limits import Held
from jobs.forms.cylinder_asked import IsDone
from jobs.forms.fields import Line, Lines, Tap, WhatWasWrong, WhyAsked
from jobs.forms.parts import CHARGE_HIGH_MG, CHARGE_LOW_MG
from jobs.forms.quantity import Quantity, WithQuantities
from jobs.forms.when import happened
from jobs.logbook import Told
from jobs.models import Cylinder, Job, LoopWork
from jobs.models.amounts import CYLINDER, CYLINDER_KINDS
from jobs.models.cylinders import held_by
from jobs.models.loop_works import touched_by, works_of
from jobs.models.shop import units_chosen
from jobs.models.vehicles import BRANCHES, System
from jobs.models.wordings import words
from jobs.told import LoopWorked, Moved, as_key

UNNAMED = "unnamed"
UNNAMED_WORDS = "One that is not listed"
NO_SUCH_CYLINDER = "The shop server has no such cylinder. Tap one that is listed."
MASSES, SCALES = ("g", "oz", "kg", "lb"), ("kg", "lb", "g", "oz")
VOLUMES = ("mL", "fl oz")
PRESSURES, TEMPERATURES = ("kPa", "psi", "bar"), ("°C", "°F")
GRAMS = ((0, 3000), (0, 20_000))  # what a car holds, and what none does; as recovered_share asks
MISTAKE = "Entered by mistake: it did not happen"
GRAMS_NEVER = 20_000_000  # mg
# Of this reading and of the weighing that the book begins with; our judgement.
SCALE_OFF_MG = 2 * ledger.CHARGE_TOLERANCE_MG
NOTHING_TOLD = "Type the grams, or say below what was done: an empty form tells nothing."
NO_CARS = " (cars hold 150 to 3000 g: look at the label again before anything is charged by it)"
NOT_TYPED = ("is_done", "corrected_why", "why_asked", "mistake")


def listed_cylinders() -> list[Cylinder]:
    """The cylinders that the shop has, by name."""
    today = timezone.localdate()
    return list(Cylinder.objects.filter(Q(gone_since=None) | Q(gone_since__gt=today)))


def cylinder_words(one: Cylinder) -> str:
    """A cylinder as it is tapped: Cylinder 3, R-134a."""
    return f"{one.name}, {one.refrigerant or CYLINDER_KINDS[one.kind].lower()}"


def with_why(one: Cylinder, never: Mapping[str, str]) -> str:
    """The same, with why a cylinder of its kind is never taken for this work."""
    why = never.get(one.kind)
    return f"{cylinder_words(one)}: {why}" if why else cylinder_words(one)


class CylinderTap(Tap):
    """Which cylinder: keys without dashes, because a kept page loses what looks like its key."""

    def __init__(self, label: str, hint: str = "") -> None:
        super().__init__(label, {UNNAMED: UNNAMED_WORDS}, hint)

    def put_listed(self, never: Mapping[str, str]) -> None:
        """Offer those that the shop has now; kinds that are `never` taken last, with why."""
        in_order = sorted(listed_cylinders(), key=lambda one: one.kind in never)
        listed = [(one.key.hex, with_why(one, never)) for one in in_order]
        self.choices = [*listed, (UNNAMED, UNNAMED_WORDS)]

    def valid_value(self, value: Any) -> bool:
        """Also one that is gone since: what was done with it was done."""
        return super().valid_value(value) or as_key(value) is not None


def grams(label: str, hint: str = "") -> Quantity:
    """A mass of refrigerant."""
    usual, can_be = GRAMS
    return Quantity(label, MASSES, usual, can_be, "grams_out", hint, tells_range=False)


def by_scale(label: str, hint: str = "") -> Quantity:
    """What a scale shows of a whole cylinder."""
    return Quantity(label, SCALES, (0, 100), (0, 2000), "scale_out", hint, tells_range=False)


def milliliters(label: str, hint: str = "") -> Quantity:
    """A volume of oil or dye."""
    return Quantity(
        label, VOLUMES, (0, 500), (0, 20_000), "oil_amount_out", hint, tells_range=False
    )


class LoopWorkForm(WithQuantities):
    """One piece of work. What is not known may stay empty: it stays unknown, and is no zero."""

    WHAT = ""
    NEVER: Mapping[str, str] = {}  # kinds of cylinder never taken for it, with why
    cylinder = CylinderTap("Which cylinder or tank?")
    cylinder_named = Line(80, "What stands on it", "The office enters it; until then it is open.")
    is_done = IsDone()
    note = Lines(500, "Anything else?", "Stands on the record.")
    mistake = Tap("Or did it not happen at all?", {"yes": "It did not happen: entered by mistake"})
    corrected_why = WhatWasWrong()
    why_asked = WhyAsked()

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        self.chosen: Cylinder | None = None
        field = self.fields["cylinder"]
        if isinstance(field, CylinderTap):
            field.put_listed(self.NEVER)

    def clean(self) -> dict[str, Any]:
        """Look at what was done, unless nothing was."""
        said = super().clean()
        self.ask_what_was_wrong()
        if said.get("mistake"):
            return said
        self.chosen = self.find_cylinder(said.get("cylinder", ""))
        if self.job is not None:
            self.look(said)
        return said

    def look(self, said: dict[str, Any]) -> None:
        """Ask about what is odd."""
        raise NotImplementedError

    def find_cylinder(self, told: str) -> Cylinder | None:
        """The cylinder tapped; None: none, or one that is not listed."""
        if not told or told == UNNAMED:
            return None
        key = as_key(told)
        found = Cylinder.objects.filter(key=key).first() if key else None
        if found is None:
            self.add_error("cylinder", NO_SUCH_CYLINDER)
        return found

    @cached_property
    def job(self) -> Job | None:
        """The job with its A/C; None: it is not here."""
        rows = Job.objects.select_related("vehicle__system")
        return rows.filter(key=self.job_key).first() if self.job_key else None

    @property
    def system(self) -> System:
        """The A/C of the car."""
        if self.job is None:
            raise ValueError("the job is not here")
        return self.job.vehicle.system

    @property
    def label_gas(self) -> str:
        """The refrigerant on the label; "": not noted, or none that is known here."""
        told = self.system.refrigerant
        return told if told in REFRIGERANTS else ""

    @property
    def day(self) -> date:
        """The day on which it happened."""
        return timezone.localdate(happened(self.entry_told))

    def held(self) -> Held | None:
        """The cylinder with what it held then, without what this corrects."""
        if self.chosen is None:
            return None
        works = LoopWork.objects.filter(key=self.corrects) if self.corrects else ()
        return held_by(self.chosen, at=self.done_at, without=[one.entry_id for one in works])

    @property
    def done_at(self) -> datetime:
        """When it happened; what is corrected happened when it was told first."""
        if self.corrects:
            rows = LoopWork.objects.filter(job=self.job, key=self.corrects)
            corrected = rows.select_related("entry").first()
            if corrected:
                return corrected.entry.done_at
        return happened(self.entry_told)

    def hold_scale_to_book(self, held: Held | None) -> None:
        """Ask where the first reading is farther off the book than two weighings may be.

        A scale that was set to nothing with the cylinder on it is held to nothing.
        """
        read = self.mg("scale_before")
        if held is None or self.chosen is None or not (read and self.chosen.tare_mg):
            return
        book = held.mg + self.chosen.tare_mg
        if abs(read - book) > SCALE_OFF_MG:
            unit = self.read["scale_before"]["unit"]
            told = {"scale": read, "book": book, "tare": self.chosen.tare_mg}
            said = {name: ledger.shown_mass(mg, unit) for name, mg in told.items()}
            self.asks("scale_before", "scale_off_book", **said)

    @property
    def has_photo(self) -> bool:
        """Whether a photo came with it."""
        return bool(self.entry_told and self.entry_told.photos)

    def mg(self, name: str) -> int:
        """Whole mg told that can be; 0: none."""
        return self.whole(name, ledger.KG) or 0

    def scale_changed(self, *, goes_up: bool) -> int:
        """What the cylinder's scale changed by, in mg; 0: it was not read before and after."""
        if self.si("scale_before") is None or self.si("scale_after") is None:
            return 0
        rose = self.mg("scale_after") - self.mg("scale_before")
        changed = rose if goes_up else -rose
        if changed < 0:
            self.asks("scale_after", "scale_turned")
        elif changed > GRAMS_NEVER:
            self.asks("scale_after", "scale_far")
        return changed if 0 <= changed <= GRAMS_NEVER else 0

    def weighed(self, name: str, told: int, scale: int) -> int:
        """What counts where both were told: the grams; the scale alone where no grams were."""
        if name not in self.read:
            return scale
        if scale and abs(scale - told) > ledger.CHARGE_TOLERANCE_MG:
            self.asks(name, "scale_differs", said=self.shown(told), scale=self.shown(scale))
        return told

    @property
    def unit(self) -> str:
        """The unit in which small masses are shown: g or oz."""
        named = ("grams_out", "grams_in")
        told = [self.read[one]["unit"] for one in named if one in self.read]
        return "oz" if told and told[0] in ("oz", "lb") else "g"

    def shown(self, mg: int) -> str:
        """A mass in words."""
        return ledger.shown_mass(mg, self.unit)

    def cylinder_said(self) -> str:
        """The cylinder in words; empty: nobody told which."""
        if self.chosen:
            return self.chosen.name
        return str(self.cleaned_data.get("cylinder_named", ""))

    def into(self, mg: int, gas: str) -> Iterator[Moved]:
        """So much out of the car into the cylinder."""
        place, key = (CYLINDER, self.chosen.key) if self.chosen else (UNNAMED, None)
        if mg:
            yield Moved("refrigerant", mg, "car", place, gas, to_cylinder=key)

    def out_of(self, mg: int, gas: str, to: str = "car") -> Iterator[Moved]:
        """So much out of the cylinder into the car, or into the hoses."""
        place, key = (CYLINDER, self.chosen.key) if self.chosen else (UNNAMED, None)
        if mg:
            yield Moved("refrigerant", mg, place, to, gas, from_cylinder=key)

    def told_values(self) -> dict[str, Any]:
        """What was tapped, worded and read, by field."""
        left_out = (*NOT_TYPED, *self.read)
        said = {
            name: value
            for name, value in self.cleaned_data.items()
            if value and name not in left_out and not name.endswith(("_unit", "_why"))
        }
        return said | self.read

    def worked(self) -> LoopWorked:
        """The work as rows keep it."""
        why = self.cleaned_data["corrected_why"]
        if self.cleaned_data.get("mistake"):
            return LoopWorked(self.WHAT, {}, MISTAKE, (), (), (), why, True, self.marks)
        did, moved = list(dict.fromkeys(self.did())), list(self.moved())
        told, touches = self.told_values() | self.sums(), touched_by(did)
        return LoopWorked(self.WHAT, told, self.words(), did, touches, moved, why, marks=self.marks)

    def did(self) -> Iterator[str]:
        """What was done to the loop, in its order: codes of loop_works.DID."""
        raise NotImplementedError

    def sums(self) -> dict[str, int]:
        """Whole mg as they are booked, by what they are: out_mg, in_mg, hose_mg."""
        raise NotImplementedError

    def moved(self) -> Iterator[Moved]:
        """What moved from where to where."""
        raise NotImplementedError

    def words(self) -> str:
        """The work in a few words."""
        raise NotImplementedError


def beside(job: Job | None) -> dict[str, Any]:
    """What the page shows beside its form: what was done to the loop, and what the label says."""
    if job is None:
        return {}
    return {"works": list(works_of(job)), "label": label_words(job.vehicle.system)}


def label_words(system: System, units: ShownIn | None = None) -> str:
    """What the label says: 520 g (18.3 oz) of R-134a, front; empty: nothing is noted.

    `units`: the shop's, where they were read already. What a tablet told with nobody there to be
    asked may be a slip of one digit, and the next person charges by it: so it is doubted here too.
    """
    mg = system.label_charge_mg
    charge = ledger.both(mg, (units or units_chosen()).unit("g")) if mg else ""
    told = " of ".join(one for one in (charge, system.refrigerant) if one)
    branches = ", ".join(words(BRANCHES, one).lower() for one in system.branches)
    told = f"{told}, {branches}" if told and branches else told
    return f"{told}{NO_CARS}" if mg and not CHARGE_LOW_MG <= mg <= CHARGE_HIGH_MG else told
