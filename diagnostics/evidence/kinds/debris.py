"""Debris in the open loop: where it was looked for, and what was found.

What each kind of debris comes from, and that a parallel-flow condenser cannot be flushed reliably:
trade articles and common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import EYES_AND_HANDS, LOCAL
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import MIND_HIGH_VOLTAGE, MOTOR_NOT_SURE
from diagnostics.evidence.fields import Answer, Choice, Field, Text, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import SystemRule

PLACES = {
    "expansion": "Expansion device’s inlet",
    "drier": "Drier or accumulator",
    "hose": "Hose end",
    "port": "Compressor’s port",
    "filter": "Filter or screen",
}
# Name: what is seen, where it points.
FOUND: dict[str, tuple[str, str]] = {
    "flakes": ("Grey flakes", "Compressor wear"),
    "brass": ("Brass", "Compressor’s bushing"),
    "paste": ("Black paste", "Oil broken down by heat or moisture"),
    "beads": ("Beads", "Desiccant bag open"),
    "crumbs": ("Rubber crumbs", "Hose’s liner"),
    "jelly": ("Jelly or crystals", "Leak-stop in the loop"),
}
ANSWERS = (
    Answer("found", "Found"),
    Answer("clean", "Clean"),
    Answer("not_opened", "Not opened"),
)
OPENED = ("found", "clean")
KINDS_SEEN = (Answer("yes", "Yes"), Answer("no", "No"))

FIELDS: tuple[Field, ...] = (
    *(
        Choice(name, words, "", ANSWERS, compact=True, group="" if index else "Looked for at")
        for index, (name, words) in enumerate(PLACES.items())
    ),
    *(
        Choice(name, words, "", KINDS_SEEN, compact=True, group="" if index else "What was found")
        for index, (name, (words, _from)) in enumerate(FOUND.items())
    ),
    Choice(
        "condenser", "Condenser", "Flat tubes, many side by side: parallel-flow.",
        (
            Answer("parallel", "Parallel-flow"), Answer("tube", "One tube and fins"),
            Answer("not_sure", "Not sure"),
        ),
        condition=True, group="Beside it",
    ),
    Text("what", "Anything else", "Size, how much; take a photo where it was found."),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("metal", "metal"),
    OutcomeWords("leak_stop", "jelly or crystals"),
    OutcomeWords("paste", "black paste"),
    OutcomeWords("desiccant", "beads"),
    OutcomeWords("hose", "rubber crumbs"),
    OutcomeWords("several", "several kinds"),
    OutcomeWords("found", "debris, what kind not told"),
    OutcomeWords("clean", "clean at every place named", normal=True),
    OutcomeWords("part_clean", "clean where it was opened", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_OF = {
    "flakes": "metal",
    "brass": "metal",
    "paste": "paste",
    "beads": "desiccant",
    "crumbs": "hose",
    "jelly": "leak_stop",
}
_PHOTO = "Take a photo of it where it was found, beside something for size."
_INLET = "Open the expansion device’s inlet before a compressor alone is ordered."
_WHOLE = "Quote drier and expansion device with it, and ask what of the loop can be flushed."


def _places(told: dict[str, str], answer: str) -> list[str]:
    return [words for name, words in PLACES.items() if told.get(name, "") == answer]


def _kinds(told: dict[str, str]) -> list[str]:
    return [name for name in FOUND if told.get(name) == "yes"]


def _code(told: dict[str, str]) -> str:
    codes = {_OF[name] for name in _kinds(told)}
    if codes:
        return codes.pop() if len(codes) == 1 else "several"
    if _places(told, "found"):
        return "found"
    clean = len(_places(told, "clean"))
    return ("clean" if clean == len(PLACES) else "part_clean") if clean else "nothing_told"


def _sentence(code: str, told: dict[str, str]) -> str:
    if code == "nothing_told":
        return "No place was told as looked at."
    if code in ("clean", "part_clean"):
        return f"No debris is seen at: {', '.join(_places(told, 'clean'))}."
    what = ", ".join(FOUND[name][0] for name in _kinds(told)) or "Debris"
    where = ", ".join(_places(told, "found"))
    return f"{what}: found" + (f" at {where}." if where else ".")


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    for name in _kinds(told):
        seen, source = FOUND[name]
        yield Mark("proved", f"{seen} in the loop", "seen.")
        yield Mark("likely", source, f"points here, by {seen.lower()}.")
    if code == "found":
        yield Mark("proved", "Debris in the loop", "seen; of what kind is not told.")
    if code in ("clean", "part_clean"):
        words = "not ruled out where it was not opened, nor what is too fine for the eye."
        yield Mark("open", "Debris elsewhere", words)


def _not_tested(code: str, told: dict[str, str]) -> Iterator[str]:
    shut, untold = _places(told, "not_opened"), _places(told, "")
    if shut:
        yield f"Not opened: {', '.join(shut)}."
    if untold:
        yield f"Not told: {', '.join(untold)}."
    if _kinds(told) and not _places(told, "found"):
        yield "Where it was found: not told."
    if code == "found":
        yield "What kind of debris it is: not told."
    if told.get("condenser", "not_sure") == "not_sure":
        yield "Which kind of condenser it is: not told."


def _notes(code: str, told: dict[str, str]) -> Iterator[str]:
    if code in ("clean", "part_clean", "nothing_told"):
        return
    if told.get("condenser") == "parallel":
        yield "A parallel-flow condenser cannot be flushed reliably: after debris it is replaced."
    elif told.get("condenser") != "tube":
        yield "See which condenser it is: a parallel-flow one cannot be flushed reliably."
    yield "Compressor, drier and expansion device are not flushed."


def _onward(code: str, told: dict[str, str]) -> tuple[str, ...]:
    """What comes next; a place that was opened is not asked for again."""
    if "jelly" in _kinds(told):
        return _PHOTO, "Keep the shop’s own machine off; test for leak-stop; quote the whole loop."
    if code == "nothing_told":
        return ("Look at the expansion device’s inlet, the loop open.",)
    inlet = (_INLET,) if told.get("expansion", "not_opened") == "not_opened" else ()
    return inlet if code in ("clean", "part_clean") else (_PHOTO, *inlet, _WHOLE)


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    told = taps(readings)
    if _places(told, "found") or _places(told, ""):
        return
    for name in _kinds(told):
        yield name, f"{FOUND[name][0]}: told as found, yet at no place is anything told as found."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    outcome = Outcome(
        code,
        _sentence(code, told),
        tuple(_marks(code, told)),
        tuple(_not_tested(code, told)),
        carries=code != "nothing_told",
    )
    return Meaning(outcome, notes=tuple(_notes(code, told)), onward=_onward(code, told))


DEBRIS = Kind(
    name="debris",
    title="Debris",
    question="Is there debris in the loop, and what is it?",
    version=1,
    minutes=5,
    about="cleanliness",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("loop open",),
    cautions=(
        "Open the loop only once it is recovered and at rest.",
        EYES_AND_HANDS,
        "Burnt oil is acid: keep it off the skin.",
        "Cap every end at once.",
        LOCAL,
    ),
    orders=("dead_first",),
    orders_for=(When("port", OPENED),),
    at_odds=_at_odds,
    asks_first=MOTOR_NOT_SURE,
    remarks=(
        MIND_HIGH_VOLTAGE,
        SystemRule(
            {"branches": ("rear", "battery")},
            "More than one branch: look at the expansion device of each.",
        ),
    ),
    fine=Fine(
        "Fine: expansion device’s inlet clean, rest not opened",
        "sets what is not yet told",
        {"expansion": "clean", **{name: "not_opened" for name in PLACES if name != "expansion"}},
        rest=True,
    ),
)
