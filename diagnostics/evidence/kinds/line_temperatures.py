"""Temperatures along the loop while it runs: where it steps, and where it frosts.

How they are read stands in line_steps.py.
"""

from diagnostics.evidence.cautions import CLEAR_OF_BELT, HOT, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.charge_told import CHARGE_KNOWN
from diagnostics.evidence.drives import MIND_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span, SpanOn, When
from diagnostics.evidence.findings import OutcomeWords
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.line_steps import AT_DRIER, PLACES, at_odds, read
from diagnostics.evidence.orders import OWN_HOSES, RUN
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut

LINE = Span(-30, 130, -60, 200, "Outside what a line has.", "No line is below −60 or above 200 °C.")
_NO_VACUUM = "Deeper than perfect vacuum, or more than any hose of a loop holds."
LOW = Span(-20, 600, -101.33, 3500, "Outside what a running low side shows.", _NO_VACUUM)
HIGH = Span(300, 3000, -101.33, 6000, "Outside what a running high side shows.", _NO_VACUUM)
WIDE = Span(-20, 14_000, -101.33, 20_000, "Outside what a running loop shows.", _NO_VACUUM)
MAYBE_744 = {"refrigerant": ("R-744", "other", "")}
NO_ACCUMULATOR = When("vessel", ("drier", "cannot_tell", ""))


def _place(name: str) -> Number:
    drier = name in AT_DRIER
    return Number(
        name, PLACES[name], "", "°C", LINE, ("°F",), instrument="thermometer", compact=True,
        group="Along the loop, in its direction" if name == "discharge" else "",
        when=(NO_ACCUMULATOR,) if drier else (),
        why_not="An accumulator sits in the suction line: no step in the liquid is read there."
        if drier else "",
    )  # fmt: skip


FIELDS: tuple[Field, ...] = (
    Choice(
        "running", "Running steadily while you read?", "Some minutes, A/C on, blower high.",
        (Answer("yes", "Yes"), Answer("no", "No")), condition=True,
    ),
    Choice(
        "by", "Read by", "Bright metal fools an infrared one: tape or paint the spot.",
        (
            Answer("clamp", "Clamp or probe"), Answer("infrared", "Infrared, on tape"),
            Answer("bright", "Infrared, bright metal"),
        ),
        condition=True,
    ),
    Choice(
        "vessel", "Drier or accumulator?",
        "Drier: between condenser and expansion device. Accumulator: behind the evaporator.",
        (
            Answer("drier", "Drier"), Answer("accumulator", "Accumulator"),
            Answer("cannot_tell", "Can’t tell"),
        ),
        condition=True, compact=True,
    ),
    Choice(
        "exchanger", "Internal heat exchanger?", "Liquid and suction line side by side or nested.",
        (
            Answer("fitted", "Fitted"), Answer("not_fitted", "Not fitted"),
            Answer("cannot_tell", "Can’t tell"),
        ),
        condition=True, compact=True,
    ),
    *(_place(name) for name in PLACES),
    Choice(
        "frost", "Frost or a sudden cold spot", "",
        (
            Answer("none", "None"), Answer("liquid", "In the liquid line"),
            Answer("drier", "At drier or accumulator"), Answer("device", "At the expansion device"),
            Answer("suction", "Suction up to the compressor"),
        ),
    ),
    CHARGE_KNOWN,
    Number(
        "low", "Low side", "For superheat.", "kPa", LOW, ("psi", "bar"),
        (SpanOn(MAYBE_744, WIDE),), instrument="low_side_gauge", reference="gauge", compact=True,
        group="Pressures at the same moment, if read",
    ),
    Number(
        "high", "High side", "For subcooling.", "kPa", HIGH, ("psi", "bar"),
        (SpanOn(MAYBE_744, WIDE),), instrument="high_side_gauge", reference="gauge", compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("step_drier", "temperature steps down at the drier"),
    OutcomeWords("step_liquid", "temperature steps down in the liquid line"),
    OutcomeWords("step_exchanger", "liquid line turns colder, heat exchanger not excluded"),
    OutcomeWords("frost_early", "frost before the expansion device"),
    OutcomeWords("no_drop", "no drop at the expansion device"),
    OutcomeWords("frost_suction", "frost up to the compressor"),
    OutcomeWords("no_step", "no step where liquid only passes", normal=True),
    OutcomeWords("recorded", "recorded, held to nothing", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

LINE_TEMPERATURES = Kind(
    name="line_temperatures",
    title="Temperatures along the loop",
    question="Where does the loop turn colder, and where should it not?",
    version=1,
    minutes=8,
    about="heat",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=read,
    setup=("lines reached",),
    cautions=(HOT, RUNS_BY_ITSELF, CLEAR_OF_BELT, LOCAL),
    orders=(*OWN_HOSES, *RUN),
    by_hoses=("low", "high"),
    at_odds=at_odds,
    remarks=(
        MIND_HIGH_VOLTAGE,
        SystemRule({"refrigerant": ("R-744",)}, "R-744: recorded, not judged."),
        SystemRule(
            {"branches": ("rear", "battery")},
            "More than one branch: each has an expansion device; tell in words which was read.",
        ),
    ),
    works_out=(
        *(WorkedOut(name, words, "same", (name,), "°F") for name, words in PLACES.items()),
        WorkedOut("low", "Low side", "same", ("low",), "psi"),
        WorkedOut("high", "High side", "same", ("high",), "psi"),
        WorkedOut("suction", "Superheat", "superheat", ("low", "suction"), "ΔK"),
        WorkedOut("condenser_out", "Subcooling", "subcooling", ("high", "condenser_out"), "ΔK"),
    ),
)
