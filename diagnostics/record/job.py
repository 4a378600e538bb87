"""The parts of a record that come from who, which car, what was told and what was agreed."""

import uuid
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from typing import Any

from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.units import with_unit
from diagnostics.record.words import (
    NOT_NOTED,
    arrived,
    done_times,
    iso,
    kind_words,
    payer_words,
    times,
)
from jobs import ledger
from jobs.models import CarState, Change, Entry, Job, System, Vehicle
from jobs.models.ac_places import NOT_FILED
from jobs.models.changes import WITH_IT
from jobs.models.first_told import first_told
from jobs.models.jobs import FAILING
from jobs.models.loop_parts import field_of
from jobs.models.marks import KNOWN, marks_in_words
from jobs.models.photos import photos_of
from jobs.models.said import SAID, answered, as_said
from jobs.models.wordings import in_shop_time
from jobs.paper import frozen

# Cautions for whoever drives the car, by how its compressor is driven.
# Common practice, no source.
BELT = (
    "If you hear a rattle or smell burning from the belt side, switch A/C off and come back. If it"
    " screams or smokes, stop driving: a pulley that locks can throw the belt, and with it steering"
    " help or the water pump."
)
ORANGE = "Leave orange cables and their plugs alone; only qualified people work on them."
HIGH_VOLTAGE = f"The compressor of this car runs on high voltage. {ORANGE}"
PERHAPS_HIGH = f"Some cars run the compressor on high voltage. {ORANGE}"
WINDSHIELD = "With A/C off the windshield clears more slowly; use full heat and blower."
BY_DRIVE = {
    "belt_clutch": (BELT,),
    "belt_clutchless": (BELT,),
    "electric_hv": (HIGH_VOLTAGE,),
    "electric_48": (),
    "belt_electric": (BELT, HIGH_VOLTAGE),
}
NOT_KNOWN = (BELT, PERHAPS_HIGH)
ANOTHER_KIND = "was to replace {}, which is another kind of test, and replaces nothing"
REPLACES_NOTHING = "was to replace an entry that is not in this job, and replaces nothing"


def facts(job: Job) -> list[frozen.Label]:
    """The title block: who, which car, when it came, how it stands."""
    car = job.vehicle
    year = str(car.model_year) if car.model_year else ""
    told = FAILING.get(job.failing_now, "" if job.stage == "closed" else NOT_NOTED).lower()
    return [
        labelled(
            "Customer, and payer",
            job.customer.name,
            *job.customer.address.splitlines(),
            payer_words(job.payer),
            name=job.customer.name,
            address=job.customer.address,
            payer=job.payer or None,
        ),
        labelled(
            "Car",
            ", ".join(filter(None, (car.make_model, year))),
            f"plate {car.plate}",
            f"VIN {car.vin}" if car.vin else "VIN: not read",
            make_model=car.make_model or None,
            model_year=car.model_year,
            plate=car.plate,
            vin=car.vin or None,
        ),
        labelled(
            "Received",
            in_shop_time(job.opened_at),
            arrived(job.entry),
            job.odometer_words or "odometer: not read",
            opened_at=iso(job.opened_at),
            arrived_at=iso(job.entry.arrived_at),
            odometer=job.odometer,
            odometer_unit=job.odometer_unit or None,
        ),
        labelled(
            "Stage at this issue",
            ": ".join(filter(None, (job.stage_words.lower(), job.closing_words.lower()))),
            f"failing now: {told}" if told else "",  # of a closed job its ending says how it left
            stage=job.stage,
            failing_now=job.failing_now or None,
        ),
    ]


def labelled(label: str, *lines: str, **values: frozen.Value) -> frozen.Label:
    """A label with the lines that say something, and what they say by column."""
    return {"label": label, "lines": [line for line in lines if line], "values": values}


def said(job: Job) -> frozen.Said:
    """The customer's own words, and the answers tapped."""
    answers = job.complaint_answers
    told = answered(answers).items()
    return {
        "complaint": job.complaint,
        "answers": [labelled(SAID[name], text, **{name: answers[name]}) for name, text in told],
    }


def cautions(job: Job) -> list[str]:
    """What the driver has to know, whatever was found."""
    drive = job.vehicle.system.drive
    return [*BY_DRIVE.get(drive, NOT_KNOWN), WINDSHIELD]


def system(car: Vehicle, units: ShownIn) -> list[frozen.Label]:
    """The A/C as fitted, what is not known included; the car's own limits where they were noted."""
    fitted = car.system
    names = ["drive", "displacement", "voltage", "switched_side", "refrigerant"]
    if fitted.drive == "belt_electric":
        names.insert(1, "clutch")
    if fitted.expansion:
        names.append("expansion")
    told = {name: getattr(fitted, name) for name in names}
    branches = as_said("branches", {"branches": fitted.branches})
    return [
        *(
            labelled(SAID[name], as_said(name, told) or NOT_NOTED, **{name: code or None})
            for name, code in told.items()
        ),
        labelled(
            SAID["label_charge_mg"],
            *charge(fitted, units),
            label_charge_mg=fitted.label_charge_mg,
            label_charge_source=fitted.sources.get("label_charge"),
        ),
        labelled(SAID["branches"], branches or NOT_NOTED, branches=fitted.branches),
        *([labelled("VIN", car.vin_mark)] if car.vin_mark else []),
        *own_limits(fitted, units),
    ]


def charge(fitted: System, units: ShownIn) -> Sequence[str]:
    """The label charge in both units, and where it was read."""
    if fitted.label_charge_mg is None:
        return (NOT_NOTED,)
    return ledger.both(fitted.label_charge_mg, units.unit("g")), read_from(fitted, "label_charge")


def own_limits(fitted: System, units: ShownIn) -> Iterator[frozen.Label]:
    """The coil's figure and the gap's limits of this very car: what tests are held to."""
    told = {name: getattr(fitted, name) for name in ("coil_milliohm", "gap_low_um", "gap_high_um")}
    if fitted.coil_milliohm is not None:
        yield labelled(
            SAID["coil_milliohm"],
            f"{as_said('coil_milliohm', told)} at {with_unit('20', '°C')}",
            read_from(fitted, "coil_milliohm"),
            coil_milliohm=fitted.coil_milliohm,
            coil_milliohm_source=fitted.sources.get("coil_milliohm"),
        )
    if fitted.gap_low_um is not None:
        yield labelled(
            "Air gap of the clutch",
            f"at least {gap(as_said('gap_low_um', told), units)},"
            f" at most {gap(as_said('gap_high_um', told), units)}",
            read_from(fitted, "gap"),
            gap_low_um=fitted.gap_low_um,
            gap_high_um=fitted.gap_high_um,
            gap_source=fitted.sources.get("gap"),
        )


def gap(words: str, units: ShownIn) -> str:
    """A limit in the shop's unit, and as it stands in the data beside it."""
    told = units.sentence(words)
    return words if told == words else f"{told} ({words})"


def read_from(fitted: System, figure: str) -> str:
    """Where a figure was read, or that it is not noted."""
    return fitted.read_from(figure) or f"source: {NOT_NOTED}"


def states(rows: Iterable[CarState], changes: Sequence[Change]) -> list[frozen.CarState]:
    """Each car state, and what opened it with what was told of that before."""
    first = first_told(changes)
    return [
        {
            "number": state.number,
            "what": state.what,
            "touches": state.touches,
            "told": [change_of(one, first[one.pk]) for one in changes if one.state_id == state.pk],
            "entry": str(state.opened_by.key),
            "at": iso(state.opened_at),
            "when": in_shop_time(state.opened_at),
        }
        for state in rows
    ]


def change_of(change: Change, first: Entry | None = None) -> frozen.Change:
    """One change, superseded or not; every word that was told of it stands here.

    It was told `first` by that entry, or by its own.
    """
    details = {
        "Where, and what else": change.where,
        "Serial number": change.serial,
        "Part number": change.part_number,
        **{f"{one.words}, number": one.number for one in change.parts if one.number},
        "Flushed": change.flushed_how,
        "Air gap of the new part, before it was fitted": change.gap_words,
        "Old part, serial number": change.old_serial,
        "Old part, part number": change.old_part_number,
        "Bought from": change.seller,
        "Proof of purchase": change.proof,
    }
    columns = (
        *("what", "part", "branch", "source", "serial", "part_number", "where"),
        *("seller", "proof", "old_serial", "old_part_number", "flushed_how"),
    )
    return {
        "text": change.words,
        "lines": [f"{name}: {told}" for name, told in details.items() if told],
        "values": {
            **{column: getattr(change, column) or None for column in columns},
            "also": [field_of(one.part, one.branch) for one in change.parts[1:]] or None,
            "gap_um": [str(um) for um in change.gap_um] or None,
        },
        "key": str(change.key),
        "counts": not change.superseded_by_id,
        "by": change.entry.author.name,
        "author": str(change.entry.author.key),
        **done_times(change.entry, first or change.entry),
    }


def photos(
    job: Job,
    named: Mapping[Any, str],
    steps: Mapping[uuid.UUID, int],
    changes: Iterable[Change],
) -> list[frozen.Photo]:
    """Every photo of the job, numbered in the order in which they were taken.

    `named` has the words for entries' keys, `steps` the numbers of those that are steps; `changes`
    are all that were told.
    """
    works = {one.entry.key: one.words.partition(WITH_IT)[0] for one in changes}
    return [
        {
            "number": number,
            "of": named.get(photo.entry.key, kind_words(photo.entry.kind)),
            "entry": str(photo.entry.key),
            "step": steps.get(photo.step_of),
            "sha256": photo.sent_sha256,
            "shown": "" if photo.personal else photo.stored_sha256,
            "personal": photo.personal,
            "place": photo.place,
            "place_text": photo.place_words if photo.place else came_with(photo.entry, works),
            "about": photo.about,
            "about_text": photo.about_words,
            "why": photo.why,
            "by": photo.entry.author.name,
            "at": iso(photo.entry.happened_at),
            "when": in_shop_time(photo.entry.happened_at),
        }
        for number, photo in enumerate(photos_of(job), start=1)
    ]


def came_with(entry: Entry, works: Mapping[uuid.UUID, str]) -> str:
    """What a photo at no place came with; `works` are changes by their entry's key."""
    if entry.kind in ("photo", "photo_filed"):
        return NOT_FILED
    told = works.get(entry.key, kind_words(entry.kind))
    return told[:1].upper() + told[1:]


def corrections(
    entries: Iterable[Entry],
    named: dict[Any, str],
    reasons: Mapping[Any, str],
    alone: Container[uuid.UUID] = (),
) -> list[frozen.Correction]:
    """What was changed after it was entered, and what odd values were kept and why.

    `named` has the words for entries' keys, `reasons` what was wrong with what each corrects,
    `alone` are the keys of steps that took the place of none.
    What an intake found of earlier jobs (another customer's name may stand in it) is the shop's own
    and is left out.
    """
    found: list[frozen.Correction] = []
    listed = list(entries)
    kinds = {entry.key: entry.kind for entry in listed}
    others = [one for one in listed if one.kind != "step"]  # a step's stand with the step
    marks = marks_in_words(others, on_paper=True)
    for entry in listed:
        if entry.corrects:
            here = entry.corrects != entry.key and kinds.get(entry.corrects) == entry.kind
            another = here and entry.key in alone
            replaces = f"replaces {named[entry.corrects]}" if here else REPLACES_NOTHING
            if another:
                replaces = ANOTHER_KIND.format(named[entry.corrects])
            name = named.get(entry.key, entry.kind)
            why = f": {reasons[entry.key]}" if entry.key in reasons else "."
            what = f"{name[:1].upper()}{name[1:]} {replaces}{why}"
            code = "replaces" if here and not another else "corrects_nothing"
            found.append(correction(entry, what, code, replaced=str(entry.corrects)))
        for mark in marks.get(entry.pk, ()):
            if mark.code not in KNOWN:
                what = f"{kind_words(entry.kind).capitalize()}: {mark.words}"
                found.append(correction(entry, what, mark.code, mark.field))
    return found


def correction(
    entry: Entry, what: str, code: str, field: str = "", replaced: str | None = None
) -> frozen.Correction:
    """One line about an entry."""
    return {
        "what": what,
        "code": code,
        "field": field,
        "entry": str(entry.key),
        "replaced": replaced,
        "by": entry.author.name,
        **times(entry),
    }
