"""What a part seller's warranty desk asks, from the frozen data of an issue; what lacks is said.

The list follows common practice of such desks (no source): proof of purchase, part and serial
numbers, cause and photos, drier and expansion device, flush, oil, vacuum, grams, pressures and
temperatures, the technician's certificate. Customer, address, phone and plate are not on it, nor
what anybody wrote in their own words beyond numbers and sellers.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from jobs.models.amounts import WORKS
from jobs.models.photos import ABOUT
from jobs.models.wordings import words

OTHER_WAY = "another way than was offered"
NOT_FLUSHED = "No flush is noted."
OF_A_CLAIM = ("serial", "damage", "debris", "leak", "old_part", "new_part", "before", "after")
MEASURED = ("static_pressure", "running_pressures", "vent_temperature", "vacuum_hold")
SEARCHED = ("leak_search", "nitrogen_hold")
VOLTS = ("feed_voltage", "ground_drop")
WITH_COIL = "belt_clutch"
RISE = "After the valve was shut"  # as an evacuation's timed readings begin
SHOWN_WITH = ("drier", "expansion_device")
Data = Mapping[str, Any]


@dataclass(frozen=True)
class Row:
    """One line of the sheet; `lacks` has what a seller may ask for and is not there."""

    label: str
    lines: list[str] = field(default_factory=list)
    lacks: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class Claim:
    """The sheet of one part: `key` is that of the change that fitted it, "" where none was."""

    key: str
    part: str
    rows: list[Row]
    photos: list[dict[str, Any]]

    @property
    def lacking(self) -> list[str]:
        """All that is not there, in the order of the sheet."""
        return [one for row in self.rows for one in row.lacks]


def fitted(data: Data) -> list[dict[str, Any]]:
    """The changes by which a part came in and that stand, as frozen, the oldest first."""
    told = [one | {"state": state["number"]} for state in data["states"] for one in state["told"]]
    return [one for one in told if one["counts"] and one["values"].get("what") == "fitted"]


def claim_of(data: Data, change: Mapping[str, Any]) -> Claim:
    """The sheet for what one change fitted."""
    state = int(change["state"])
    rows = [
        Row("Car", list(car(data))),
        part_row(change),
        old_part_row(data, change),
        Row("Cause", list(cause(data))),
        *(with_it(data, change, code) for code in SHOWN_WITH),
        flush(data),
        oil(data),
        vacuum(data),
        grams(data),
        leaks(data, state),
        volts(data, change),
        measured(data, "Before", lambda step: step["state"] < state),
        measured(data, "After", lambda step: step["state"] >= state),
        technicians(data, change),
    ]
    told = [row for row in rows if row.lines or row.lacks]
    return Claim(change["key"], change["text"], told, photos_of(data))


def car(data: Data) -> Iterator[str]:
    """Make, VIN and odometer; no plate and no owner."""
    values: dict[str, Any] = {}
    for fact in data["facts"]:
        values |= fact["values"]
    year = f", {values['model_year']}" if values.get("model_year") else ""
    yield f"{values.get('make_model') or 'make and model not noted'}{year}"
    yield f"VIN {values.get('vin') or 'not read'}"
    unit = values.get("odometer_unit") or ""
    came = f"{values['odometer']} {unit}".strip() if values.get("odometer") else "not read"
    end = data.get("closing") or {}
    left = f"{end['odometer']} {end.get('odometer_unit') or ''}" if end.get("odometer") else ""
    yield f"Odometer in: {came}{f'; out: {left.strip()}' if left else ''}"


def needed(label: str, told: Mapping[str, Any]) -> Row:
    """A row of facts by name; those without a value lack."""
    lines = [f"{name}: {value}" for name, value in told.items() if value]
    return Row(
        label, lines, [f"{label}: {name.lower()}" for name, value in told.items() if not value]
    )


def part_row(change: Mapping[str, Any]) -> Row:
    """What was fitted, its numbers and where it was bought."""
    values = change["values"]
    told = {
        "Part number": values.get("part_number"),
        "Serial number": values.get("serial"),
        "Seller": values.get("seller"),
        "Proof of purchase": values.get("proof"),
    }
    row = needed("Part fitted", told)
    at, by = change.get("done") or change["when"], change.get("done_by") or change["by"]
    when = f"{change['text']}; fitted {at} by {by}"
    return Row(row.label, [when, *row.lines, *gap_of(values)], row.lacks)


def gap_of(values: Mapping[str, Any]) -> list[str]:
    """The gap of a new part before it was fitted, in millimeters."""
    points = [f"{int(um) / 1000:.2f}" for um in values.get("gap_um") or ()]
    return [f"Air gap before it was fitted: {', '.join(points)} mm"] if points else []


def old_part_row(data: Data, change: Mapping[str, Any]) -> Row:
    """The numbers of the old part, and where it is."""
    values = change["values"]
    row = needed(
        "Old part",
        {
            "Serial number": values.get("old_serial"),
            "Part number": values.get("old_part_number"),
        },
    )
    went = [one["went"] for one in data.get("old_parts", ()) if one["change"] == change["key"]]
    lacks = row.lacks if went else [*row.lacks, "Old part: where it is"]
    return Row(row.label, [*row.lines, *went], lacks)


def cause(data: Data) -> Iterator[str]:
    """What was found, and what was chosen."""
    yield from (one["text"] for one in data.get("customer", {}).get("found", ()))
    for one in data.get("decisions", ()):
        if one["counts"]:  # as the way was offered: what was typed beside it may name somebody
            ways = (way["text"] for way in one["ways"] if way["chosen"])
            yield f"Decided: {next(ways, OTHER_WAY)}."


def with_it(data: Data, change: Mapping[str, Any], code: str) -> Row:
    """Drier or expansion device: what became of it, with its number and receipt."""
    names = {"drier": "Drier or accumulator", "expansion_device": "Expansion device"}
    label = names[code]
    listed = [one for one in data.get("loop_parts", ()) if one["part"] == code]
    lines = [f"{one['name']}: {one['text']}" for one in listed if one["code"]]
    own = [one for one in fitted(data) if one["values"].get("part") == code]
    lines += [] if lines else [one["text"] for one in own]
    replaced = own or code in (change["values"].get("also") or ())
    # A receipt was told for the part that a change names first, not for what came with it.
    receipt = [one["values"].get("proof") for one in own]
    lines += [f"Receipt: {one}" for one in receipt if one]
    if not lines:
        return Row(label, [], [f"{label}: whether it was replaced"])
    return Row(label, lines, [] if any(receipt) or not replaced else [f"{label}: receipt"])


def flush(data: Data) -> Row:
    """What was flushed, and how."""
    told = [one for state in data["states"] for one in state["told"] if one["counts"]]
    flushed = [one for one in told if one["values"].get("what") == "flushed"]
    how = [
        f"{one['text']}: {one['values'].get('flushed_how') or 'how is not noted'}"
        for one in flushed
    ]
    return Row("Flush", how or [NOT_FLUSHED])


def works(data: Data, *whats: str) -> list[dict[str, Any]]:
    """The work on the loop of these kinds that stands."""
    listed = data.get("amounts", {}).get("works", ())
    return [one for one in listed if one["counts"] and one["what"] in whats]


def oil(data: Data) -> Row:
    """Its type, and milliliters out and in."""
    read = [one for work in works(data, "oil") for one in work["readings"]]
    types = list(dict.fromkeys(one["text"] for one in read if one["field"] in ("oil", "oil_name")))
    rows = data.get("amounts", {}).get("oil", ())
    lines = [f"Type: {', '.join(types)}"] if types else []
    lines += [f"{one['text']}: {one['amount']}" for one in rows]
    sides = {one["side"] for one in rows}
    lacks = [] if types else ["Oil: type"]
    lacks += [
        f"Oil: milliliters {words}"
        for side, words in (("out", "out"), ("into", "in"))
        if side not in sides
    ]
    return Row("Oil", lines, lacks)


def vacuum(data: Data) -> Row:
    """How deep, how long, read where, and how it held; that is no proof of tightness."""
    lines, lacks = [], []
    for work in works(data, "evacuation", "machine_cycle"):
        fields = {one["field"] for one in work["readings"]}
        lines.append("; ".join([work["text"], *readings(work, "gauge", "nitrogen", "needle")]))
        lines += [one for one in work.get("lines", ()) if one.startswith(RISE)]
        lacks += [] if fields & {"depth", "needle"} else ["Vacuum: how deep"]
        lacks += [] if "pumped" in fields else ["Vacuum: how long"]
    lines += [f"Step {one['number']}: {one['finding']}" for one in steps(data, "vacuum_hold")]
    return Row("Vacuum", lines, lacks if lines else ["Vacuum: depth and time"])


def leaks(data: Data, state: int) -> Row:
    """What was searched for leaks since that part, and with what."""
    mine = [one for one in steps(data, *SEARCHED) if one["state"] >= state]
    lines = [f"Step {one['number']}, {one['test']}: {one['finding']}" for one in mine]
    return Row("Leak search, after", lines, [] if lines else ["Leak search after the repair"])


def volts(data: Data, change: Mapping[str, Any]) -> Row:
    """What came to the coil's plug, and what was lost on the ground side, before and after.

    It is asked for where the part has a coil.
    """
    lines = [
        f"Step {one['number']}, {one['test']}: {one['finding']}" for one in steps(data, *VOLTS)
    ]
    drive = next((one["values"]["drive"] for one in data["system"] if "drive" in one["values"]), "")
    part = change["values"].get("part")
    asked = part in ("clutch", "coil") or (part == "compressor" and drive == WITH_COIL)
    lacks = ["Voltage at the coil’s plug"] if asked and not lines else []
    return Row("Voltage at the coil", lines, lacks)


def readings(work: Mapping[str, Any], *names: str) -> list[str]:
    """Some readings of a work, named."""
    return [f"{one['name']}: {one['text']}" for one in work["readings"] if one["field"] in names]


def grams(data: Data) -> Row:
    """What came out and what went in, by weight, against the label."""
    told = data.get("amounts", {})
    lines = [told["text"]] if told.get("rows") else []
    lines += [one["text"] for one in works(data, "recovery", "charge", "machine_cycle")]
    lacks = [] if told.get("charged_mg") is not None else ["Refrigerant: grams charged"]
    return Row("Refrigerant", lines, lacks)


def steps(data: Data, *kinds: str) -> list[dict[str, Any]]:
    """The tests of these kinds that stand."""
    return [one for one in data["steps"] if one["kind"] in kinds and not one["superseded_by"]]


def measured(data: Data, when: str, belongs: Any) -> Row:
    """Pressures and temperatures of the car as it was before that part, or after."""
    label = f"Pressures and temperatures, {when.lower()}"
    mine = [one for one in steps(data, *MEASURED) if belongs(one)]
    lines = [f"Step {one['number']}, {one['test']}: {one['finding']}" for one in mine]
    kinds = {one["kind"] for one in mine}
    lacks = [] if "running_pressures" in kinds else [f"{when}: running pressures"]
    lacks += [] if "vent_temperature" in kinds else [f"{when}: temperature at a vent"]
    return Row(label, lines, lacks)


def technicians(data: Data, change: Mapping[str, Any]) -> Row:
    """Who fitted it and worked on the loop, each with certificate numbers."""
    names = dict.fromkeys([change["by"], *(one["by"] for one in works(data, *WORKS))])
    people: Sequence[Any] = [one for one in data["people"] if one["name"] in names]
    lines = [f"{one['name']}: {one['qualification']}" for one in people]
    numbered = {one["name"] for one in people if has_number(one["qualifications"])}
    lacks = [f"Certificate number of {name}" for name in names if name not in numbered]
    return Row("Technician", lines, lacks)


def has_number(cards: Iterable[Mapping[str, Any]]) -> bool:
    """Whether one of somebody's cards has a number."""
    return any(card["number"] for card in cards)


def photos_of(data: Data) -> list[dict[str, Any]]:
    """The photos of parts and what was found, without those that show somebody.

    `what` says what one is of, without the words that somebody wrote beside it.
    """
    return [
        one | {"what": f"{one['place_text']}: {words(ABOUT, one['about'])}".rstrip(": ")}
        for one in data["photos"]
        if not one["personal"] and one["shown"] and (one["about"] in OF_A_CLAIM or one["step"])
    ]
