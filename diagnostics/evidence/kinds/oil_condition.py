"""The oil that came out: color, smell, acid, moisture, dye, how much, and what the label says.

Black or burnt oil was broken down by heat or moisture: trade articles. Milky oil holds moisture,
and oil is matched once: common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import EYES_AND_HANDS, HIGH_VOLTAGE, LOCAL, UV_GLASSES
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import MOTOR_NOT_SURE, WITH_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.missing import missing
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut

FIELDS = (
    Choice(
        "look", "Looks", "On white paper or in a clear cup.",
        (
            Answer("clear", "Clear"), Answer("dark", "Dark"),
            Answer("black", "Black"), Answer("milky", "Milky"),
        ),
    ),
    Choice(
        "smell", "Smells burnt", "From a distance.",
        (Answer("no", "No"), Answer("yes", "Yes"), Answer("not_tried", "Not tried")),
        compact=True,
    ),
    Choice(
        "acid", "Acid test", "",
        (Answer("no", "Shows none"), Answer("yes", "Shows acid"), Answer("not_tried", "Not made")),
        compact=True,
    ),
    Choice(
        "dye", "Dye in it", "",
        (Answer("no", "No"), Answer("yes", "Yes"), Answer("not_tried", "Not looked")),
        compact=True,
    ),
    Number(
        "amount", "Came out", "Measured, not guessed.", "mL",
        Span(1, 400, 0, 3000, "Outside what a car’s loop gives up.", "No loop holds that."),
        ("fl oz",), instrument="measuring_cup",
    ),
    Choice(
        "source", "Out of", "",
        (Answer("compressor", "Compressor"), Answer("machine", "Machine"), Answer("both", "Both")),
        condition=True, compact=True,
    ),
    Choice(
        "label", "Type by the label", "The car’s or the compressor’s.",
        (
            Answer("pag46", "PAG 46"), Answer("pag100", "PAG 100"), Answer("pag150", "PAG 150"),
            Answer("poe", "POE"), Answer("other", "Another"), Answer("none", "Not on it"),
        ),
        condition=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("acid", "acid test shows acid"),
    OutcomeWords("burnt", "black, or smells burnt"),
    OutcomeWords("moist", "milky"),
    OutcomeWords("dark", "dark"),
    OutcomeWords("clear", "clear", normal=True),
    OutcomeWords("amount", "amount only"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "acid": "The acid test shows acid in the oil.",
    "burnt": "The oil is black or smells burnt.",
    "moist": "The oil is milky.",
    "dark": "The oil is dark.",
    "clear": "The oil is clear.",
    "nothing_told": "How the oil looks was not told.",
}
_ONWARD = {
    "acid": ("Look for debris; quote drier and expansion device with the compressor.",),
    "burnt": ("Look for debris at the expansion device’s inlet.",),
    "moist": ("Quote the drier; pull vacuum deep and long, by a micron gauge.",),
    "dark": ("Look for debris.",),
    "clear": (),
    "amount": ("Look at it on white paper.",),
    "nothing_told": ("Catch the oil in a clear cup, look and measure.",),
}


def _code(readings: Readings) -> str:
    told = taps(readings)
    look, smell = told.get("look", ""), told.get("smell", "")
    if told.get("acid") == "yes":
        return "acid"
    if look == "black" or smell == "yes":
        return "burnt"
    if look in ("milky", "dark", "clear"):
        return {"milky": "moist"}.get(look, look)
    return "nothing_told" if number(readings, "amount") is None else "amount"


def _onward(code: str, told: dict[str, str]) -> tuple[str, ...]:
    """What comes next; an acid test that was made is not asked for again."""
    made = told.get("acid", "not_tried") != "not_tried"
    acid = ("Make an acid test.",) if code in ("burnt", "dark") and not made else ()
    return (*_ONWARD[code], *acid)


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    broken = "Oil broken down by heat or moisture"
    if code == "acid":
        yield Mark("likely", broken, "points here, by the acid test.")
    if code == "burnt":
        none = "; the acid test shows none" if told.get("acid") == "no" else ""
        yield Mark("likely", broken, f"points here, by color or smell{none}.")
    if told.get("look") == "milky":
        yield Mark("likely", "Moisture in the loop", "points here, by the milky look.")
    if code == "dark":
        yield Mark("open", broken, "not told by a dark color alone.")
    if code == "clear":
        yield Mark("open", "Wear and moisture", "not ruled out by clear oil.")
    if told.get("dye") == "yes" and code != "nothing_told":
        yield Mark("open", "A leak", "not told: many loops are dyed at the factory.")


def _not_tested(readings: Readings) -> Iterator[str]:
    told = taps(readings)
    rows = {"look": "Look", "smell": "Smell", "acid": "Acid test", "dye": "Dye"}
    left = [words for name, words in rows.items() if told.get(name, "not_tried") == "not_tried"]
    if left:
        yield f"Not told: {', '.join(left)}."
    yield from missing(readings, "amount", "Oil that came out")
    if number(readings, "amount") is not None and not told.get("source"):
        yield "What it came out of: not told."
    if told.get("label", "none") == "none":
        yield "Type by the label: not told."
    yield "Which oil is really in it: not told by a look."


def _notes(readings: Readings, around: Circumstances) -> Iterator[str]:
    if number(readings, "amount") is not None:
        yield "Count oil once: mind what a new compressor comes with. Oil is no refrigerant."
    told, hv = taps(readings).get("label", ""), around.system.get("drive") in WITH_HIGH_VOLTAGE
    if hv and told.startswith("pag"):
        yield "PAG told on a high-voltage compressor: read the label again before any oil goes in."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    code = _code(readings)
    amount = number(readings, "amount")
    sentence = _SENTENCES.get(code, "")
    if code == "amount" and amount is not None:
        sentence = f"{amount.shown} of oil came out; how it looks was not told."
    outcome = Outcome(
        code,
        sentence,
        tuple(_marks(code, taps(readings))),
        tuple(_not_tested(readings)),
        carries=code != "nothing_told",
    )
    notes = tuple(_notes(readings, around))
    return Meaning(outcome, notes=notes, onward=_onward(code, taps(readings)))


OIL_CONDITION = Kind(
    name="oil_condition",
    title="Oil",
    question="What does the oil look like, and how much came out?",
    version=1,
    minutes=5,
    about="cleanliness",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("loop open",),
    cautions=("Burnt oil is acid: keep it off the skin.", EYES_AND_HANDS, UV_GLASSES, LOCAL),
    orders=("dead_first",),
    orders_for=(When("source", ("compressor", "both")),),
    asks_first=MOTOR_NOT_SURE,
    remarks=(
        SystemRule(
            {"drive": WITH_HIGH_VOLTAGE},
            f"{HIGH_VOLTAGE} Only the oil the maker names.",
        ),
    ),
    works_out=(WorkedOut("amount", "The same", "same", ("amount",), "fl oz"),),
    fine=Fine(
        "Fine: clear, no burnt smell",
        "sets the taps below; how much came out stays yours to type",
        {"look": "clear", "smell": "no"},
    ),
)
