"""Trouble codes as read, before anything is cleared. A code is a pointer, not a fault.

Each is kept as it was shown, and none is looked up in a list. Stored and pending as SAE J1979 has
them (from memory); the rest is common practice, no source.
"""

from collections import Counter
from collections.abc import Iterator

from diagnostics.evidence.cautions import HIGH_VOLTAGE, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import (
    LOW_48,
    MIND_HIGH_VOLTAGE,
    MOTOR_NOT_SURE,
    driven,
    look_first,
)
from diagnostics.evidence.fields import Answer, Choice, Field, Text, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, SystemRule

THERE = When("stored", ("stored",))
ONLY_THERE = "Asked only where there are codes."
STATES = (Answer("stored", "Stored"), Answer("pending", "Pending"), Answer("unshown", "Not shown"))
ROWS = range(1, 6)  # further ones go in one field


def _answered(row: int) -> tuple[When, ...]:
    """That there are codes and the row before was told whole: the next one shows up then."""
    before = When(f"state_{row - 1}", tuple(one.code for one in STATES))
    return (THERE, before) if row > 1 else (THERE,)


def _row(row: int) -> tuple[Field, Field]:
    when, why_not = _answered(row), ONLY_THERE if row == 1 else f"Code {row - 1} was not told."
    return (
        Text(
            f"code_{row}",
            f"Code {row}",
            "Letters and digits, as shown.",
            20,
            when,
            why_not,
            group="" if row > 1 else "Codes as read",
        ),
        Choice(
            f"state_{row}", f"Code {row} is", "", STATES, when=when, why_not=why_not, compact=True
        ),
    )


FIELDS: tuple[Field, ...] = (
    Choice(
        "stored", "Codes", "Engine, climate and body modules.",
        (
            Answer("none", "None"), Answer("stored", "There are some"),
            Answer("no_answer", "A module does not answer"), Answer("not_read", "Not read"),
        ),
    ),
    *(field for row in ROWS for field in _row(row)),
    Text(
        "further", "Further codes", "Each with stored or pending.",
        when=_answered(ROWS.stop), why_not=f"Code {ROWS[-1]} was not told.",
    ),
    Choice(
        "relevant", "Does one bear on A/C?", "",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_sure", "Not sure")),
        when=(THERE,), why_not=ONLY_THERE,
    ),
    Choice(
        "cleared", "Cleared?", "Never before they are written down.",
        (
            Answer("no", "Not cleared"), Answer("after", "After writing down"),
            Answer("before", "Before, or by someone"),
        ),
        condition=True,
    ),
    Text("modules", "Which modules were read", "And which do not answer.", 120, condition=True),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("stored_ac", "codes read that bear on A/C"),
    OutcomeWords("stored_other", "codes read, none bears on A/C"),
    OutcomeWords("stored", "codes read, bearing on A/C not told"),
    OutcomeWords("no_answer", "a module does not answer"),
    OutcomeWords("none", "none in the modules read", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
    OutcomeWords("lost", "cleared before they were read", carries=False),
)
_SENTENCES = {
    "stored_ac": "Codes are there that bear on A/C",
    "stored_other": "Codes are there; none is told to bear on A/C",
    "stored": "Codes are there",
    "no_answer": "A module does not answer",
    "none": "No codes are there in the modules read",
    "nothing_told": "Codes were not read",
    "lost": "Codes were cleared before they were written down: none there says nothing",
}
_ONWARD = {
    "stored_ac": ("Follow the code’s circuit with measurements; replace nothing by code alone.",),
    "stored_other": ("Note them for the customer.",),
    "stored": ("Look up which of them bear on A/C.",),
    "no_answer": ("Look at that module’s power, ground and bus.",),
    "none": (),
    "nothing_told": ("Read all modules, and write down before clearing.",),
    "lost": ("Bring the complaint about, then read again.",),
}
# Whether a code is one of the high-voltage side is not looked up: whoever reads it knows its words.
ELECTRIC_FIRST = (
    "A code of the high-voltage or 48 V side or of its isolation, bearing on A/C or not: hands off,"
    " it goes to a person qualified for it before anything is touched."
)
_ELECTRIC = {
    "stored_ac": "Follow the code’s circuit by scan data, with the meter on its 12 V side only;"
    " replace nothing by code alone.",
    "no_answer": "Look at that module’s power, ground and bus on its 12 V side only.",
}
PENDING = "A pending code was set and is not confirmed yet: it can go by itself, or come to stay."


def _may_be_electric(system: System) -> bool:
    """Whether a motor turns it, or may, or the loop cools a traction battery."""
    return driven(system) not in ("clutch", "no_clutch") or "battery" in system.get("branches", [])


def _onward(code: str, system: System) -> tuple[str, ...]:
    """What comes next; on a car with an electric side its codes come first."""
    if code in ("none", "nothing_told", "lost") or not _may_be_electric(system):
        return _ONWARD[code]
    first = look_first(system)
    then = (_ELECTRIC[code],) if code in _ELECTRIC else _ONWARD[code]
    return (*((first,) if first else ()), ELECTRIC_FIRST, *then)


def _rows(told: dict[str, str]) -> Iterator[tuple[int, str, str]]:
    """Number, code and state of each row of which anything was told."""
    for row in ROWS:
        code, state = told.get(f"code_{row}", "").strip(), told.get(f"state_{row}", "")
        if code or state:
            yield row, code, state


def _code(told: dict[str, str]) -> str:
    stored = told.get("stored", "")
    if stored == "stored":
        return {"yes": "stored_ac", "no": "stored_other"}.get(told.get("relevant", ""), "stored")
    if stored == "none":
        return "lost" if told.get("cleared") == "before" else "none"
    return "no_answer" if stored == "no_answer" else "nothing_told"


def _which(told: dict[str, str]) -> str:
    """The codes as they were shown, each with its state."""
    words = {"stored": " stored", "pending": " pending"}
    rows = [f"{code}{words.get(state, '')}" for _row, code, state in _rows(told) if code]
    further = told.get("further", "").strip().rstrip(".")
    return ", ".join([*rows, further] if further else rows)


def _marks(code: str) -> Iterator[Mark]:
    if code.startswith("stored"):
        yield Mark("proved", "Trouble codes", "read.")
    if code == "stored_ac":
        yield Mark("open", "What the code names", "a code is a pointer, not a fault.")
    if code == "no_answer":
        yield Mark("open", "That module, its supply and its bus", "not parted by this.")
    if code == "none":
        yield Mark("open", "A/C circuits", "not cleared: many of them set no code.")


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    there = told.get("stored") == "stored"
    if told.get("stored", "not_read") == "not_read":
        yield "Codes: not read."
    if there and not _which(told):
        yield "Which codes: not told."
    for row, code, state in _rows(told):
        if code and state in ("", "unshown"):
            yield f"Whether {code} is stored or pending: not told."
        elif not code and _which(told):
            yield f"Code {row}: not told."
    if there and told.get("relevant", "not_sure") == "not_sure":
        yield "Whether one bears on A/C: not told."
    if not told.get("cleared"):
        yield "Whether codes were cleared: not told."
    if not told.get("modules", "").strip():
        yield "Which modules were read: not told."
    yield "The circuits the codes speak of: not measured."


def _notes(code: str, told: dict[str, str]) -> Iterator[str]:
    if code.startswith(("stored", "no_answer")) and told.get("cleared") == "before":
        yield "Codes were cleared before: others may be lost."
    if any(state == "pending" for _row, _code, state in _rows(told)):
        yield PENDING


NOTHING_TO_CLEAR = {
    "none": "No codes are told, yet they are told as written down and cleared: tell those as read"
    " before, or that nothing was cleared.",
    "not_read": "Codes are told as not read, yet as written down and cleared.",
}


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    """What is no code, one that stands twice (the same row read over again), none to clear."""
    told = taps(readings)
    seen: Counter[tuple[str, str]] = Counter()
    for row, code, state in _rows(told):
        seen[code.upper(), state] += 1
        if code and not any(one.isdigit() for one in code):
            yield f"code_{row}", f"“{code}” has no digit, and every code has."
        elif code and seen[code.upper(), state] > 1:
            yield f"code_{row}", f"{code} was told before."
    if told.get("cleared") == "after" and told.get("stored") in NOTHING_TO_CLEAR:
        yield "cleared", NOTHING_TO_CLEAR[told["stored"]]


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    which = _which(told) if code.startswith("stored") else ""
    sentence = f"{_SENTENCES[code]}: {which}." if which else f"{_SENTENCES[code]}."
    carries = code not in ("nothing_told", "lost")
    outcome = Outcome(code, sentence, tuple(_marks(code)), tuple(_not_tested(told)), carries)
    notes = tuple(_notes(code, told))
    return Meaning(outcome, notes=notes, onward=_onward(code, around.system))


CODES = Kind(
    name="codes",
    title="Trouble codes",
    question="Which trouble codes are there?",
    version=1,
    minutes=4,
    about="see_first",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        "Write codes down before clearing any.",
        "A code of a high-voltage system, on any car: hands off, for a person qualified for it.",
        RUNS_BY_ITSELF,
        LOCAL,
    ),
    remarks=(
        MIND_HIGH_VOLTAGE,
        SystemRule(
            {"branches": ("battery",), "drive": ("belt_clutch", "belt_clutchless")}, HIGH_VOLTAGE
        ),
        LOW_48,
        *MOTOR_NOT_SURE,
    ),
    at_odds=_at_odds,
    fine=Fine(
        "Fine: none there, nothing cleared",
        "sets the taps below",
        {"stored": "none", "cleared": "no"},
    ),
)
