"""The evaporator's temperature sensor: what it tells, beside what is measured there.

One that reads too cold keeps the compressor off; one that reads too warm lets the evaporator ice
up: common practice, no source. Its resistance is held to this vehicle's figure only.
"""

import math
from collections.abc import Iterator

from diagnostics.evidence.cautions import KEY_AWAY, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Value
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.missing import missing
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, place
from diagnostics.physics.units import shown, to_si, with_unit

# Apart by more is not one place read twice; the fins differ from spot to spot. Our judgement.
APART = 5.0  # K
FREEZES = to_si(0, "°C")
WARMTH = Span(-10, 50, -60, 100, "Outside what an evaporator has.", "No car has that.")
OHM = Span(100, 100_000, 0, 10_000_000, "Outside what such sensors have.", "None is below zero.")
TOLERANCE = 0.1  # where the figure names none; our judgement

FIELDS: tuple[Field, ...] = (
    Number(
        "shown", "What the sensor tells", "By scan data.", "°C", WARMTH, ("°F",),
        instrument="scan_data", compact=True,
    ),
    Number(
        "beside", "Measured beside it", "A probe at the fins or the nearest duct.", "°C", WARMTH,
        ("°F",), instrument="thermometer", compact=True,
    ),
    Choice(
        "still", "Steady while you read?", "Off and soaked is best: then both are one.",
        (Answer("soaked", "Off and soaked"), Answer("steady", "Running steadily"),
         Answer("changing", "Changing")),
        condition=True,
    ),
    Choice(
        "iced", "Evaporator iced", "Airflow fades while it runs, comes back after a rest.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_looked", "Not looked")),
    ),
    Choice(
        "refused", "Does the car keep the compressor off for it?", "By scan data.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("cannot_tell", "Can’t tell")),
    ),
    Number(
        "ohm", "Sensor’s resistance", "Plug off, key off.", "Ω", OHM, ("kΩ",),
        instrument="ohmmeter", compact=True, group="On the meter, against this vehicle’s data",
    ),
    Number(
        "figure", "This vehicle’s figure at that warmth", "", "Ω", OHM, ("kΩ",),
        instrument="ohmmeter", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("too_cold", "tells colder than measured"),
    OutcomeWords("too_warm", "tells warmer than measured"),
    OutcomeWords("outside", "resistance outside the vehicle’s figure"),
    OutcomeWords("iced", "evaporator iced"),
    OutcomeWords("refused_cold", "kept off, and it is cold there"),
    OutcomeWords("agrees", "tells what was measured", normal=True),
    OutcomeWords("inside", "resistance inside the vehicle’s figure", normal=True),
    OutcomeWords("cannot_tell", "cannot tell with these readings"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "too_cold": "The sensor tells colder than was measured beside it.",
    "too_warm": "The sensor tells warmer than was measured beside it.",
    "outside": "The sensor’s resistance lies outside this vehicle’s figure.",
    "iced": "The evaporator is iced.",
    "refused_cold": "The car keeps it off, and it is cold there: a finding, not a fault.",
    "agrees": "The sensor tells what was measured beside it.",
    "inside": "The sensor’s resistance lies inside this vehicle’s figure.",
    "cannot_tell": "Whether the sensor tells right cannot be told with these readings.",
    "nothing_told": "What the sensor tells and what was measured beside it were not both read.",
}
_ONWARD = {
    "too_cold": ("Look at its seat and plug; measure its resistance against the vehicle’s data.",),
    "too_warm": ("Look whether it sits in the fins; measure its resistance.",),
    "outside": ("Measure at the sensor’s own pins once more before it is renewed.",),
    "iced": ("Thaw it, blower on, A/C off; look at cabin filter, airflow and this sensor.",),
    "refused_cold": ("Bring it where it is warmer, and try again.",),
    "agrees": (),
    "inside": ("Read what it tells beside what is measured there.",),
    "cannot_tell": ("Let the car soak with A/C off, then read both again.",),
    "nothing_told": ("Read the sensor by scan data and a probe beside it, car soaked.",),
}
SENSOR = "Evaporator’s sensor"


def _apart(readings: Readings) -> Measured | None:
    """What it tells less what was measured, in K."""
    told, beside = number(readings, "shown"), number(readings, "beside")
    if told is None or beside is None:
        return None
    one = _scan_u(told)
    other = measured(beside.si, beside.last_digit, "thermometer").u
    return Measured(told.si - beside.si, math.hypot(one, other))


def _scan_u(told: Reading) -> float:
    """A list of data rounds; it has no error of its own that is known."""
    return told.last_digit / 2 / math.sqrt(3)


def _ohm(readings: Readings) -> str:
    """Where its resistance stands to the vehicle's figure, or empty."""
    ohm, figure = number(readings, "ohm"), number(readings, "figure")
    if ohm is None or figure is None or figure.si <= 0:
        return ""
    low, high = figure.si * (1 - TOLERANCE), figure.si * (1 + TOLERANCE)
    return place(measured(ohm.si, ohm.last_digit, "ohmmeter"), low, high)


def _code(readings: Readings) -> str:
    told, apart, ohm = taps(readings), _apart(readings), _ohm(readings)
    changing = told.get("still") == "changing"
    where = place(apart, -APART, APART) if apart and not changing else ""
    beside = number(readings, "beside")
    cold = bool(beside and beside.si <= FREEZES + APART)
    rows = (
        ("too_cold", where == "below"),
        ("too_warm", where == "above"),
        ("outside", ohm in ("below", "above")),
        ("iced", told.get("iced") == "yes"),
        ("refused_cold", told.get("refused") == "yes" and cold),
        ("agrees", where == "inside"),
        ("inside", ohm == "inside"),
        ("cannot_tell", bool(apart or ohm)),
    )
    return next(code for code, fits in (*rows, ("nothing_told", True)) if fits)


def _marks(code: str, refused: bool) -> Iterator[Mark]:
    if code == "too_cold":
        yield Mark("likely", SENSOR, "points here; it keeps the compressor off." if refused else
                   "points here; one that tells too cold can keep the compressor off.")  # fmt: skip
    if code == "too_warm":
        yield Mark("likely", SENSOR, "points here, or it sits out of its place; ice can follow.")
    if code == "outside":
        yield Mark("likely", SENSOR, "outside this vehicle’s figure at that warmth.")
    if code == "iced":
        yield Mark("proved", "Evaporator iced", "seen.")
        yield Mark("open", "Why it ices", "airflow, sensor, command or charge: not parted here.")
    if code == "refused_cold":
        yield Mark("likely", "Kept off by the cold", "it is cold there; not the sensor.")
    if code == "agrees":
        yield Mark("ruled_out", SENSOR, "ruled out at this warmth, as far as both were read.")
    if code == "inside":
        yield Mark("ruled_out", SENSOR, "ruled out at this warmth, its wiring not included.")
    if code == "cannot_tell":
        yield Mark("open", SENSOR, "not settled.")


def _not_tested(readings: Readings) -> Iterator[str]:
    told = taps(readings)
    yield from missing(readings, "shown", "What the sensor tells")
    yield from missing(readings, "beside", "Temperature beside it")
    if not told.get("still"):
        yield "Whether it was steady: not told."
    if told.get("iced", "not_looked") == "not_looked":
        yield "Ice: not looked."
    if number(readings, "ohm") and number(readings, "figure") is None:
        yield "This vehicle’s figure: not known, so its resistance is recorded, not judged."
    yield "At other temperatures: not tested."


def _values(readings: Readings) -> Iterator[Value]:
    apart = _apart(readings)
    if apart:
        words = "Tells warmer" if apart.value >= 0 else "Tells colder"
        text = with_unit(shown(abs(apart.value), 0), "K")
        yield Value("beside", words, text, apart.value, "ΔK", apart.u)


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    told, beside = taps(readings), number(readings, "beside")
    warm = beside and beside.si > FREEZES + 15
    if told.get("iced") == "yes" and warm and told.get("still") == "soaked":
        yield "iced", "Ice was told, yet it is far above freezing there, off and soaked."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    code = _code(readings)
    outcome = Outcome(
        code,
        _SENTENCES[code],
        tuple(_marks(code, taps(readings).get("refused") == "yes")),
        tuple(_not_tested(readings)),
        carries=code != "nothing_told",
        basis={"outside": "vehicle", "inside": "vehicle"}.get(code, ""),
    )
    band = ""
    if _apart(readings):
        apart = with_unit(shown(APART, 0), "K")
        band = f"Apart by more than {apart} is held apart (our judgement);"
        band += f" {INSTRUMENTS['thermometer'].words}, by default."
    changing = taps(readings).get("still") == "changing"
    notes = ("It was changing while it was read: nothing is held against it.",) if changing else ()
    return Meaning(
        outcome, band=band, notes=notes, onward=_ONWARD[code], values=tuple(_values(readings))
    )


EVAPORATOR_SENSOR = Kind(
    name="evaporator_sensor",
    title="Evaporator’s sensor",
    question="Does the evaporator’s sensor tell what is there, and is there ice?",
    version=1,
    minutes=5,
    about="heat",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(KEY_AWAY, RUNS_BY_ITSELF, LOCAL),
    at_odds=_at_odds,
    works_out=(
        WorkedOut("shown", "Sensor", "same", ("shown",), "°F"),
        WorkedOut("beside", "Beside it", "same", ("beside",), "°F"),
    ),
)
