"""Pressure of the loop at rest: it tells that liquid is there, never how much.

Trade articles; the band and the grams that could be gone unseen are worked out from the saturation
table of the refrigerant. How a reading is sorted stands in at_rest.py.
"""

from collections.abc import Iterator

from diagnostics.evidence.at_rest import (
    AtRest,
    at_odds,
    could_be_gone,
    full_until,
    gas_left,
    look,
    stops,
)
from diagnostics.evidence.cautions import EYES_AND_HANDS, KEY_AWAY, LOCAL, NEVER_DRY, NO_FLAME
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Number, Span, SpanOn
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Plot, Spot, Value
from diagnostics.evidence.hoses import HV_HOSES, NO_VENTING
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.missing import missing
from diagnostics.evidence.orders import OWN_HOSES
from diagnostics.evidence.readings import Readings
from diagnostics.evidence.saturation_plot import kpa
from diagnostics.evidence.static_plot import static_plot
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.saturation import table_of
from diagnostics.physics.uncertainty import COVERAGE, INSTRUMENTS, measured
from diagnostics.physics.units import from_si, shown, with_unit

NO_VACUUM = "Deeper than perfect vacuum, or more than any hose of a loop holds."
PERFECT = -101.33  # kPa: no gauge shows less at sea level; a loop pumped down rests near it
REST = Span(PERFECT, 1500, PERFECT, 6000, "Outside what a loop at rest shows.", NO_VACUUM)
# R-744, and what may be R-744.
REST_WIDE = Span(PERFECT, 8000, PERFECT, 20_000, REST.outside, NO_VACUUM)
MAYBE_744 = {"refrigerant": ("R-744", "other", "")}
WARMTH = Span(
    -20, 60, -60, 120, "Outside what a loop at rest has.", "No loop is below −60 or above 120 °C."
)
PRESSURES = ("psi", "bar")

FIELDS = (
    Number(
        "low", "Low side", "Engine off. Vacuum with a minus.", "kPa", REST, PRESSURES,
        (SpanOn(MAYBE_744, REST_WIDE),), instrument="low_side_gauge", reference="gauge",
    ),
    Number(
        "high", "High side", "One side may do.", "kPa", REST, PRESSURES,
        (SpanOn(MAYBE_744, REST_WIDE),), instrument="high_side_gauge", reference="gauge",
    ),
    Number(
        "temperature", "Temperature of the loop", "", "°C", WARMTH, ("°F",),
        instrument="thermometer", condition=True,
    ),
    Choice(
        "where", "Where was it read?", "",
        (
            Answer("places", "Loop, several places"),
            Answer("one_place", "Loop, one place"),
            Answer("air", "The air only"),
        ),
        condition=True,
    ),
    Choice(
        "soaked", "Soaked to one temperature?", "Hours off, in the shade, the same inside and out.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("cannot_tell", "Can’t tell")),
        condition=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("as_expected", "as a loop with liquid rests; how much is not told", normal=True),
    OutcomeWords("a_little_above", "a little above, within 30 kPa of the band"),
    OutcomeWords("above", "above what the temperature lets expect"),
    OutcomeWords("below", "below what a loop with liquid rests at"),
    OutcomeWords("some", "there is pressure, held against nothing"),
    OutcomeWords("unsoaked_some", "there is pressure, not at rest or not soaked"),
    OutcomeWords("empty", "next to no pressure"),
    OutcomeWords("vacuum", "under vacuum"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

AMOUNT = "Amount of refrigerant"
FOREIGN = "Air or another gas"
_NOT_BY_REST = Mark("open", AMOUNT, "not told by a pressure at rest.")
_THERE = Mark("ruled_out", "Loop without pressure", "ruled out, there is pressure.")
_MARKS: dict[str, tuple[Mark, ...]] = {
    "as_expected": (
        Mark("ruled_out", "Loop without liquid", "ruled out, as far as it had soaked."),
        _NOT_BY_REST,
    ),
    "a_little_above": (
        Mark("open", FOREIGN, "too close to tell: thermometer and gauge may be off so far."),
        _NOT_BY_REST,
    ),
    "above": (
        Mark("likely", FOREIGN, "points here, as far as the loop is no warmer than was read."),
        _NOT_BY_REST,
    ),
    "below": (
        Mark("likely", "No liquid left", "points here, as far as the loop is no colder than read."),
    ),
    "some": (_THERE, _NOT_BY_REST),
    "unsoaked_some": (_THERE, _NOT_BY_REST),
    "empty": (Mark("likely", "Loop empty", "points here, if the coupler opens the port’s valve."),),
    "vacuum": (
        Mark("likely", "Loop under vacuum", "points here, if the coupler opens the port’s valve."),
    ),
}
_WEIGH = "Search the leak under pressure, then recover and weigh what is in it against the label."
_FILL = "Search the leak with nitrogen or a non-flammable tracer before anything is charged."
_ONWARD: dict[str, tuple[str, ...]] = {
    "as_expected": (_WEIGH,),
    "a_little_above": ("Read the loop’s temperature in several places and read again.",),
    "above": (
        "Read the loop’s temperature in several places and read again.",
        "Identify the gas and its share of air.",
    ),
    "below": (NEVER_DRY, _FILL),
    "some": (_WEIGH,),
    "unsoaked_some": ("Let it soak to one temperature and read again, or weigh what is in it.",),
    "empty": (NEVER_DRY, "Make sure that the coupler opens the port’s valve.", _FILL),
    "vacuum": (NEVER_DRY, _FILL),
    "nothing_told": ("Read one side, engine off, with the loop’s temperature.",),
}

UNMET = ("unsoaked_some", "nothing_told")
_APART = "Open the couplers on both sides, check hoses and gauges, wait, and read both sides again."


def _sentence(seen: AtRest) -> str:
    at = seen.temperature.shown if seen.temperature else ""
    why = seen.why.removesuffix(".")
    return {
        "as_expected": f"It stands where a loop with liquid in it rests at {at}: liquid is there,"
        " how much is not told.",
        "a_little_above": f"It stands a little above what {at} lets expect, by less than"
        " 30\u00a0kPa over the band: cannot tell.",
        "above": f"It stands above what {at} lets expect.",
        "below": f"It stands below where a loop with liquid in it rests at {at}.",
        "some": f"There is pressure in the loop. {why}.",
        "unsoaked_some": f"There is pressure in the loop, and no more is told: {why}.",
        "empty": "The gauge shows next to no pressure.",
        "vacuum": "The loop is under vacuum.",
        "nothing_told": f"Nothing is told: {why}.",
    }[seen.code]


def _lead(seen: AtRest) -> str:
    told = [f"{one.reading.shown} {one.name}" for one in (seen.low, seen.high) if one]
    if told and seen.temperature:
        told.append(f"at {seen.temperature.shown}")
    return f"{', '.join(told)}." if told else ""


def _band(seen: AtRest, around: Circumstances) -> str:
    """What it was held against, by whose accuracy, and under which air."""
    if seen.side is None:
        return ""
    air = with_unit(shown(kpa(around.air.pa), 1), "kPa")
    words = f"Gauge pressure, over the {air} of the air, {around.air_words}."
    if not seen.judged or seen.band is None:
        return words
    low, high = (shown(kpa(end.pa), 0) for end in (seen.band.low, seen.band.high))
    off = f"{INSTRUMENTS['thermometer'].words} and {INSTRUMENTS[seen.side.instrument].words}"
    source = table_of(seen.gas).source
    return (
        f"Expected {low} to {with_unit(high, 'kPa')}, {off}, by default. {seen.gas} at rest, liquid"
        f" and vapor together: {source}. {words}"
    )


def _notes(seen: AtRest) -> Iterator[str]:
    where = seen.taps.get("where", "")
    if seen.judged and where == "air":
        yield "The air’s temperature is taken as the loop’s."
    if seen.judged and where in ("one_place", ""):
        yield "One temperature everywhere was told, and read in one place at most."
    if seen.vacuum_beside_pressure:
        yield NEVER_DRY
    if seen.apart:
        yield "Two sides that stay apart at rest: a valve shut, or a coupler that does not open."
    if seen.cold and seen.side and seen.code not in ("empty", "vacuum"):
        yield (
            "Cold: at such a pressure a low-pressure switch can keep the clutch off with a full"
            " loop. No click in a cold bay is normal, and not a fault."
        )


def _not_tested(seen: AtRest, readings: Readings) -> Iterator[str]:
    if _NOT_BY_REST not in _MARKS.get(seen.code, ()):
        yield "How much refrigerant is in it: not told by a pressure at rest."
    if seen.side is None:
        yield from missing(readings, "low", "Low side")
        yield from missing(readings, "high", "High side")
    yield from missing(readings, "temperature", "Temperature of the loop")
    if seen.temperature and not seen.taps.get("where"):
        yield "Where the temperature was read: not told."
    if not seen.taps.get("soaked"):
        yield "Whether it had soaked to one temperature: not told."
    yield "Tightness: not told by this step."


def _values(seen: AtRest, around: Circumstances) -> Iterator[Value]:
    """What the needle cannot see, in grams of a loop of 3 L."""
    if seen.side is None:
        return
    assumed = "(loop of 3\u00a0L taken)"
    told = (
        (
            "Could be gone unseen",
            could_be_gone(seen, around.system.get("label_charge_kg")),
        ),
        ("The needle stays there down to", full_until(seen)),
        ("Gas left in it, about", gas_left(seen, around)),
    )
    for words, kilogram in told:
        if kilogram is not None:
            text = with_unit(shown(from_si(kilogram, "g"), 0), "g")
            yield Value(seen.side.name, f"{words} {assumed}", text, kilogram, "kg")


def _caption(seen: AtRest, around: Circumstances) -> str:
    gone = could_be_gone(seen, around.system.get("label_charge_kg"))
    if gone:
        grams = with_unit(shown(from_si(gone, "g"), 0), "g")
        return f"It would stand here with {grams} of the label charge gone (3\u00a0L taken)."
    until = full_until(seen)
    if until:
        grams = with_unit(shown(from_si(until, "g"), 0), "g")
        return f"It would stay here down to {grams} (loop of 3\u00a0L taken)."
    return "The curve holds for a loop at one temperature with liquid in it."


def _plot(seen: AtRest, around: Circumstances) -> Plot | None:
    """The curve around what was read, where the loop had soaked."""
    side, temperature = seen.side, seen.temperature
    if side is None or temperature is None or not seen.judged:
        return None
    warm = measured(temperature.si, temperature.last_digit, "thermometer")
    spot = Spot(
        from_si(temperature.si, "°C"),
        kpa(side.reading.si),
        f"{side.reading.shown}, {temperature.shown}",
        warm.expanded,
        kpa(COVERAGE * side.u),
    )
    words = f"Saturation curve of {seen.gas} with {spot.words}: {_sentence(seen)}"
    return static_plot(seen.gas, around.air, spot, words, _caption(seen, around))


def _read(readings: Readings, around: Circumstances) -> Meaning:
    seen = look(readings, around)
    outcome = Outcome(
        seen.code,
        _sentence(seen),
        _MARKS.get(seen.code, ()),
        tuple(_not_tested(seen, readings)),
        carries=seen.code != "nothing_told",
        basis="general" if seen.judged else "",
    )
    return Meaning(
        outcome,
        _lead(seen),
        band=_band(seen, around),
        notes=tuple(_notes(seen)),
        onward=(_APART,) if seen.apart and seen.code in UNMET else _ONWARD[seen.code],
        values=tuple(_values(seen, around)),
        plot=_plot(seen, around),
    )


STATIC_PRESSURE = Kind(
    name="static_pressure",
    title="Pressure at rest",
    question="What do the gauges show with everything off?",
    version=1,
    minutes=4,
    about="charge",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("gauges on",),
    cautions=(KEY_AWAY, EYES_AND_HANDS, NO_FLAME, NO_VENTING, NEVER_DRY, LOCAL),
    orders=OWN_HOSES,
    at_odds=at_odds,
    stops=stops,
    remarks=(
        HV_HOSES,
        SystemRule(
            {"refrigerant": ("R-744",)},
            "R-744: high pressure at rest. Above 31 °C it is recorded, not judged.",
        ),
    ),
    works_out=(
        WorkedOut("low", "Low side", "same", ("low",), "psi"),
        WorkedOut("low", "Liquid would be at", "boils_at", ("low",), "°C"),
        WorkedOut("high", "High side", "same", ("high",), "psi"),
        WorkedOut("temperature", "Loop", "same", ("temperature",), "°F"),
        WorkedOut(
            "temperature", "With any liquid, low side rests at", "rests_at", ("temperature",), "kPa"
        ),
        WorkedOut("temperature", "The same", "rests_at", ("temperature",), "psi"),
    ),
)
