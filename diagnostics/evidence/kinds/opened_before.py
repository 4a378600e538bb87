"""Signs that the loop was opened before. Who did it, and how well, is never told by a look.

Dye with marks on caps or fittings, a label or parts that are not original: opened before is likely.
Dye alone says little, many loops are dyed at the factory, and caps are lost without any work.
Common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import HOT, KEY_AWAY, LOCAL, UV_GLASSES
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Field, Text
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps

SIGNS = {
    "fittings": "Tool marks on fittings",
    "parts": "Parts that do not match",
    "seals": "Seals of another color",
    "caps": "Caps",
    "label": "Label not the original",
    "dye": "Dye in the oil",
}
OPENED = {"fittings", "parts", "seals"}  # what is touched only when a joint is undone
PORTS = {"caps", "label"}  # what is touched when gas is put in, too
NOT_SEEN = (Answer("no", "Not seen"), Answer("not_looked", "Not looked"))
SEEN = (Answer("yes", "Seen"), *NOT_SEEN)
CAPS = (
    Answer("marked", "Marked by a tool"),
    Answer("missing", "Missing"),
    Answer("no", "On, no marks"),
    Answer("not_looked", "Not looked"),
)

FIELDS: tuple[Field, ...] = (
    *(
        Choice(
            name,
            words,
            "",
            CAPS if name == "caps" else SEEN,
            compact=True,
            group="" if index else "Signs",
        )
        for index, (name, words) in enumerate(SIGNS.items())
    ),
    Text("where", "Where, and what", "A photo says it best."),
)

OUTCOMES = (
    OutcomeWords("likely", "opened before, likely"),
    OutcomeWords("one_sign", "signs that open no joint"),
    OutcomeWords("dye_only", "dye in the oil only"),
    OutcomeWords("nothing_seen", "none of the signs seen", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "dye_only": "Dye is in the oil, which alone says little.",
    "nothing_seen": "None of the signs is seen.",
    "nothing_told": "Not all of the signs were told.",
}
_ONWARD = {
    "likely": ("Ask what was done and when; look for debris and leak-stop.",),
    "one_sign": ("Ask whether gas was put in, and test for leak-stop.",),
    "dye_only": ("Look for dye outside, place by place.",),
    "nothing_seen": (),
    "nothing_told": ("Look at caps, fittings, label and parts with a lamp.",),
}


def _seen(told: dict[str, str]) -> set[str]:
    return {name for name in SIGNS if told.get(name) in ("yes", "marked", "missing")}


def _code(told: dict[str, str]) -> str:
    """The outcome; beside dye a marked cap or another label counts, a lost cap does not."""
    seen = _seen(told)
    with_dye = told.get("caps") == "marked" or "label" in seen
    if seen & OPENED or ("dye" in seen and with_dye):
        return "likely"
    if seen:
        return "one_sign" if seen & PORTS else "dye_only"
    return "nothing_seen" if all(told.get(name) == "no" for name in SIGNS) else "nothing_told"


def _sentence(code: str, told: dict[str, str]) -> str:
    caps = {"marked": "caps marked by a tool", "missing": "caps missing"}
    names = [name for name in SIGNS if name in _seen(told)]
    words = [caps[told[name]] if name == "caps" else SIGNS[name].lower() for name in names]
    return _SENTENCES.get(code) or f"Seen: {', '.join(words)}."


def _why_open(told: dict[str, str]) -> Iterator[str]:
    """Why what was seen opens no joint."""
    if told.get("caps") == "marked" or told.get("label") == "yes":
        yield "gas is put in through a port without opening a joint"
    if told.get("caps") == "missing":
        yield "a cap is lost without any work"
    if told.get("dye") == "yes":
        yield "many loops are dyed at the factory"


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    subject = "Loop opened before"
    if code == "likely":
        yield Mark("likely", subject, "points here; new parts can be the maker’s own.")
    if code in ("one_sign", "dye_only"):
        yield Mark("open", subject, f"{'; '.join(_why_open(told))}.")
    if told.get("dye") == "yes":
        yield Mark("open", "A leak", "not told by dye in the oil.")
    if code == "nothing_seen":
        yield Mark("open", subject, "not settled: careful work leaves no sign.")


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    left = [words for name, words in SIGNS.items() if told.get(name, "not_looked") == "not_looked"]
    if left:
        yield f"Not looked: {', '.join(left)}."
    yield "Who opened it, when, and how well it was done: not told by a look."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    carries = code != "nothing_told"
    outcome = Outcome(
        code, _sentence(code, told), tuple(_marks(code, told)), tuple(_not_tested(told)), carries
    )
    return Meaning(outcome, onward=_ONWARD[code])


OPENED_BEFORE = Kind(
    name="opened_before",
    title="Signs of earlier work",
    question="Was the loop opened before?",
    version=2,
    minutes=3,
    about="see_first",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(KEY_AWAY, HOT, UV_GLASSES, LOCAL),
    fine=Fine(
        "Fine: none of the signs seen",
        "sets what is not yet told",
        dict.fromkeys(SIGNS, "no"),
        rest=True,
    ),
)
