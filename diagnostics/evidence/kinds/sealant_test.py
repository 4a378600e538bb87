"""Leak-stop in the loop? Tested before the shop's own machine is put on.

Common practice, no source. Jelly or crystals are signs of it (trade articles).
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import EYES_AND_HANDS, KEY_AWAY, LOCAL, NO_FLAME
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Text
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.hoses import HV_HOSES, NO_VENTING
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.missing import untold
from diagnostics.evidence.readings import Readings, taps

FIELDS = (
    Choice(
        "kit", "What the test kit shows", "Wait as long as its sheet says.",
        (
            Answer("nothing", "Nothing found"),
            Answer("found", "Leak-stop found"),
            Answer("unclear", "Unclear"),
            Answer("not_used", "No kit used"),
        ),
    ),
    Choice(
        "signs", "Jelly or crystals seen?", "At ports, caps and in the hose.",
        (Answer("none", "None seen"), Answer("seen", "Seen"), Answer("not_looked", "Not looked")),
    ),
    Choice(
        "flowed", "Did gas flow through the kit?", "An empty loop tests nothing.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_told", "Can’t tell")),
        condition=True,
    ),
    Choice(
        "can_added", "Was a can added?", "Asked of the customer; can or its hose still in the car?",
        (
            Answer("yes", "Yes"),
            Answer("no", "No"),
            Answer("not_known", "Not known"),
        ),
        condition=True,
    ),
    Text("which", "Which kit, which can", "If at hand.", 120),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("clean", "kit shows nothing, no signs told", normal=True),
    OutcomeWords("found", "leak-stop found by the kit"),
    OutcomeWords("signs", "signs of leak-stop, kit does not show it"),
    OutcomeWords("unclear", "kit unclear"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

LEAK_STOP = "Leak-stop in the loop"
AT_STAKE = "The shop’s own machine is at stake: keep it off this car."
_SENTENCES = {
    "clean": "Gas flowed through the kit, and it shows nothing.",
    "found": "The kit shows leak-stop.",
    "signs": "Jelly or crystals are seen; the kit does not show what they are.",
    "unclear": "What the kit shows is unclear.",
}
_MARKS = {
    "clean": Mark("ruled_out", LEAK_STOP, "ruled out, as far as this kit reacts to it."),
    "found": Mark("proved", LEAK_STOP, "shown by the kit."),
    "signs": Mark("likely", LEAK_STOP, "points here; desiccant or dye can look alike."),
    "unclear": Mark("open", LEAK_STOP, "this step cannot tell. Test again with a new kit."),
}
_ONWARD: dict[str, tuple[str, ...]] = {
    "clean": (),
    "found": (AT_STAKE, "Take it out with equipment kept for such; quote the whole loop."),
    "signs": (AT_STAKE, "Test with a new kit, gas flowing through it, and take a photo."),
    "unclear": (AT_STAKE, "Test again with a new kit, gas flowing through it."),
    "nothing_told": ("Test with a kit before the shop’s own hoses go on.",),
}

_DRY_FIND = Mark("likely", LEAK_STOP, "points here; without gas the kit proves nothing.")


def _code(told: dict[str, str]) -> str:
    """The outcome; a kit that shows it stands whatever else was told."""
    kit, seen = told.get("kit", ""), told.get("signs") == "seen"
    if kit == "found":
        return "found"
    if seen:
        return "signs"
    if kit == "unclear":
        return "unclear"
    return "clean" if kit == "nothing" and told.get("flowed") == "yes" else "nothing_told"


def _nothing(told: dict[str, str]) -> str:
    if told.get("kit") == "nothing":
        flowed = "no gas flowed through it" if told.get("flowed") == "no" else ""
        why = flowed or "whether gas flowed through it was not told"
        return f"The kit shows nothing, but {why}: it tested nothing."
    if told.get("kit") == "not_used":
        return "No kit was used."
    return "What the kit shows was not told."


def _not_tested(readings: Readings) -> Iterator[str]:
    told = taps(readings)
    if told.get("kit", "not_used") == "not_used":
        yield "Leak-stop: not tested with a kit."
    if told.get("signs", "not_looked") == "not_looked":
        yield "Jelly or crystals at ports and caps: not looked."
    yield from untold(readings, "can_added", "Whether a can was added")
    if told.get("can_added") == "not_known":
        yield "Whether a can was added: not known."
    yield "Which gas is in the loop: not told by this step."


def _notes(told: dict[str, str], code: str) -> Iterator[str]:
    if code == "clean" and told.get("can_added") == "yes":
        yield "A can was added: not every kind of leak-stop makes every kit react."
    if code == "nothing_told" and told.get("can_added") == "yes":
        yield f"A can was added, and leak-stop is not tested. {AT_STAKE}"
    if code == "found" and told.get("flowed") == "no":
        yield "No gas flowed through the kit, yet it shows leak-stop: test again with a new kit."
    if code == "found" and told.get("can_added") == "no":
        yield "No can was added as far as the customer knows; who put it in is not told by a test."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    mark = _MARKS.get(code)
    if code == "found" and told.get("flowed") == "no":
        mark = _DRY_FIND
    outcome = Outcome(
        code,
        _SENTENCES.get(code) or _nothing(told),
        (mark,) if mark else (),
        tuple(_not_tested(readings)),
        carries=code != "nothing_told",
    )
    return Meaning(outcome, notes=tuple(_notes(told, code)), onward=_ONWARD[code])


SEALANT_TEST = Kind(
    name="sealant_test",
    title="Test for leak-stop",
    question="Is leak-stop in the loop?",
    version=1,
    minutes=6,
    about="charge",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("ports reached",),
    cautions=(
        "Before the shop’s own hoses and machine go on.",
        KEY_AWAY,
        EYES_AND_HANDS,
        NO_FLAME,
        NO_VENTING,
        LOCAL,
    ),
    remarks=(HV_HOSES,),
    fine=Fine(
        "Fine: gas flowed, kit shows nothing, no signs",
        "sets the taps below; whether a can was added stays yours to tell",
        {"kit": "nothing", "signs": "none", "flowed": "yes"},
    ),
)
