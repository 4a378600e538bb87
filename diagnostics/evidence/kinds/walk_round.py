"""The look round the car: the rows of California's list of what an inspection looks at.

The rows follow 16 CCR 3366 (a state regulation). How long it takes: common practice, no source.
What could not be reached is neither fine nor a fault.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import (
    CLEAR_OF_BELT,
    HOT,
    KEY_AWAY,
    LOCAL,
    STOP_DRIVING,
)
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import MIND_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Field, Text
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.orders import BELT
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, SystemIs, can_be_such

SEEN = (
    Answer("fine", "Seen fine"),
    Answer("not_fine", "Not fine"),
    Answer("no_reach", "Out of reach"),
)
FITTED = (*SEEN, Answer("not_fitted", "Not fitted"))
TURNED = (
    Answer("fine", "Turns freely"),
    Answer("not_fine", "Does not"),
    Answer("no_reach", "Not tried"),
)
GAS = (
    Answer("fine", "As label"),
    Answer("not_fine", "Not as label"),
    Answer("no_reach", "Not known"),
)
ON_BELT: SystemIs = {"drive": BELT}
ANY: SystemIs = {}
# Name, what it is called, its answers, and on which systems it is there.
ROWS: tuple[tuple[str, str, tuple[Answer, ...], SystemIs], ...] = (
    ("hoses", "Hoses and lines", SEEN, ANY),
    ("compressor", "Compressor and clutch", SEEN, ANY),
    ("turned", "Compressor turned by hand", TURNED, ON_BELT),
    ("ports", "Service ports, caps, labels", SEEN, ANY),
    ("condenser", "Condenser", SEEN, ANY),
    ("expansion", "Expansion device", SEEN, ANY),
    ("drier", "Accumulator or receiver-drier", SEEN, ANY),
    ("belt", "Belt, pulleys, tensioner", SEEN, ON_BELT),
    ("fan_clutch", "Fan clutch", FITTED, ON_BELT),
    ("fan", "Fan", SEEN, ANY),
    ("wiring", "Wiring within reach", SEEN, ANY),
    ("gas", "Refrigerant, by identifier", GAS, ANY),
)
# A hand or an instrument tells these, no glance does.
DONE_NOT_SEEN = {"turned": "felt by hand", "gas": "told by the identifier"}
HARMED = ("belt", "turned")  # not fine, these can throw the belt

FIELDS: tuple[Field, ...] = (
    *(
        Choice(name, words, "", answers, on=on, compact=True, group="" if index else "Round it")
        for index, (name, words, answers, on) in enumerate(ROWS)
    ),
    Text("what", "What is not fine", "Where, and what is seen."),
)

OUTCOMES = (
    OutcomeWords("gas_not_label", "refrigerant not as label"),
    OutcomeWords("not_turning", "compressor does not turn freely by hand"),
    OutcomeWords("not_fine", "something not fine"),
    OutcomeWords("all_fine", "every row told as fine", normal=True),
    OutcomeWords("part_fine", "fine where looked or tried, rows left out", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_ONWARD = {
    "gas_not_label": ("Keep the shop’s own hoses off; identify the gas.",),
    "not_turning": ("Turn the hub by hand as a test of its own; do not run it.",),
    "not_fine": ("Take a photo of it, and test that part.",),
    "all_fine": (),
    "part_fine": ("Look at the rows left out with covers off or on a lift.",),
    "nothing_told": ("Walk round it with a lamp, engine off.",),
}


def _those(told: dict[str, str], system: System, answer: str) -> list[str]:
    """The rows that such a car has, in words, with this answer; "" for those not told."""
    return [
        words
        for name, words, _answers, on in ROWS
        if told.get(name, "") == answer and can_be_such(on, system)
    ]


def _code(told: dict[str, str], system: System) -> str:
    if told.get("gas") == "not_fine":
        return "gas_not_label"
    if told.get("turned") == "not_fine" and can_be_such(ON_BELT, system):
        return "not_turning"
    if _those(told, system, "not_fine"):
        return "not_fine"
    if not _those(told, system, "fine"):
        return "nothing_told"
    left = _those(told, system, "") or _those(told, system, "no_reach")
    return "part_fine" if left else "all_fine"


def _sentence(code: str, told: dict[str, str], system: System) -> str:
    if code == "nothing_told":
        return "No row was told as fine or not."
    if code == "all_fine":
        return "Every row was told as fine."
    if code == "part_fine":
        return "Fine where it was looked or tried; rows were left out."
    what = told.get("what", "").strip().rstrip(".")
    rows = ", ".join(_those(told, system, "not_fine"))
    return f"Not fine: {rows}" + (f" ({what})." if what else ".")


def _marks(code: str, told: dict[str, str], system: System) -> Iterator[Mark]:
    for name, words, _answers, on in ROWS:
        if told.get(name) == "not_fine" and can_be_such(on, system):
            by = DONE_NOT_SEEN.get(name, "seen")
            yield Mark(
                "proved", f"{words}: not fine", f"{by}; whether it is the cause is not told."
            )
    if code in ("all_fine", "part_fine"):
        yield Mark("open", "What no look shows", "electrics, charge and the inside stay open.")


def _not_tested(told: dict[str, str], system: System) -> Iterator[str]:
    out, untold = _those(told, system, "no_reach"), _those(told, system, "")
    if out:
        yield f"Not reached, tried or known, so neither fine nor a fault: {', '.join(out)}."
    if untold:
        yield f"Not told: {', '.join(untold)}."
    if _those(told, system, "not_fine") and not told.get("what", "").strip():
        yield "What is not fine there: not told."
    yield "Pressures, voltages and the loop’s inside: not tested by a look."


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    told = taps(readings)
    if told.get("what", "").strip() and not _those(told, around.system, "not_fine"):
        yield "what", "Something is told as not fine, yet no row is."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told, system = taps(readings), around.system
    code = _code(told, system)
    outcome = Outcome(
        code,
        _sentence(code, told, system),
        tuple(_marks(code, told, system)),
        tuple(_not_tested(told, system)),
        carries=code != "nothing_told",
    )
    note = "California’s list of what an inspection looks at; check your local rules."
    harmed = can_be_such(ON_BELT, system) and any(told.get(one) == "not_fine" for one in HARMED)
    notes = (STOP_DRIVING, note) if harmed else (note,)
    return Meaning(outcome, notes=notes, onward=_ONWARD[code])


WALK_ROUND = Kind(
    name="walk_round",
    title="Walk round",
    question="What does a look round show?",
    version=1,
    minutes=2,
    about="see_first",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(KEY_AWAY, CLEAR_OF_BELT, HOT, LOCAL),
    at_odds=_at_odds,
    remarks=(MIND_HIGH_VOLTAGE,),
    fine=Fine(
        "Rest fine",
        "sets the rows not yet told; turned by hand and refrigerant stay yours to tell",
        {name: "fine" for name, *_row in ROWS if name not in (*DONE_NOT_SEEN, "fan_clutch")},
        rest=True,
    ),
)
