"""The filter or screen, looked at again after running. Common practice, no source."""

from collections.abc import Iterator

from diagnostics.evidence.cautions import EYES_AND_HANDS, KEY_AWAY, LOCAL
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import MIND_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Number, Span, Text, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.missing import missing
from diagnostics.evidence.readings import Readings, number, taps

FIELDS = (
    Choice(
        "shows", "Filter or screen", "Wiped clean before it went in.",
        (
            Answer("clean", "Clean"), Answer("specks", "A few specks"),
            Answer("debris", "New debris"),
        ),
    ),
    Number(
        "minutes", "Run since", "A/C on, since it was last clean.", "min",
        Span(5, 600, 0, 100_000, "Shorter or longer than such a run.", "Less than no time."),
        ("h",), instrument="watch", condition=True,
    ),
    Choice(
        "place", "Where it sits", "",
        (
            Answer("inline", "Filter in a line"), Answer("expansion", "Expansion device’s screen"),
            Answer("suction", "Screen at the compressor"),
        ),
        condition=True,
    ),
    Text(
        "what", "What is in it", "Color, size; take a photo.",
        when=(When("shows", ("specks", "debris")),),
        why_not="Told as clean or not looked at, so nothing is in it.",
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("debris", "new debris"),
    OutcomeWords("specks", "a few specks"),
    OutcomeWords("clean", "clean after running", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "debris": "There is new debris in the filter or screen",
    "specks": "There are a few specks in the filter or screen",
    "clean": "The filter or screen is clean",
}
_ONWARD = {
    "debris": ("Take a photo.", "Find where it comes from before it runs on."),
    "specks": ("Take a photo.", "Clean it, run it, look again."),
    "clean": (),
    "nothing_told": ("Run it with A/C on, recover, then look again.",),
}


def _code(readings: Readings) -> str:
    seen, run = taps(readings).get("shows", ""), number(readings, "minutes")
    if seen in ("debris", "specks"):
        return seen
    return "clean" if seen == "clean" and run is not None and run.si > 0 else "nothing_told"


def _sentence(code: str, readings: Readings) -> str:
    run = number(readings, "minutes")
    if code == "nothing_told":
        if taps(readings).get("shows") == "clean":
            return "It is clean, but that it ran since is not told."
        return "What is seen in it was not told."
    after = f", {run.shown} run since" if run is not None else ""
    return f"{_SENTENCES[code]}{after}."


def _marks(code: str) -> Iterator[Mark]:
    if code == "debris":
        yield Mark("proved", "New debris in the filter", "seen.")
        yield Mark("open", "Where it comes from", "old debris on its way, or new wear: not parted.")
    if code == "specks":
        yield Mark("open", "Debris still on its way", "not settled by a few specks.")
    if code == "clean":
        yield Mark("open", "The rest of the loop", "not seen; debris can lie where oil is slow.")


def _not_tested(readings: Readings) -> Iterator[str]:
    told = taps(readings)
    if not told.get("shows"):
        yield "Filter or screen: not looked at."
    yield from missing(readings, "minutes", "Minutes run since")
    if not told.get("place"):
        yield "Where it sits: not told."
    yield "What passes the screen: not caught by it."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    code = _code(readings)
    outcome = Outcome(
        code,
        _sentence(code, readings),
        tuple(_marks(code)),
        tuple(_not_tested(readings)),
        carries=code != "nothing_told",
    )
    return Meaning(outcome, onward=_ONWARD[code])


FILTER_SECOND_LOOK = Kind(
    name="filter_second_look",
    title="Filter looked at again",
    question="Is there new debris after running?",
    version=1,
    minutes=10,
    about="cleanliness",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("loop open",),
    cautions=(
        "Open the loop only once it is recovered and at rest.",
        KEY_AWAY,
        EYES_AND_HANDS,
        LOCAL,
    ),
    remarks=(MIND_HIGH_VOLTAGE,),
    fine=Fine(
        "Fine: clean",
        "sets the tap below; minutes run since are still needed",
        {"shows": "clean"},
    ),
)
