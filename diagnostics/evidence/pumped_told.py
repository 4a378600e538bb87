"""A vacuum told: what it shows, how small a leak it could have seen, and the curve."""

from collections.abc import Iterator

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.findings import Mark, Meaning, Outcome, Plot, Value
from diagnostics.evidence.leak_size import a_year, in_vacuum, taken_words
from diagnostics.evidence.missing import missing, untold
from diagnostics.evidence.pumped import ROWS, Pumped, look
from diagnostics.evidence.readings import Readings, kept_aside, number
from diagnostics.evidence.rise_plot import micron, rise_plot
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.rise import GROSS
from diagnostics.physics.rise_curves import Shape
from diagnostics.physics.uncertainty import INSTRUMENTS, measured
from diagnostics.physics.units import from_si, shown, with_unit
from diagnostics.physics.vacuum import leaves_at, needle_best
from diagnostics.physics.water import TRIPLE_PRESSURE

FEW_MINUTES = 5  # under so many the half minute counts
HELD = ("held", "held_shallow")
BLIND = "A needle cannot show how deep it is: 500 and 5000 micron look the same on it."
_SENTENCES = {
    "held": "Held vacuum (gross check).",
    "held_shallow": "It held, but the target of 500 micron was not reached.",
    "leak": "It rises in a straight line.",
    "moisture": "It rises and flattens below the line at which water boils.",
    "cannot_tell": "Whether it rises cannot be told from these readings.",
    "deep": "The target of 500 micron was reached; whether it holds was not watched.",
    "near_target": "Whether the target of 500 micron was reached cannot be told with this gauge.",
    "not_deep": "The target of 500 micron was not reached.",
    "needle_back": "The needle came back behind the shut valve.",
    "needle_only": BLIND,
}
_ONWARD: dict[str, tuple[str, ...]] = {
    "held": ("Charge by weight, then search for leaks under pressure.",),
    "held_shallow": ("Warm the car, pump on, change the pump’s oil if it is milky.",),
    "leak": ("Close hoses and valve off first, then put nitrogen on and search place by place.",),
    "moisture": ("Warm the car, break the vacuum with dry nitrogen, pump on, watch it again.",),
    "rises": ("Read the loop’s temperature and six or more times, some minutes apart.",),
    "cannot_tell": ("Watch it longer, with six or more readings.",),
    "deep": ("Shut the valve and read it six times or more, some minutes apart.",),
    "near_target": ("Pump on a while, then shut the valve and watch it.",),
    "not_deep": ("Pump on; check pump, its oil and the hoses alone; warm the car.",),
    "needle_back": ("Close hoses and valve off first, then put nitrogen on and search.",),
    "needle_only": ("Put a micron gauge at the system.",),
    "nothing_told": ("Read depth, minutes pumped and the loop’s temperature.",),
}

_FELL = (
    "Make sure that pump is off and valve shut, let gauge and loop settle (a loop that cools falls"
    " too), then read again."
)


def _climb(seen: Pumped) -> str:
    """How fast it climbs, in micron a minute, or empty."""
    if seen.rise is None or seen.rise.rate.value <= 0:
        return ""
    rate = from_si(seen.rise.rate.value, "micron/min")
    return f"{shown(rate, 0 if rate >= 10 else 1)}\u00a0micron a minute"


def _sentence(seen: Pumped, readings: Readings) -> str:
    if seen.code == "rises":
        few = seen.rise is not None and seen.rise.why == "few"
        why = "the loop’s temperature was not read" if seen.temperature is None else ""
        why = "too few readings" if few else why or "these readings fit both"
        return f"It rises; leak and moisture are not told apart: {why}."
    if seen.code == "nothing_told":
        if seen.rise:
            return "The pressure fell behind the shut valve: valve not shut, or gauge not settled."
        kept = "depth" in kept_aside(readings)
        return f"Depth was {'kept as typed, not used' if kept else 'not read'}."
    if seen.code == "leak" and seen.rise and seen.rise.above_water:
        return "It rises through the line at which water boils, which water alone cannot."
    return _SENTENCES[seen.code]


def _size(seen: Pumped, rate: float, around: Circumstances) -> str:
    """A rise in Pa/s as refrigerant a year, in words, or empty."""
    if not seen.timed:
        return ""
    mean = sum(one.pressure.pa for one in seen.timed) / len(seen.timed)
    found = in_vacuum(rate, Absolute(mean), seen.kelvin, around)
    return a_year(abs(found)) if found is not None else ""


def _told_whole(seen: Pumped) -> bool:
    """Whether a hold can be held against anything: how long it was pumped, and how warm it was."""
    return seen.pumped is not None and seen.temperature is not None


def _marks(seen: Pumped, around: Circumstances) -> Iterator[Mark]:
    rise = seen.rise
    if rise and seen.code in HELD and not _told_whole(seen):
        yield Mark(
            "open", "Leak or moisture", "not told: a vacuum held needs what is missing below."
        )
    elif rise and seen.code in HELD:
        smallest = _size(seen, rise.hidden_rate, around)
        yield Mark("ruled_out", "Gross leak", f"ruled out above about {smallest}.")
        yield Mark("open", "A smaller leak", "not told by a vacuum: it is no proof of tightness.")
    if rise and seen.code == "leak":
        climbs = "through water’s line" if rise.above_water else f"{_climb(seen)}, straight"
        words = f"points here: it climbs {climbs}; hoses, couplers and valve count too."
        yield Mark("likely", "A leak", words)
    if rise and seen.code == "moisture":
        yield Mark("likely", "Moisture, or gas out of the oil", "points here: it flattens.")
        hidden = _size(seen, rise.hidden_rate, around)
        yield Mark("open", "A leak", f"one of up to about {hidden} can hide in it.")
    if seen.code == "rises":
        yield Mark("open", "Leak or moisture", "this step cannot tell them apart.")
    if seen.code == "cannot_tell":
        yield Mark("open", "Leak or moisture", "cannot tell whether it rises at all.")
    if seen.code in ("not_deep", "held_shallow"):
        yield Mark("open", "Moisture, leak, pump or hoses", "this step cannot tell them apart.")
    if seen.code == "needle_back":
        yield Mark("likely", "A gross leak", "points here; hoses, couplers and valve count too.")


def _lead(seen: Pumped) -> str:
    told = []
    if seen.depth:
        told.append(seen.depth.shown)
    if seen.needle:
        told.append(f"{seen.needle.shown} of vacuum by needle")
    if seen.pumped:
        told.append(f"pumped {seen.pumped.shown}")
    if seen.temperature:
        told.append(f"loop at {seen.temperature.shown}")
    if len(seen.timed) > 1:
        watched = with_unit(shown(seen.minutes, 0 if seen.minutes >= FEW_MINUTES else 1), "min")
        told.append(f"watched {watched}")
    return f"{', '.join(told)}." if told else ""


def _band(seen: Pumped, around: Circumstances) -> str:
    if not (seen.timed or seen.needle):
        return ""
    air = with_unit(shown(from_si(around.air.pa, "kPa"), 1), "kPa")
    words = [f"The air presses with {air}, {around.air_words}."]
    if seen.timed:
        words.insert(0, f"{INSTRUMENTS['micron_gauge'].words}, by default.")
    if seen.rise:
        words.append(taken_words(around))
    return " ".join(words)


def _notes(seen: Pumped) -> Iterator[str]:
    if seen.timed:
        yield GROSS
    if seen.taps.get("gauge") == "machine":
        yield "Read at the machine: the loop behind its hoses can stand higher."
    if seen.code == "needle_back":
        yield BLIND
    chills = any(one.pressure < TRIPLE_PRESSURE for one in seen.timed)
    if chills and seen.code in ("moisture", "rises", "held_shallow", "not_deep"):
        yield (
            "Below 4 588 micron boiling water can chill itself to ice, which then leaves slowly."
        )


def _not_tested(seen: Pumped, readings: Readings) -> Iterator[str]:
    if seen.taps.get("gauge") == "needle":
        yield from missing(readings, "needle", "Needle")
        yield from untold(readings, "needle_after", "Needle after the hold")
    else:
        yield from missing(readings, "depth", "Depth")
    yield from untold(readings, "gauge", "Which gauge, and where")
    yield from missing(readings, "pumped", "Minutes pumped")
    yield from missing(readings, "temperature", "Temperature of the loop")
    if len(seen.timed) < 2 and seen.taps.get("gauge") != "needle":
        yield "How it held: no readings after the valve was shut."
    for row in ROWS:
        half = {bool(number(readings, f"{one}{row}")) for one in "tp"}
        if len(half) > 1:
            yield f"Reading {row}: minute or pressure is missing, so it is not used."
    yield "Small leaks: not told by a vacuum."


def _values(seen: Pumped, around: Circumstances) -> Iterator[Value]:
    """Where water leaves at that depth, what a needle can show here, and the leak in grams."""
    if seen.depth:
        kelvin = leaves_at(Absolute(seen.depth.si)) if seen.depth.si > 0 else None
        if kelvin is not None:
            text = with_unit(shown(from_si(kelvin, "°C"), 0), "°C")
            yield Value("depth", "Water or ice leaves there from", text, kelvin, "K")
    if seen.needle:
        best = -needle_best(around.air).pa
        text = with_unit(shown(from_si(best, "inHg"), 1), "inHg")
        yield Value("needle", "Perfect vacuum shows here", text, best, "Pa")
        left = around.air.pa - seen.needle.si
        gauge = measured(left, seen.needle.last_digit, "low_side_gauge")
        low = shown(from_si(max(left - gauge.expanded, 0.0), "kPa"), 0)
        high = with_unit(shown(from_si(left + gauge.expanded, "kPa"), 0), "kPa")
        text = f"{low} to {high}"
        yield Value("needle", "Left in it, anything from", text, max(left, 0.0), "Pa", gauge.u)
    yield from _leak_values(seen, around)


def _leak_values(seen: Pumped, around: Circumstances) -> Iterator[Value]:
    rise = seen.rise
    few = rise is not None and rise.why == "few" and seen.code == "rises"
    if rise is None or few or seen.code == "nothing_told":
        return
    about = "depth" if seen.depth else "p1"
    if seen.code in HELD:
        rate, words = rise.hidden_rate, "Smallest leak this hold could have seen"
    elif seen.code == "leak":
        rate, words = rise.rate.value, "As a leak, about"
    else:
        rate, words = rise.hidden_rate, "A leak up to this can be in it"
    mean = sum(one.pressure.pa for one in seen.timed) / len(seen.timed)
    found = in_vacuum(rate, Absolute(mean), seen.kelvin, around)
    if found is not None:
        yield Value(about, words, a_year(abs(found)), abs(found), "kg/s")


def _plot(seen: Pumped, sentence: str) -> Plot | None:
    rise = seen.rise
    if rise is None or seen.code == "nothing_told":
        return None
    shapes: dict[str, Shape] = {"moisture": "flattening", "held": "level", "held_shallow": "level"}
    shape = shapes.get(seen.code, "straight")
    if rise.above_water:
        shape = min(("straight", "flattening"), key=lambda one: rise.curves[one].misfit)
    curve = rise.curves[shape]
    if seen.temperature:
        water_words = f"water boils, {seen.temperature.shown}"
    else:
        water_words = "water boils, 20\u00a0°C taken"
    dots = ", ".join(
        f"{with_unit(shown(micron(one.pressure.pa), 0), 'micron')}"
        f" at {with_unit(shown(one.second / 60, 0), 'min')}"
        for one in seen.timed
    )
    words = f"Pressure behind the shut valve: {dots}. {sentence}"
    return rise_plot(seen.timed, curve, seen.water, water_words, words, GROSS)


def _onward(seen: Pumped) -> tuple[str, ...]:
    """What comes next; what was read is not asked for again."""
    if seen.code in HELD and not _told_whole(seen):
        return ("Tell how long it was pumped and how warm the loop is, then watch it once more.",)
    if seen.rise and seen.code == "nothing_told":
        return (_FELL,)
    if seen.code == "rises" and seen.temperature:
        return ("Read it six or more times, some minutes apart.",)
    return _ONWARD[seen.code]


def read(readings: Readings, around: Circumstances) -> Meaning:
    """The meaning of what was read."""
    seen = look(readings)
    sentence = _sentence(seen, readings)
    outcome = Outcome(
        seen.code,
        sentence,
        tuple(_marks(seen, around)),
        tuple(_not_tested(seen, readings)),
        carries=seen.code not in ("nothing_told", "needle_only"),
        basis="general" if seen.code not in ("nothing_told", "needle_only") else "",
    )
    return Meaning(
        outcome,
        _lead(seen),
        band=_band(seen, around),
        notes=tuple(_notes(seen)),
        onward=_onward(seen),
        values=tuple(_values(seen, around)),
        plot=_plot(seen, sentence),
    )
