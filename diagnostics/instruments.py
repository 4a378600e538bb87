"""What a step was read with: the shop's own instruments, as they stood on that day."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from django.db.models import Prefetch
from django.utils import timezone

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.read_with import quantities_of
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.evidence.system import System
from diagnostics.models import Named, Step
from diagnostics.physics.quantities import OF_INSTRUMENT, QUANTITIES, Stated
from diagnostics.physics.uncertainty import INSTRUMENTS, Accuracy
from jobs.models import Equipment
from jobs.models.qualifications import day_words

# With the rows of steps: two queries more, however many there are, and one where none is named.
NAMED = Prefetch(
    "named", Named.objects.select_related("equipment").prefetch_related("equipment__checks")
)
ZERO_C = 273.15  # K; a share of a temperature's reading is of degrees Celsius


@dataclass(frozen=True)
class ReadWith:
    """One instrument named for one quantity, as of the day of the step.

    `coarser` says that the finding was worked out with a finer one; empty: it was not.
    """

    quantity: str
    thing: Equipment
    day: date
    coarser: str = ""

    @property
    def words(self) -> str:
        """What was read with it, and how."""
        asked = QUANTITIES.get(self.quantity)
        return asked.used_words if asked else f"{self.quantity} read with"

    @property
    def accuracy(self) -> str:
        """How far it may be off, as stated."""
        return self.thing.accuracy_of(self.quantity)

    @property
    def check(self) -> str:
        """How it stood with its check."""
        return self.thing.check_words(self.day)

    @property
    def overdue(self) -> str:
        """That it was to be checked before; empty: it was not, or nobody knows."""
        due = self.thing.overdue_on(self.day)
        return f"{self.thing.name} was to be checked by {day_words(due)}" if due else ""

    @property
    def line(self) -> str:
        """All of it in one line."""
        return f"{self.thing.name} ({self.accuracy}; {self.check})"


def read_with(step: Step, kind: Kind | None, readings: Readings, system: System) -> list[ReadWith]:
    """What a step, read with NAMED, was read with."""
    day = timezone.localdate(step.made_at)
    return [
        ReadWith(
            one.quantity,
            one.equipment,
            day,
            next(coarser_in(kind, one, readings, system), "") if kind else "",
        )
        for one in step.named.all()
    ]


def coarser_in(kind: Kind, named: Named, readings: Readings, system: System) -> Iterator[str]:
    """That what an instrument states is coarser than what the kind works with, at a reading."""
    told = named.equipment.stated(named.quantity)
    for number in kind.numbers:
        reading = readings.get(number.name)
        if not told or not isinstance(reading, Reading):
            continue
        if OF_INSTRUMENT.get(number.instrument) == named.quantity:
            usual = usual_of(number.instrument, system)
            if is_coarser(told, usual, reading.si, named.quantity):
                yield (
                    f"{named.equipment.name} states {told.words}; the finding was worked out with"
                    f" {usual.words}"
                )


def usual_of(instrument: str, system: System) -> Accuracy:
    """The class of instruments with which a kind works on such a system."""
    carbon_dioxide = system.get("refrigerant") == "R-744" and instrument.endswith("side_gauge")
    return INSTRUMENTS["r744_gauge" if carbon_dioxide else instrument]


def is_coarser(told: Stated, usual: Accuracy, si: float, quantity: str) -> bool:
    """Whether the stated limit of error is larger than the usual one, at this reading."""
    share_of = si - ZERO_C if quantity == "temperature" else si
    expected = usual.share * abs(si) + usual.fixed
    return told.limit(share_of) > expected * (1 + 1e-6)


def names_none(step: Step, kind: Kind | None, readings: Readings) -> bool:
    """Whether a step has numbers that an instrument reads, and names none."""
    asked = {number.name for number in kind.numbers} if kind else set()
    read = any(isinstance(readings.get(name), Reading) for name in asked)
    return bool(kind and read and quantities_of(kind)) and not step.named.all()
