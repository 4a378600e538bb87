"""Trouble codes as read, before anything is cleared. A code is a pointer, not a fault.

Common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Text, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps

STORED = When("stored", ("stored",))
ONLY_STORED = "Asked only where codes are stored."

FIELDS = (
    Choice(
        "stored", "Codes", "Engine, climate and body modules.",
        (
            Answer("none", "None stored"), Answer("stored", "Stored"),
            Answer("no_answer", "A module does not answer"), Answer("not_read", "Not read"),
        ),
    ),
    Text(
        "which", "Codes as read", "Letter and digits, all of them.",
        when=(STORED,), why_not=ONLY_STORED,
    ),
    Choice(
        "relevant", "Does one bear on A/C?", "",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_sure", "Not sure")),
        when=(STORED,), why_not=ONLY_STORED,
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
    OutcomeWords("stored_ac", "codes stored that bear on A/C"),
    OutcomeWords("stored_other", "codes stored, none bears on A/C"),
    OutcomeWords("stored", "codes stored, bearing on A/C not told"),
    OutcomeWords("no_answer", "a module does not answer"),
    OutcomeWords("none", "none stored", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
    OutcomeWords("lost", "cleared before they were read", carries=False),
)
_SENTENCES = {
    "stored_ac": "Codes are stored that bear on A/C",
    "stored_other": "Codes are stored; none bears on A/C",
    "stored": "Codes are stored",
    "no_answer": "A module does not answer",
    "none": "No codes are stored in the modules read",
    "nothing_told": "Codes were not read",
    "lost": "Codes were cleared before they were written down: none stored says nothing",
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


def _code(told: dict[str, str]) -> str:
    stored = told.get("stored", "")
    if stored == "stored":
        return {"yes": "stored_ac", "no": "stored_other"}.get(told.get("relevant", ""), "stored")
    if stored == "none":
        return "lost" if told.get("cleared") == "before" else "none"
    return "no_answer" if stored == "no_answer" else "nothing_told"


def _marks(code: str) -> Iterator[Mark]:
    if code.startswith("stored"):
        yield Mark("proved", "Codes stored", "read.")
    if code == "stored_ac":
        yield Mark("open", "What the code names", "a code is a pointer, not a fault.")
    if code == "no_answer":
        yield Mark("open", "That module, its supply and its bus", "not parted by this.")
    if code == "none":
        yield Mark("open", "A/C circuits", "not cleared: many of them set no code.")


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    if told.get("stored", "not_read") == "not_read":
        yield "Codes: not read."
    if told.get("stored") == "stored" and not told.get("which", "").strip():
        yield "Which codes: not told."
    if told.get("stored") == "stored" and told.get("relevant", "not_sure") == "not_sure":
        yield "Whether one bears on A/C: not told."
    if not told.get("cleared"):
        yield "Whether codes were cleared: not told."
    if not told.get("modules", "").strip():
        yield "Which modules were read: not told."
    yield "The circuits the codes speak of: not measured."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    which = told.get("which", "").strip().rstrip(".") if code.startswith("stored") else ""
    sentence = f"{_SENTENCES[code]}: {which}." if which else f"{_SENTENCES[code]}."
    carries = code not in ("nothing_told", "lost")
    outcome = Outcome(code, sentence, tuple(_marks(code)), tuple(_not_tested(told)), carries)
    lost = code.startswith("stored") and told.get("cleared") == "before"
    notes = ("Codes were cleared before: others may be lost.",) if lost else ()
    return Meaning(outcome, notes=notes, onward=_ONWARD[code])


CODES = Kind(
    name="codes",
    title="Trouble codes",
    question="Which trouble codes are stored?",
    version=1,
    minutes=4,
    about="see_first",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=("Write codes down before clearing any.", RUNS_BY_ITSELF, LOCAL),
    fine=Fine(
        "Fine: none stored, nothing cleared",
        "sets the taps below",
        {"stored": "none", "cleared": "no"},
    ),
)
