"""The condenser's face: what lies in the way of the air, and whether water on it helps.

Water test: common practice, no source. Any condenser gives off more heat when it is wet, so a high
side that falls says little; vents that turn colder point at too little air. Oil outside is a place
to look for a leak, nothing in the way of the air: common practice, no source.
"""

import math
from collections.abc import Iterator

from diagnostics.evidence.cautions import CLEAR_OF_BELT, HIGH_VOLTAGE, HOT, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span, SpanOn
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Value
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.loop_pressures import SWITCH_OFF_HIGH, is_too_high
from diagnostics.evidence.missing import missing
from diagnostics.evidence.orders import OWN_HOSES, RUN
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured
from diagnostics.physics.units import from_si, shown, with_unit

MUCH = (Answer("no", "No"), Answer("some", "Some"), Answer("much", "Much"))
ROWS = {
    "dirt": "Leaves, insects, mud on it",
    "bent": "Fins bent flat",
    "oily": "Oily spots",
    "between": "Dirt between it and the radiator",
    "added": "Something in front of it",
}
_NO_VACUUM = "Deeper than perfect vacuum, or more than any hose of a loop holds."
HIGH = Span(300, 3000, -101.33, 6000, "Outside what a running high side shows.", _NO_VACUUM)
HIGH_WIDE = Span(300, 14_000, -101.33, 20_000, HIGH.outside, _NO_VACUUM)
MAYBE_744 = {"refrigerant": ("R-744", "other", "")}


def _high(name: str, words: str, hint: str, group: str = "") -> Number:
    return Number(
        name, words, hint, "kPa", HIGH, ("psi", "bar"), (SpanOn(MAYBE_744, HIGH_WIDE),),
        instrument="high_side_gauge", reference="gauge", compact=True, group=group,
    )  # fmt: skip


FIELDS: tuple[Field, ...] = (
    *(
        Choice(
            name,
            words,
            "",
            MUCH,
            compact=True,
            group="" if index else "In the way of the air",
        )
        for index, (name, words) in enumerate(ROWS.items())
    ),
    Choice(
        "guides", "Air guides and seals beside it", "",
        (Answer("whole", "Whole"), Answer("gaps", "Gaps"),
         Answer("not_seen", "Not seen")),
        compact=True,
    ),
    _high("dry", "High side, dry", "Running steadily.", "Water over its face, running"),
    _high("wet", "High side, wet", "After a minute or two."),
    Choice(
        "colder", "Vents colder when it is wet?", "",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_tried", "Not tried")),
        compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("blocked", "much in the way of the air"),
    OutcomeWords("colder_wet", "vents colder when the condenser is wet"),
    OutcomeWords("some", "some in the way of the air"),
    OutcomeWords("falls_wet", "high side falls when wet, vents not told"),
    OutcomeWords("no_colder", "wetting it changes nothing at the vents"),
    OutcomeWords("oily", "oily spots seen, a place to look for a leak"),
    OutcomeWords("clear", "nothing seen in the way", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "colder_wet": "With water on the condenser the vents turn colder.",
    "falls_wet": "With water on the condenser the high side falls.",
    "no_colder": "With water on the condenser the vents turn no colder.",
    "oily": "Oily spots are seen on the condenser.",
    "clear": "Nothing is seen in the way of the air.",
    "nothing_told": "What lies in the way of the air was not told.",
}
_ONWARD = {
    "blocked": ("Clean it from behind, softly; then look at fans and running pressures again.",),
    "colder_wet": ("Look at fans, shroud, and between condenser and radiator.",),
    "some": ("Wet it with the A/C running: do the vents turn colder?",),
    "falls_wet": ("Measure at a vent, dry and wet.",),
    "no_colder": ("Look on: charge, running pressures, the air’s side inside.",),
    "oily": ("Search under pressure; then wipe it, run, and look whether oil comes again.",),
    "clear": ("Look at the fans, then both running pressures.",),
    "nothing_told": ("Look through the grille with a lamp, from front and from above.",),
}
AIR = "Air through the condenser"


def _those(told: dict[str, str], answer: str) -> list[str]:
    # Oil lies in nobody's way: it is a place to search.
    rows = ((name, words) for name, words in ROWS.items() if name != "oily")
    return [words.lower() for name, words in rows if told.get(name, "") == answer]


def _fall(readings: Readings) -> Measured | None:
    """How much the high side fell when wet, in Pa; one gauge read both."""
    dry, wet = number(readings, "dry"), number(readings, "wet")
    if dry is None or wet is None:
        return None
    return Measured(dry.si - wet.si, math.hypot(_scatter(dry), _scatter(wet)))


def _scatter(pressure: Reading) -> float:
    """What one gauge read twice scatters: a third of its limit of error; our judgement."""
    return measured(pressure.si, pressure.last_digit, "high_side_gauge").u / 3


def _is_oily(told: dict[str, str]) -> bool:
    return told.get("oily") in ("some", "much")


def _code(told: dict[str, str], fall: Measured | None) -> str:
    rows = (
        ("blocked", bool(_those(told, "much"))),
        ("colder_wet", told.get("colder") == "yes"),
        ("some", bool(_those(told, "some")) or told.get("guides") == "gaps"),
        ("no_colder", told.get("colder") == "no"),
        ("falls_wet", fall is not None and fall.value > fall.expanded),
        ("oily", _is_oily(told)),
        ("clear", told.get("dirt") == "no" and told.get("bent") == "no"),
        ("nothing_told", True),
    )
    return next(code for code, fits in rows if fits)


def _sentence(code: str, told: dict[str, str]) -> str:
    if code not in ("blocked", "some"):
        return _SENTENCES[code]
    much, some = _those(told, "much"), _those(told, "some")
    seen = [f"much: {', '.join(much)}"] if much else []
    seen += [f"some: {', '.join(some)}"] if some else []
    seen += ["gaps in the air’s guides"] if told.get("guides") == "gaps" else []
    return f"Seen, {'; '.join(seen)}."


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    if code == "blocked":
        yield Mark("proved", "Something in the way of the air", "seen.")
        yield Mark("likely", AIR, "too little, points here.")
    if code == "colder_wet":
        yield Mark("likely", AIR, "too little, points here; a little helps on any car.")
    if code in ("some", "falls_wet"):
        yield Mark("open", AIR, "not settled: any condenser gives off more when it is wet.")
    if code == "no_colder":
        yield Mark("open", AIR, "not pointed at by this.")
    if code == "clear":
        yield Mark("open", AIR, "nothing seen in its way; how much goes through is not told.")
    if _is_oily(told):
        words = "a place to look: oil outside can come from elsewhere too."
        yield Mark("open", "Leak at the condenser", words)


def _not_tested(readings: Readings, told: dict[str, str]) -> Iterator[str]:
    unseen = [words for name, words in ROWS.items() if not told.get(name)]
    if unseen:
        yield f"Not seen: {', '.join(unseen)}."
    if told.get("colder", "not_tried") == "not_tried":
        yield "Water over its face: vents not told."
    yield from missing(readings, "dry", "High side, dry")
    yield from missing(readings, "wet", "High side, wet")
    yield "Tubes blocked inside: not seen from outside."


def _values(fall: Measured | None) -> Iterator[Value]:
    if fall is not None:
        change = abs(fall.value)
        text = with_unit(shown(from_si(change, "kPa"), 0), "kPa")
        words = f"{'Rises' if fall.value < 0 else 'Falls'} when wet (compared, not judged)"
        yield Value("wet", words, text, change, "Pa", fall.u)


def _notes(told: dict[str, str], fall: Measured | None) -> Iterator[str]:
    if _is_oily(told):
        yield "Oily spots: search there for a leak."
    if fall and abs(fall.value) <= fall.expanded:
        yield "Dry and wet differ by no more than one gauge scatters (our judgement)."


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    fall = _fall(readings)
    if fall and fall.value < -fall.expanded:
        yield "wet", "Wet it stands higher than dry: changed places, or not steady yet."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told, fall = taps(readings), _fall(readings)
    too_high = any(is_too_high(number(readings, name), around.system) for name in ("dry", "wet"))
    code = _code(told, fall)
    outcome = Outcome(
        code,
        _sentence(code, told),
        tuple(_marks(code, told)),
        tuple(_not_tested(readings, told)),
        carries=code != "nothing_told",
    )
    band = f"{INSTRUMENTS['high_side_gauge'].words}, by default." if fall else ""
    return Meaning(
        outcome,
        band=band,
        notes=((SWITCH_OFF_HIGH,) if too_high else ()) + tuple(_notes(told, fall)),
        onward=_ONWARD[code],
        values=tuple(_values(fall)),
    )


CONDENSER_FACE = Kind(
    name="condenser_face",
    title="Condenser’s face",
    question="Does air get through the condenser, and does water on it help?",
    version=1,
    minutes=4,
    about="heat",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        "Water as a mist on the condenser only: never on a hot exhaust, belts or plugs.",
        RUNS_BY_ITSELF,
        CLEAR_OF_BELT,
        HOT,
        LOCAL,
    ),
    orders=(*OWN_HOSES, *RUN),
    orders_for=("dry", "wet"),
    at_odds=_at_odds,
    remarks=(SystemRule({"drive": WITH_HIGH_VOLTAGE}, f"{HIGH_VOLTAGE} No water near orange."),),
    works_out=(
        WorkedOut("dry", "Dry", "same", ("dry",), "psi"),
        WorkedOut("wet", "Wet", "same", ("wet",), "psi"),
    ),
    fine=Fine(
        "Fine: nothing in the way of the air",
        "sets what is not yet told",
        {"dirt": "no", "bent": "no", "oily": "no", "added": "no"},
        rest=True,
    ),
)
