"""What was changed on the car, and which questions each change touches."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db import models
from django.db.models import Exists, OuterRef

from diagnostics.physics.units import with_unit
from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import CarState, Job
from jobs.models.photos import OLD_PART, Photo
from jobs.models.vehicles import shown_mm
from jobs.models.wordings import words

WHATS = {
    "fitted": "Part fitted or swapped",
    "gap_set": "Air gap set",
    "fuse": "Fuse replaced",
    "cleaned": "Contact or ground cleaned",
    "wire": "Wire repaired",
    "adjusted": "Adjusted",
    "opened": "Loop opened",
    "closed": "Loop closed or capped",
    "flushed": "Flushed",
    "unplugged": "Unplugged or made safe",
    "other": "Something else",
}
NOTHING = "nothing"  # only of a correction: the change was entered by mistake
NOTHING_WORDS = "Nothing changed, entered by mistake"
UNPLUGGED = "unplugged"
WITH_IT = "; with it "  # before the parts that were changed together with the first
NO_REPAIR = ("opened", "closed", UNPLUGGED, NOTHING)  # after these nothing is repaired yet
PARTS = {
    "clutch": "Clutch, complete",
    "coil": "Clutch coil",
    "compressor": "Compressor",
    "shaft_seal": "Shaft seal",
    "control_valve": "Control valve",
    "relay": "Relay",
    "pressure_switch": "Pressure switch or sensor",
    "wiring": "Wiring or plug",
    "control_unit": "Control unit",
    "belt": "Belt or tensioner",
    "hose": "Hose or line",
    "seal": "Seal or valve core",
    "condenser": "Condenser",
    "evaporator": "Evaporator",
    "expansion_device": "Expansion device",
    "drier": "Receiver-drier or accumulator",
    "fan": "Fan",
    "door": "Air door or actuator",
    "cabin_filter": "Cabin filter",
    "other": "Another part",
}
SOURCES = {
    "new": "New",
    "remanufactured": "Remanufactured",
    "used": "Used",
    "customer": "Brought by the customer",
}
SERIALED = ("clutch", "compressor", "condenser")  # what a seller asks the number of; our judgement
# Parts of the loop that are changed together with another one while it is open.
ALSO = (
    *("drier", "expansion_device", "seal", "hose", "condenser", "evaporator"),
    *("control_valve", "pressure_switch"),
)
BRANCHED = ("expansion_device", "evaporator", "hose")  # each branch of a loop has its own
OF_BRANCH = {"rear": "rear", "battery": "battery chiller"}

COMMAND, CLUTCH, COMPRESSOR = "command", "clutch", "compressor"
CHARGE, CLEANLINESS, HEAT = "charge", "cleanliness", "heat"
QUESTIONS = (COMMAND, CLUTCH, COMPRESSOR, CHARGE, CLEANLINESS, HEAT)
OPENS_LOOP = (CHARGE, CLEANLINESS)
TOUCHES_BY_WHAT = {
    "gap_set": (CLUTCH,),
    "fuse": (COMMAND,),
    "cleaned": (COMMAND,),
    "wire": (COMMAND,),
    "opened": OPENS_LOOP,
    "closed": (CHARGE,),  # a cap keeps dirt out; what is inside stays as it was
    "flushed": OPENS_LOOP,
    "unplugged": (COMMAND,),
    "other": QUESTIONS,  # nobody said which, so none is left out
}
TOUCHES_BY_PART = {
    "clutch": (CLUTCH,),
    "coil": (CLUTCH,),
    "compressor": (COMPRESSOR, CLUTCH, *OPENS_LOOP),
    "shaft_seal": (COMPRESSOR, *OPENS_LOOP),
    "control_valve": (COMPRESSOR, *OPENS_LOOP),
    "relay": (COMMAND,),
    "pressure_switch": (COMMAND,),
    "wiring": (COMMAND,),
    "control_unit": (COMMAND,),
    "belt": (COMPRESSOR,),
    "hose": OPENS_LOOP,
    "seal": OPENS_LOOP,
    "condenser": (HEAT, *OPENS_LOOP),
    "evaporator": (HEAT, *OPENS_LOOP),
    "expansion_device": OPENS_LOOP,
    "drier": OPENS_LOOP,
    "fan": (HEAT,),
    "door": (HEAT,),
    "cabin_filter": (HEAT,),
    "other": QUESTIONS,
}


def touches(what: str, part: str) -> list[str]:
    """The questions that a change bears on, in their order; what is not known bears on all."""
    if what == NOTHING:
        return []
    told = {*TOUCHES_BY_WHAT.get(what, ()), *TOUCHES_BY_PART.get(part, ())}
    return [question for question in QUESTIONS if question in told or not told]


@dataclass(frozen=True)
class PartDone:
    """A part that a change was made on. `branch` is empty for the front and for the only one.

    `serial` and `part_number` are those of what was fitted; `number` is one of both, where only one
    was asked for.
    """

    part: str
    branch: str = ""
    serial: str = ""
    part_number: str = ""
    number: str = ""

    @property
    def words(self) -> str:
        """Such as Expansion device, rear."""
        return branch_words(words(PARTS, self.part), self.branch)

    @property
    def lacks_serial(self) -> bool:
        """Whether a seller asks for its number and none is noted."""
        return self.part in SERIALED and not (self.serial or self.number)


def branch_words(name: str, branch: str) -> str:
    """A part with its branch behind, where it is not the front's."""
    return f"{name}, {words(OF_BRANCH, branch)}" if branch else name


class Change(Keyed):
    """One thing that was changed on the car. It opened `state`, or corrects what did.

    `what`, `part` and `source` are codes of the tables above; one that is not listed stays as
    typed. `also` are the parts on which the same was done while the loop stood open for it:
    [{"part", "branch", "number"}]; all of it is one state of the car. `where` is in the
    technician's words, `corrected_why` says what was wrong with the change that this one corrects.
    `gap_um` are the points of a new part's air gap, measured before it was fitted, in whole
    micrometers. Never changed, only superseded.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="changes")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="change_told")
    state = models.ForeignKey(CarState, models.PROTECT, related_name="changes")
    what = models.CharField(max_length=30)
    part = models.CharField(max_length=30, blank=True)
    source = models.CharField(max_length=30, blank=True)
    part_number = models.CharField(max_length=60, blank=True)
    serial = models.CharField(max_length=60, blank=True)
    branch = models.CharField(max_length=20, blank=True, default="")
    also = models.JSONField(default=list)
    seller = models.CharField(max_length=120, blank=True, default="")
    proof = models.CharField(max_length=60, blank=True, default="")
    old_serial = models.CharField(max_length=60, blank=True, default="")
    old_part_number = models.CharField(max_length=60, blank=True, default="")
    flushed_how = models.CharField(max_length=200, blank=True, default="")
    gap_um = models.JSONField(default=list)
    where = models.CharField(max_length=300, blank=True)
    corrected_why = models.CharField(max_length=300, blank=True)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.words}"

    @property
    def words(self) -> str:
        """What was changed, in a few words: Clutch, complete: fitted or swapped, new."""
        if self.what == NOTHING:
            return NOTHING_WORDS
        what = words(WHATS, self.what)
        if not self.part:
            return what
        done = "fitted or swapped" if self.what == "fitted" else what[:1].lower() + what[1:]
        source = words(SOURCES, self.source).lower() if self.source else ""
        name = branch_words(words(PARTS, self.part), self.branch)
        with_it = ", ".join(one.words[:1].lower() + one.words[1:] for one in self.parts[1:])
        first = ", ".join(text for text in (f"{name}: {done}", source) if text)
        return f"{first}{WITH_IT}{with_it}" if with_it else first

    @property
    def parts(self) -> list[PartDone]:
        """All parts that it was made on, the one that was told first before the others."""
        first = PartDone(self.part, self.branch, self.serial, self.part_number)
        others = [PartDone(one["part"], one["branch"], number=one["number"]) for one in self.also]
        return [*([first] if self.part else []), *others]

    @property
    def touched(self) -> list[str]:
        """The questions that it bears on, in their order."""
        found = {one for part in self.parts for one in touches(self.what, part.part)}
        return [one for one in QUESTIONS if one in found] if found else touches(self.what, "")

    @property
    def gap_words(self) -> str:
        """The points of the new part's gap, in millimeters; empty: not measured."""
        return " · ".join(with_unit(shown_mm(um), "mm") for um in self.gap_um)

    @property
    def corrects_nothing(self) -> bool:
        """Whether it was to take the place of a change, and none in this job is that one."""
        return bool(self.entry.corrects) and not hasattr(self, "supersedes")

    @property
    def short(self) -> str:
        """The part that was told first with its car state: Compressor (car state 2)."""
        name = self.parts[0].words if self.parts else words(WHATS, self.what)
        return f"{name} (car state {self.state.number})"

    @property
    def lacking(self) -> list[PartDone]:
        """The parts fitted that have a number, where it waits."""
        fitted = self.parts if self.what == "fitted" else []
        return [part for part in fitted if part.lacks_serial]

    @property
    def lacks_serial(self) -> bool:
        """Whether the number of such a part waits."""
        return bool(self.lacking)

    @property
    def lacks_proof(self) -> bool:
        """Whether a part that a seller warrants was fitted, and where it was bought waits."""
        bought = self.what == "fitted" and self.source != "customer"
        asked = any(part.part in SERIALED for part in self.parts)
        return bought and asked and not (self.seller and self.proof)


def changes_of(job: Job) -> models.QuerySet[Change]:
    """The changes of a job with state, author and what each took the place of."""
    return with_photo(job.changes.select_related("state", "entry__author", "supersedes"))


def with_photo(rows: models.QuerySet[Change]) -> models.QuerySet[Change]:
    """Each with `old_photo`: whether a photo of the old part is filed at its place on the car."""
    photos = Photo.objects.filter(about=OLD_PART, superseded_by=None)
    there = photos.filter(job_key=OuterRef("job__key"), place=OuterRef("part"))
    return rows.annotate(old_photo=Exists(there))


def times_changed(changes: Iterable[Change]) -> int:
    """How often the car was changed, without what was entered by mistake."""
    return len({change.state_id for change in standing(changes) if change.what != NOTHING})


def standing(changes: Iterable[Change]) -> list[Change]:
    """Those that were not superseded."""
    return [change for change in changes if not change.superseded_by_id]
