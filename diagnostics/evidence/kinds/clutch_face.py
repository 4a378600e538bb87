"""Plate and pulley face of the clutch, as seen: heat, wear, rust, oil, and whose oil.

What a slipping clutch looks like, and what makes it slip: trade articles. Whose oil it is (dye or a
detector at the nose, else engine oil from above): common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Answer, Choice, Field, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps

SIGNS = {
    "color": "Blue or brown from heat",
    "smell": "Burnt smell",
    "melted": "Compound melted or smeared",
    "dust": "Dust, metal dust",
    "oil": "Oil",
    "rust": "Rust",
}
SEEN = (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_looked", "Not looked"))
HEAT = ("melted", "color", "smell")
LOOPS = ("dye", "detector")

FIELDS: tuple[Field, ...] = (
    *(
        Choice(name, words, "", SEEN, compact=True, group="" if index else "On the faces")
        for index, (name, words) in enumerate(SIGNS.items())
    ),
    Choice(
        "whose", "Whose oil?", "Look at the nose with the lamp, hold a detector there.",
        (
            Answer("dye", "Dye at the nose"), Answer("detector", "Detector alarms there"),
            Answer("engine", "Engine’s, drips on it"), Answer("cannot_tell", "Can’t tell"),
        ),
        when=(When("oil", ("yes",)),), why_not="Asked only where oil is seen.",
    ),
    Choice(
        "plate", "Plate", "With it on, only the edges of the faces are seen.",
        (Answer("on", "On the hub"), Answer("off", "Taken off")),
        condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("loop_oil", "the loop’s oil on the faces"),
    OutcomeWords("melted", "compound melted or smeared"),
    OutcomeWords("overheated", "marks of heat"),
    OutcomeWords("other_oil", "oil from elsewhere on the faces"),
    OutcomeWords("oily", "oil on the faces, whose not settled"),
    OutcomeWords("dusty", "dust of wear"),
    OutcomeWords("rusty", "rust only"),
    OutcomeWords("clean", "nothing seen on the faces", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "loop_oil": "The loop’s oil is on the clutch’s faces.",
    "melted": "The compound is melted or smeared.",
    "overheated": "The faces show marks of heat.",
    "other_oil": "Oil that is not the loop’s is on the faces.",
    "oily": "There is oil on the faces.",
    "dusty": "There is dust of wear about the faces.",
    "rusty": "The faces are rusty.",
    "clean": "No heat, dust, oil or rust is seen on the faces.",
    "nothing_told": "Not all of the faces’ signs were told.",
}
GAP_NEXT = "Measure the air gap."
_ONWARD = {
    "loop_oil": ("Look at the shaft seal: wipe the nose clean, run it, look again.",),
    "melted": (GAP_NEXT, "Turn the hub by hand.", "Read the feed’s drop."),
    "overheated": (GAP_NEXT, "Turn the hub by hand.", "Read the feed’s drop."),
    "other_oil": ("Find where it drips from, and keep it off the faces.", GAP_NEXT),
    "oily": ("Look at the shaft seal with lamp and detector.",),
    "dusty": (GAP_NEXT,),
    "rusty": (GAP_NEXT, "Look whether the plate moves freely."),
    "clean": (),
    "nothing_told": ("Look at both faces with a lamp, engine off.",),
}


def _code(told: dict[str, str]) -> str:
    """The outcome; oil out of the compressor goes before all that the clutch shows itself."""
    seen = {name for name in SIGNS if told.get(name) == "yes"}
    whose = told.get("whose", "")
    if "oil" in seen and whose in LOOPS:
        return "loop_oil"
    if "melted" in seen:
        return "melted"
    if seen & {"color", "smell"}:
        return "overheated"
    if "oil" in seen:
        return "other_oil" if whose == "engine" else "oily"
    if seen:
        return "dusty" if "dust" in seen else "rusty"
    return "clean" if all(told.get(name) == "no" for name in SIGNS) else "nothing_told"


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    """Everything seen, not only what named the outcome."""
    heat = [SIGNS[name].lower() for name in HEAT if told.get(name) == "yes"]
    if heat:
        yield Mark("likely", "Clutch that slipped", f"points here: {', '.join(heat)}.")
        words = "low voltage, wide gap, oil, high head pressure, stiff compressor, belt, hub nut or"
        yield Mark("open", "Why it slipped", f"{words} key: this step cannot tell them apart.")
    if heat or told.get("dust") == "yes":
        words = "wear is what widens a gap, the two come together."
        yield Mark("open", "Gap too wide", words)
    if told.get("oil") == "yes":
        yield _oil_mark(told.get("whose", ""))
    if told.get("rust") == "yes":
        yield Mark("open", "Rusty faces", "standing rusts them too; rust alone names no fault.")
    if code == "clean":
        worn = "Burnt, worn or oily faces"
        if told.get("plate") == "off":
            yield Mark("ruled_out", worn, "ruled out by a look.")
        else:
            yield Mark("open", worn, "no sign outside; behind the plate nobody looked.")
        yield Mark("open", "Gap and coil", "not told by clean faces.")


def _oil_mark(whose: str) -> Mark:
    """Whose oil it is, and what that says of the compressor."""
    if whose in LOOPS:
        by = "dye at the nose" if whose == "dye" else "the detector’s alarm at the nose"
        words = f"points here, by {by}: that is the compressor’s, and a clutch alone gets oily"
        return Mark("likely", "Shaft seal", f"{words} again.")
    if whose == "engine":
        return Mark("likely", "Engine oil dripping on it", "told so; the nose was not shown dry.")
    return Mark("open", "Shaft seal, or engine oil from above", "whose oil it is, is not settled.")


def _not_tested(code: str, told: dict[str, str]) -> Iterator[str]:
    yield "Pull, gap and shaft: not tested by a look."
    for name, words in SIGNS.items():
        if told.get(name, "not_looked") == "not_looked":
            yield f"{words}: not told."
    if told.get("plate") != "off":
        yield "Faces behind the plate: not seen unless it was taken off."
    if code in ("oily", "loop_oil") and not told.get("whose"):
        yield "Whose oil it is: not told."


def _onward(code: str, told: dict[str, str]) -> tuple[str, ...]:
    """What comes next; heat or dust beside what named the outcome sends to the gap, too."""
    worn = any(told.get(name) == "yes" for name in (*HEAT, "dust"))
    gap = (GAP_NEXT,) if worn and GAP_NEXT not in _ONWARD[code] else ()
    return (*_ONWARD[code], *gap)


def _sentence(code: str, told: dict[str, str]) -> str:
    """The outcome's sentence; of clean faces no more than was in sight."""
    if code == "clean" and told.get("plate") != "off":
        return "No heat, dust, oil or rust is seen from outside."
    return _SENTENCES[code]


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    marks = () if code == "nothing_told" else tuple(_marks(code, told))
    outcome = Outcome(
        code, _sentence(code, told), marks, tuple(_not_tested(code, told)), code != "nothing_told"
    )
    return Meaning(outcome, onward=_onward(code, told))


CLUTCH_FACE = Kind(
    name="clutch_face",
    title="Clutch faces",
    question="What do the clutch’s faces show: heat, wear, oil?",
    version=1,
    minutes=3,
    about="clutch",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("hub reached",),
    cautions=(
        cautions.KEY_AWAY,
        cautions.CLEAR_OF_BELT,
        cautions.HOT,
        cautions.UV_GLASSES,
        cautions.LOCAL,
    ),
    bars=NO_CLUTCH,
    asks_first=CLUTCH_NOT_SURE,
    fine=Fine(
        "Rest fine: nothing else seen",
        "sets what is not tapped yet to No",
        dict.fromkeys(SIGNS, "no"),
        rest=True,
    ),
)
