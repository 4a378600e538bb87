"""The evaporator's temperature sensor: what it tells, beside what is measured there.

One that reads too cold keeps the compressor off; one that reads too warm lets the evaporator ice
up: common practice, no source. Its resistance is held to this vehicle's figure only. Air that fades
while it runs and comes back after a rest is a suspicion of ice: ice is told where it was seen.
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
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, place, quotient
from diagnostics.physics.units import from_si, shown, to_si, with_unit

# Apart by more is not one place read twice; the fins differ from spot to spot. Our judgement.
APART = 5.0  # K
FREEZES = to_si(0, "°C")
WARMTH = Span(-10, 50, -60, 100, "Outside what an evaporator has.", "No car has that.")
OHM = Span(100, 100_000, 0, 10_000_000, "Outside what such sensors have.", "None is below zero.")
TOLERANCE = 0.1  # of the vehicle's figure; our judgement
# An evaporator no warmer can be kept from icing by the car; our judgement.
COLD = to_si(5, "°C")

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
        "iced", "Ice on the evaporator", "Fading air is a suspicion, not ice seen.",
        (
            Answer("seen", "Seen"), Answer("fades", "Air fades, back after a rest"),
            Answer("no", "None seen"), Answer("not_looked", "Not looked"),
        ),
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
        "figure", "This vehicle’s figure at that warmth",
        "Held to it within a tenth: our judgement.", "Ω", OHM, ("kΩ",),
        instrument="ohmmeter", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("too_cold", "tells colder than measured"),
    OutcomeWords("too_warm", "tells warmer than measured"),
    OutcomeWords("outside", "resistance outside the vehicle’s figure"),
    OutcomeWords("iced", "ice seen on the evaporator"),
    OutcomeWords("may_ice", "air fades and comes back, ice not seen"),
    OutcomeWords("refused_cold", "kept off, and it is cold there"),
    OutcomeWords("agrees", "tells what was measured", normal=True),
    OutcomeWords("inside", "resistance inside the vehicle’s figure", normal=True),
    OutcomeWords("cannot_tell", "cannot tell with these readings"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "too_cold": "The sensor tells colder than was measured beside it.",
    "too_warm": "The sensor tells warmer than was measured beside it.",
    "outside": "The sensor’s resistance is more than a tenth (our judgement) off this vehicle’s"
    " figure.",
    "iced": "There is ice on the evaporator.",
    "may_ice": "The air fades while it runs, comes back after a rest: ice is suspected, not seen.",
    "refused_cold": "The car keeps it off, and it is cold there: a finding, not a fault.",
    "agrees": "The sensor tells what was measured beside it.",
    "inside": "The sensor’s resistance is within a tenth (our judgement) of this vehicle’s figure.",
    "cannot_tell": "Whether the sensor tells right cannot be told with these readings.",
    "nothing_told": "What the sensor tells and what was measured beside it were not both read.",
}
_ONWARD = {
    "too_cold": ("Look at its seat and plug; measure its resistance against the vehicle’s data.",),
    "too_warm": ("Look whether it sits in the fins; measure its resistance.",),
    "outside": ("Measure at the sensor’s own pins once more before it is renewed.",),
    "iced": ("Thaw it, blower on, A/C off; look at cabin filter, airflow and this sensor.",),
    "may_ice": ("Look at the evaporator while the air is weak; look at filter and sensor.",),
    "refused_cold": ("Bring it where it is warmer, and try again.",),
    "agrees": (),
    "inside": ("Read what it tells beside what is measured there.",),
    "cannot_tell": ("Let the car soak with A/C off, then read both again.",),
    "nothing_told": ("Read the sensor by scan data and a probe beside it, car soaked.",),
}
SENSOR = "Evaporator’s sensor"


def _rounded(told: Reading) -> float:
    """Of a list of data and of a printed figure no error is known but the digits they have."""
    return told.last_digit / 2 / math.sqrt(3)


def _apart(readings: Readings) -> Measured | None:
    """What it tells less what was measured, in K."""
    told, beside = number(readings, "shown"), number(readings, "beside")
    if told is None or beside is None:
        return None
    other = measured(beside.si, beside.last_digit, "thermometer").u
    return Measured(told.si - beside.si, math.hypot(_rounded(told), other))


def _share(readings: Readings) -> Measured | None:
    """Its resistance as a part of the vehicle's figure."""
    ohm, figure = number(readings, "ohm"), number(readings, "figure")
    if ohm is None or figure is None or figure.si <= 0:
        return None
    read = measured(ohm.si, ohm.last_digit, "ohmmeter")
    return quotient(read, Measured(figure.si, _rounded(figure)))


STEADY = ("soaked", "steady")


def _places(readings: Readings) -> tuple[str, str]:
    """Where two temperatures and the resistance stand, empty where not read.

    What changed while it was read can tell neither; two temperatures tell nothing unless they were
    told as steady.
    """
    apart, share, still = _apart(readings), _share(readings), taps(readings).get("still")
    warmth = place(apart, -APART, APART) if apart else ""
    ohm = place(share, 1 - TOLERANCE, 1 + TOLERANCE) if share else ""
    if still not in STEADY:
        warmth = warmth and "cannot_tell"
    return warmth, ohm and "cannot_tell" if still == "changing" else ohm


def _code(readings: Readings) -> str:
    told, (warmth, ohm) = taps(readings), _places(readings)
    beside = number(readings, "beside")
    cold = bool(beside and beside.si <= COLD)
    rows = (
        ("too_cold", warmth == "below"),
        ("too_warm", warmth == "above"),
        ("outside", ohm in ("below", "above")),
        ("iced", told.get("iced") == "seen"),
        ("may_ice", told.get("iced") == "fades"),
        ("refused_cold", told.get("refused") == "yes" and cold and warmth == "inside"),
        ("cannot_tell", "cannot_tell" in (warmth, ohm)),
        ("agrees", warmth == "inside"),
        ("inside", ohm == "inside"),
    )
    return next(code for code, fits in (*rows, ("nothing_told", True)) if fits)


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    if code == "too_cold":
        yield Mark("likely", SENSOR, "points here; it keeps the compressor off."
                   if told.get("refused") == "yes" else
                   "points here; one that tells too cold can keep the compressor off.")  # fmt: skip
    if code == "too_warm":
        yield Mark("likely", SENSOR, "points here, or it sits out of its place; ice can follow.")
    if code == "outside":
        words = "more than a tenth (our judgement) off this vehicle’s figure at that warmth."
        yield Mark("likely", SENSOR, words)
    if code == "refused_cold":
        words = "it is cold there, and the sensor tells what was measured."
        yield Mark("likely", "Kept off by the cold", words)
    if code == "agrees" and told.get("still"):
        yield Mark("ruled_out", SENSOR, "ruled out at this warmth, as far as both were read.")
    if code == "inside":
        words = "ruled out at this warmth within a tenth (our judgement), its wiring not included."
        yield Mark("ruled_out", SENSOR, words)
    if code == "cannot_tell" or (code == "agrees" and not told.get("still")):
        yield Mark("open", SENSOR, "not settled.")
    yield from _ice(told.get("iced", ""))


def _ice(told: str) -> Iterator[Mark]:
    """Ice stands beside whatever the sensor tells."""
    if told == "seen":
        yield Mark("proved", "Evaporator iced", "seen.")
    if told == "fades":
        yield Mark(
            "likely", "Evaporator iced", "suspected, not seen: the air fades and comes back."
        )
    if told in ("seen", "fades"):
        yield Mark("open", "Why it ices", "airflow, sensor, command or charge: not parted here.")


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
    if told.get("iced") == "seen" and warm and told.get("still") == "soaked":
        yield "iced", "Ice was told, yet it is far above freezing there, off and soaked."


def _band(readings: Readings) -> str:
    """By what the readings were held against each other, and whose figure that is."""
    parts, meters = [], []
    if _apart(readings):
        apart = with_unit(shown(APART, 0), "K")
        parts.append(f"apart by more than {apart} is held apart (our judgement)")
        meters.append(INSTRUMENTS["thermometer"].words)
    if _apart(readings) and taps(readings).get("refused") == "yes":
        cold = with_unit(shown(from_si(COLD, "°C"), 0), "°C")
        parts.append(f"at most {cold} counts as cold there (our judgement)")
    if _share(readings):
        tolerance = with_unit(shown(100 * TOLERANCE, 0), "%")
        parts.append(f"resistance is held to this vehicle’s figure ±{tolerance} (our judgement)")
        meters.append(INSTRUMENTS["ohmmeter"].words)
    words = f"{'; '.join(parts)}; {', '.join(meters)}, by default."
    return f"{words[0].upper()}{words[1:]}" if parts else ""


def _notes(readings: Readings, code: str) -> Iterator[str]:
    told, (warmth, ohm) = taps(readings), _places(readings)
    if told.get("still") == "changing":
        yield "It was changing while it was read: nothing is held against it."
    elif not told.get("still") and warmth:
        yield "Whether it was steady is not told: the two temperatures are held against nothing."
    elif warmth == "cannot_tell":
        yield "Both temperatures: too near the limit for what these instruments can tell."
    elif ohm == "cannot_tell":
        yield "Its resistance: too near the limit for what meter and figure can tell."
    if told.get("refused") == "yes" and code not in ("too_cold", "refused_cold"):
        yield "The car keeps the compressor off for it: why is not told by these readings."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    code = _code(readings)
    outcome = Outcome(
        code,
        _SENTENCES[code],
        tuple(_marks(code, taps(readings))),
        tuple(_not_tested(readings)),
        carries=code != "nothing_told",
        basis={"outside": "vehicle", "inside": "vehicle"}.get(code, ""),
    )
    return Meaning(
        outcome,
        band=_band(readings),
        notes=tuple(_notes(readings, code)),
        onward=_ONWARD[code],
        values=tuple(_values(readings)),
    )


EVAPORATOR_SENSOR = Kind(
    name="evaporator_sensor",
    title="Evaporator’s sensor",
    question="Does the evaporator’s sensor tell what is there, and is there ice?",
    version=2,
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
