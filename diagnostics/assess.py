"""From rows to what they mean: the A/C as kinds ask for it, and a step with its meaning."""

import uuid
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import lru_cache
from typing import Any

from django.db.models import Count, Exists, OuterRef, Q, QuerySet, Subquery, TextField, Value
from django.db.models.fields.json import KT
from django.db.models.functions import Cast, Coalesce, Lower, Replace

from diagnostics.evidence.bears import NOTHING, Bears
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import shown_reading
from diagnostics.evidence.findings import FAILING_NOTES, Meaning
from diagnostics.evidence.in_units import told_in
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.orders import Made, Order
from diagnostics.evidence.readings import Readings, from_json
from diagnostics.evidence.system import System
from diagnostics.models import ODDLY_TOLD, Step
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.units import shown, with_unit
from jobs.models import CarState, Entry, Job, Photo, ShopChange
from jobs.models import System as SystemRow
from jobs.models.entries import switched

REPLACES_NOTHING = (
    "was to replace a step that is not in this job or is another kind of test, and replaces nothing"
)
LONG_AGO = datetime(1, 1, 2, tzinfo=UTC)  # before anything happened
ONLY_A_PHOTO = "Only a photo: nothing was read."


@dataclass(frozen=True)
class ShopTold:
    """What the shop set that tests are read by: its units now, and its air with when that began.

    A change of the air moves no step made before it.
    """

    units: ShownIn = field(default_factory=ShownIn)
    places: tuple[tuple[datetime, Mapping[str, Any]], ...] = ()

    def around(
        self, system: System, failing: str = "", moment: datetime | None = None
    ) -> Circumstances:
        """What a test made then is read against; without a moment, one made now."""
        told = [place for begun, place in self.places if moment is None or begun <= moment]
        if not told or not told[-1]["air_pa"]:
            return Circumstances(system, failing, units=self.units)
        air, altitude = Absolute(told[-1]["air_pa"]), told[-1]["altitude_m"]
        high = f": {with_unit(shown(altitude, 0), 'm')} above sea level" if altitude else ""
        return Circumstances(system, failing, air, f"shop’s setting{high}", self.units)


def shop_told() -> ShopTold:
    """The shop's settings, in one query."""
    told = ShopChange.objects.filter(part__in=("units", "place")).order_by("from_at", "id")
    units, places = ShownIn(), []
    for part, values, begun in told.values_list("part", "values", "from_at"):
        if part == "units":
            units = ShownIn(values["units"])
        else:
            places.append((begun, values))
    return ShopTold(units, tuple(places))


@lru_cache(maxsize=256)
def _kind_told(name: str, chosen: tuple[tuple[str, str], ...]) -> Kind | None:
    kind = KINDS.get(name)
    return told_in(kind, ShownIn(dict(chosen))) if kind else None


def kind_told(name: str, units: ShownIn) -> Kind | None:
    """A kind with its sentences in these units, or None."""
    return _kind_told(name, tuple(sorted(units.chosen.items())))


@dataclass(frozen=True)
class Assessed:
    """A step with what it means on the system as it is known now.

    `meaning` is None where the test could not be done, and where this version of the program does
    not know the kind any more; the readings stay in the row.
    """

    step: Step
    kind: Kind | None
    meaning: Meaning | None
    told: list[tuple[str, str]]
    not_done: str
    barred: str
    failing_note: str
    only_a_photo: bool = False
    broken: tuple[Order, ...] = ()  # what should have come first, and had not
    bears: Bears = NOTHING  # on the orders, by what was read
    units: ShownIn = field(default_factory=ShownIn)  # in which its meaning is told

    @property
    def stands(self) -> bool:
        """Whether it is a test made, and counts: something was read, and nothing replaced it."""
        read = not self.step.not_done and not self.only_a_photo
        return read and not self.step.superseded_by_id

    @property
    def corrects_nothing(self) -> bool:
        """Whether it was to take the place of a step, and none in this job is that one."""
        return bool(self.step.entry.corrects) and not hasattr(self.step, "supersedes")

    @property
    def corrects(self) -> str:
        """Which step it took the place of, and what was wrong with that one; empty: none."""
        if not self.step.entry.corrects:
            return ""
        why = self.step.corrected_why or "no reason given"
        if self.corrects_nothing:
            return f"Step {self.step.number} {REPLACES_NOTHING}: {why}"
        return f"Step {self.step.number} replaces step {self.step.supersedes.number}: {why}"

    @property
    def takes_place(self) -> str:
        """Which step it took the place of, without the reason; empty: it corrects none."""
        if not self.step.entry.corrects:
            return ""
        if self.corrects_nothing:
            return f"It {REPLACES_NOTHING}."
        return f"Replaces step {self.step.supersedes.number}."

    @property
    def onward(self) -> str:
        """What the step itself says to do next, in its own sentences."""
        return " ".join(self.meaning.onward) if self.meaning else ""

    @property
    def worked_out(self) -> str:
        """The numbers that were worked out from what was read, in one line; empty: none."""
        values = self.meaning.computed if self.meaning and not self.step.superseded_by_id else ()
        return "; ".join(f"{one.words}: {one.shown}" for one in values)

    @property
    def photos(self) -> str:
        """How many photos were taken with it, in words; empty: none."""
        return photos_words(self.step.photo_count)

    @property
    def title(self) -> str:
        """The test's name."""
        return self.kind.title if self.kind else self.step.kind

    @property
    def finding(self) -> str:
        """What was found, in one or two sentences."""
        if self.meaning is None:
            return self.not_done
        return f"{self.meaning.lead} {self.meaning.outcome.sentence}".strip()


def photos_words(count: int) -> str:
    """A number of photos; empty where there is none."""
    return f"{count} photo{'' if count == 1 else 's'}" if count else ""


def system_of(row: SystemRow) -> System:
    """The A/C as far as kinds ask for it; what is not known is left out."""
    system: System = {
        "drive": row.drive,
        "clutch": row.clutch if row.drive == "belt_electric" else "",  # else the drive says it
        "displacement": row.displacement,
        "voltage": row.voltage,
        "switched_side": row.switched_side,
        "refrigerant": row.refrigerant,
        "branches": row.branches,
    }
    if row.label_charge_mg:
        system["label_charge_kg"] = row.label_charge_mg / 1_000_000
    if row.coil_milliohm:
        system["coil_ohm"] = row.coil_milliohm / 1000
        system["coil_ohm_source"] = row.read_from("coil_milliohm")
    if row.gap_low_um and row.gap_high_um:
        system["gap_low_m"] = row.gap_low_um / 1_000_000
        system["gap_high_m"] = row.gap_high_um / 1_000_000
        system["gap_source"] = row.read_from("gap")
    return system


def around_job(job_key: uuid.UUID | None) -> Circumstances:
    """What a test on this job is read against now; nothing is known of a job that is not here."""
    jobs = Job.objects.select_related("vehicle__system")
    job = jobs.filter(key=job_key).first() if job_key else None
    return around_now(job) if job else shop_told().around(System())


def around_now(job: Job) -> Circumstances:
    """The same for a job that comes with car and system."""
    return shop_told().around(system_of(job.vehicle.system), job.failing_now)


def readings_of(step: Step) -> Readings:
    """A step's readings as kinds compute with them."""
    return from_json(step.readings)


def assess(step: Step, system: System, shop: ShopTold | None = None) -> Assessed:
    """What one step, read with as_it_stood, means; `shop` is read where it is not given."""
    told_by = shop_told() if shop is None else shop
    kind = kind_told(step.kind, told_by.units)
    readings = readings_of(step)
    done = kind is not None and not step.not_done
    around = told_by.around(system, step.failing_then, step.made_at)
    meaning = kind.meaning(readings, around) if kind and done else None
    only_a_photo = bool(kind and meaning and is_only_a_photo(step, kind, readings))
    if meaning and only_a_photo:
        bare = replace(meaning.outcome, sentence=ONLY_A_PHOTO, marks=(), carries=False)
        meaning = replace(meaning, lead="", outcome=bare)
    told = [
        (asked.question, shown_reading(asked, readings[asked.name]))
        for asked in (kind.fields if kind else ())
        if asked.name in readings
    ]
    return Assessed(
        step,
        kind,
        meaning,
        told,
        not_done_words(kind, step),
        (kind.forbids(system) or "") if kind and done else "",
        FAILING_NOTES.get(step.failing_then, "") if meaning else "",
        only_a_photo,
        bears=kind.bears(readings, system) if kind and done else NOTHING,
        units=told_by.units,
    )


def is_only_a_photo(step: Step, kind: Kind, readings: Readings) -> bool:
    """Whether nothing was read, tapped or seen: without a photo it would not have been kept."""
    odd = any(mark["code"] in ODDLY_TOLD for mark in step.marks)
    return not (step.seen or odd or kind.tells(readings))


def not_done_words(kind: Kind | None, step: Step) -> str:
    """That a test could not be done, and why; empty when it was."""
    if not step.not_done:
        return ""
    reasons = {reason.code: reason.words for reason in kind.not_done} if kind else {}
    reason = reasons.get(step.not_done, step.not_done).lower()
    detail = f" ({step.not_done_words})" if step.not_done_words else ""
    return f"Could not be done: {reason}{detail}. That is no result."


def steps_of(job: Job, states: Iterable[CarState] | None = None) -> list[Assessed]:
    """All steps of a job in the order recorded, each with its meaning, in two queries.

    The job comes with car and system; its car states are read, too, unless they come with it.
    """
    begun = job.car_states.all() if states is None else states
    return assess_all(rows(job), system_of(job.vehicle.system), begun)


def assess_all(
    steps: Iterable[Step],
    system: System,
    states: Iterable[CarState],
    shop: ShopTold | None = None,
) -> list[Assessed]:
    """What several steps of one job mean, and which orders each of them broke."""
    begun = list(states)
    told_by = shop_told() if shop is None else shop
    read = [assess(step, system, told_by) for step in steps]
    return [replace(one, broken=orders_broken(one, read, system, begun)) for one in read]


def orders_broken(
    one: Assessed, read: Iterable[Assessed], system: System, states: Sequence[CarState]
) -> tuple[Order, ...]:
    """What should have come before a step and had not, by the times at which they were made."""
    if one.kind is None or not one.kind.orders or not one.stands:
        return ()
    before = (other for other in read if other.step.made_at < one.step.made_at)
    then = [state for state in states if state.number <= one.step.state_then]
    return one.kind.orders_broken(readings_of(one.step), made(before, then), system)


def made(read: Iterable[Assessed], states: Sequence[CarState]) -> list[Made]:
    """The tests that stand with their outcomes, oldest first, on a car of these states."""
    standing = (one for one in read if one.stands and one.meaning)
    by_time = sorted(standing, key=lambda one: one.step.made_at)
    return [
        Made(
            one.step.kind,
            one.meaning.outcome.code,
            touched_since(one, states),
            one.bears.opens,
            one.bears.shuts,
        )
        for one in by_time
        if one.meaning
    ]


def touched_since(one: Assessed, states: Iterable[CarState]) -> bool:
    """Whether the car was changed after a step in what that kind of test looks at."""
    about = one.kind.about if one.kind else ""
    return any(state.number > one.step.state_then and about in state.touches for state in states)


def rows(job: Job) -> QuerySet[Step]:
    """The steps of a job with author, how the car stood, and what superseded them."""
    steps = as_it_stood(Step.objects.filter(job=job).order_by("number"))
    return steps.select_related("entry__author", "superseded_by", "supersedes")


def as_it_stood(steps: QuerySet[Step]) -> QuerySet[Step]:
    """The steps, each with its photos counted, the job's switch and the car's state at its moment.

    And whether somebody threw its entry away on a tablet, not knowing that it was here. Switch and
    state go by the times at which things happened, never by the order in which tablets
    brought them. What happened at the step's own moment counts as before it.
    """
    begun = Q(number=0) | Q(opened_at__lte=OuterRef("made_at"))
    states = CarState.objects.filter(begun, job=OuterRef("job")).reverse()
    changed = states.filter(number__gt=0).exclude(touches=[]).values("opened_at")[:1]
    turned = switched().filter(
        job_key=OuterRef("job__key"),
        happened_at__lte=OuterRef("made_at"),
        happened_at__gte=OuterRef("changed_then"),  # of a car changed since nobody has told it
    )
    pictures = Photo.objects.filter(entry=OuterRef("entry")).order_by().values("entry")
    discards = Entry.objects.filter(kind="discard", job_key=OuterRef("job__key")).annotate(
        of=plain(KT("fields__discarded__0"))
    )
    answer = turned.values_list(KT("fields__failing__0"))[:1]
    read: dict[str, Any] = {
        "changed_then": Coalesce(Subquery(changed), Value(LONG_AGO)),
        "failing_then": Coalesce(Subquery(answer), Value(""), output_field=TextField()),
        "state_then": Subquery(states.values("number")[:1]),
        "thrown_away": Exists(discards.filter(of=plain(OuterRef("key")))),
        "photo_count": Coalesce(Subquery(pictures.values(count=Count("pk"))), Value(0)),
    }
    return steps.annotate(**read)


def plain(key: Any) -> Lower:
    """A key as text without dashes, as it stands in a column or was told: databases differ."""
    dash, nothing = (Value(text, output_field=TextField()) for text in ("-", ""))
    return Lower(Replace(Cast(key, TextField()), dash, nothing, output_field=TextField()))
