"""Which gas is in the loop, by an instrument: a label tells only what was once charged.

Order before the shop's own hoses, and what becomes of a gas that is not the label's: common
practice, no source. About half of the contaminated loops of a trade survey held air.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import EYES_AND_HANDS, KEY_AWAY, LOCAL, NO_FLAME
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Number, Span, Text, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.hoses import HV_HOSES, NO_VENTING, OWN_CYLINDER
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.physics.uncertainty import INSTRUMENTS, measured

INSTRUMENT = When("how", ("instrument",))
ASKED_OF_IT = "Asked only where an instrument was used."
SHARE = Span(
    0, 100, 0, 100, "From 0 to 100 %.", "A share of a gas is never below 0 or above 100 %."
)
# Below it no instrument calls a gas "as on the label": they ask for about 98 % (from memory) and
# may be off by 2 %; our judgement.
NO_LABEL_GAS = 0.95
# From it on no instrument calls a gas mixed or another, within what it may be off; our judgement.
ALL_LABEL_GAS = 0.99
BURNS_ITSELF = ("R-1234yf", "R-152a")  # safety classes A2L and A2: ASHRAE 34

FIELDS = (
    Choice(
        "how", "How was it identified?", "A label or a port tells only what was once charged.",
        (
            Answer("instrument", "By an instrument"),
            Answer("label", "Label read"),
            Answer("port", "Ports looked at"),
        ),
    ),
    Choice(
        "result", "What the instrument showed", "",
        (
            Answer("as_label", "As on the label"),
            Answer("air", "As labeled, with air"),
            Answer("mixed", "Mixed"),
            Answer("other", "Another gas"),
            Answer("flammable", "Flammable gas"),
            Answer("did_not_tell", "Did not tell"),
        ),
        when=(INSTRUMENT,), why_not=ASKED_OF_IT,
    ),
    Number(
        "share", "Share of the label’s gas", "If shown.", "%", SHARE, when=(INSTRUMENT,),
        why_not=ASKED_OF_IT, instrument="gas_identifier", compact=True,
    ),
    Number(
        "air", "Share of air", "If shown.", "%", SHARE, when=(INSTRUMENT,), why_not=ASKED_OF_IT,
        instrument="gas_identifier", compact=True,
    ),
    Text("shown", "Other gases shown, or what label and ports say", "As it stands there.", 120),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("as_label", "identified, as on the label", normal=True),
    OutcomeWords("air", "identified, as labeled with air"),
    OutcomeWords("mixed", "identified, mixed gases"),
    OutcomeWords("other", "identified, another gas than labeled"),
    OutcomeWords("flammable", "identified, a flammable gas"),
    OutcomeWords("nothing_told", "not identified, carries nothing", carries=False),
    OutcomeWords("burns", "identified, a gas that burns, as the label’s does", carries=False),
)

_GAS = "Gas in the loop"
_OFF = "Keep the shop’s own hoses and machine off this car."
_OUT = (
    "Take it out with equipment kept for such gas, into a cylinder of its own, marked so; then"
    " quote the whole loop."
)
_SENTENCES = {
    "as_label": "The instrument shows the gas on the label.",
    "air": "The instrument shows the gas on the label, with air in it.",
    "mixed": "The instrument shows mixed gases.",
    "other": "The instrument shows another gas than the label.",
    "flammable": "The instrument shows a flammable gas.",
}
_MARKS = {
    "as_label": Mark(
        "ruled_out",
        "Mixed or another gas",
        "ruled out, as far as this instrument knows gases.",
    ),
    "air": Mark("proved", "Air in the loop", "shown by the instrument."),
    "mixed": Mark("proved", _GAS, "mixed, shown by the instrument."),
    "other": Mark("proved", _GAS, "another than labeled, shown by the instrument."),
    "flammable": Mark("proved", _GAS, "flammable, shown by the instrument."),
    "burns": Mark(
        "open",
        _GAS,
        "the label’s gas can burn itself, so that word alone tells no other gas: read what the"
        " instrument names.",
    ),
}
_ONWARD: dict[str, tuple[str, ...]] = {
    "as_label": ("A can was added, or any sign of it: test for leak-stop before the hoses go on.",),
    "air": (
        "A can was added, or any sign of it: test for leak-stop before the hoses go on.",
        "Recover, evacuate and charge by weight: air stays in as long as the charge does.",
    ),
    "mixed": (_OFF, _OUT),
    "other": (_OFF, "Read the label and any retrofit label again.", _OUT),
    "flammable": (_OFF, "No ignition source, air moving. " + _OUT),
    "burns": (
        "No ignition source, air moving: as with the label’s gas itself.",
        "Read the gas and its share off the instrument; until then keep the shop’s own hoses off.",
    ),
    "nothing_told": ("Identify the gas by an instrument before the shop’s own hoses go on.",),
}


def _code(told: dict[str, str]) -> str:
    """The outcome: only an instrument that named a gas carries anything."""
    found = told.get("result", "")
    return found if told.get("how") == "instrument" and found in _SENTENCES else "nothing_told"


def _sentence(readings: Readings) -> str:
    told = taps(readings)
    how, code = told.get("how", ""), _code(told)
    if code in _SENTENCES:
        return _SENTENCES[code]
    if how == "label":
        return "The label was read: it tells what was once charged, not what is in it now."
    if how == "port":
        return "The ports were looked at: adapters change ports, not what is in it now."
    if how == "instrument" and told.get("result") == "did_not_tell":
        return "The instrument did not tell which gas it is."
    if how == "instrument":
        return "An instrument was used; what it called the gas was not told."
    return "How the gas was identified was not told."


def _lead(readings: Readings) -> str:
    """The shares as shown."""
    read = (("of the label’s gas", number(readings, "share")), ("air", number(readings, "air")))
    said = ", ".join(f"{told.shown} {words}" for words, told in read if told)
    return f"{said}." if said else ""


def _not_tested(readings: Readings, around: Circumstances) -> Iterator[str]:
    yield "Leak-stop, dye and oil: an instrument for gases does not see them."
    yield "How much is in it: not told by this step."
    if not around.system.get("refrigerant"):
        yield "The gas on the label: not noted with the car."
    if _code(taps(readings)) == "nothing_told":
        yield "Which gas is in the loop: not identified."
    elif number(readings, "air") is None and taps(readings).get("result") != "air":
        yield "Share of air: no reading to go by."


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    """Shares above the whole, or a name that does not fit its share."""
    share, air = number(readings, "share"), number(readings, "air")
    if share and air:
        one, other = (measured(r.si, r.last_digit, "gas_identifier") for r in (share, air))
        if one.value + other.value > 1 + one.u + other.u:
            yield "air", "The two shares make more than 100 % together."
    if air and taps(readings).get("result") == "air" and air.si <= 0:
        yield "air", "No air was shown, yet the gas was called as labeled with air."
    if share and share.si < NO_LABEL_GAS and _code(taps(readings)) == "as_label":
        words = f"With {share.shown} of it the gas is not as on the label: one of the two"
        yield "share", f"{words} was not shown."
    if share and share.si >= ALL_LABEL_GAS and _code(taps(readings)) in ("mixed", "other"):
        yield "share", f"With {share.shown} of the label’s gas it is neither mixed nor another."
    if air and air.si > 1 - NO_LABEL_GAS and _code(taps(readings)) == "as_label":
        yield "air", f"With {air.shown} of air it is not as on the label, but as labeled with air."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    code = _code(taps(readings))
    if code == "flammable" and around.system.get("refrigerant") in BURNS_ITSELF:
        code = "burns"
    outcome = Outcome(
        code,
        _sentence(readings),
        (_MARKS[code],) if code in _MARKS else (),
        tuple(_not_tested(readings, around)),
        carries=code not in ("nothing_told", "burns"),
    )
    band = ""
    if _lead(readings):
        band = f"Shares as shown, {INSTRUMENTS['gas_identifier'].words}, by default: recorded, not"
        band += " judged by a limit."
    return Meaning(outcome, _lead(readings), band=band, onward=_ONWARD[code])


GAS_IDENTITY = Kind(
    name="gas_identity",
    title="Gas identified",
    question="Which gas is in the loop?",
    version=1,
    minutes=5,
    about="charge",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("ports reached",),
    cautions=(KEY_AWAY, EYES_AND_HANDS, NO_FLAME, NO_VENTING, OWN_CYLINDER, LOCAL),
    at_odds=_at_odds,
    remarks=(HV_HOSES,),
    fine=Fine(
        "Fine: by an instrument, as on the label",
        "sets the taps below; shares stay yours to type",
        {"how": "instrument", "result": "as_label"},
    ),
)
