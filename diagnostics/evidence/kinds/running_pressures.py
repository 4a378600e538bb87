"""Both pressures with the loop running: a pattern, the suspects, and the proof each needs first.

The patterns and their suspects are from trade articles. How each side is sorted stands in
loop_pressures.py. A pressure tells no charge: while nobody told that the charge is right, nothing
that pumps is named.
"""

from diagnostics.evidence.cautions import (
    CLEAR_OF_BELT,
    EYES_AND_HANDS,
    HIGH_VOLTAGE,
    HOT,
    LOCAL,
    NEVER_DRY,
    RUNS_BY_ITSELF,
)
from diagnostics.evidence.charge_told import CHARGE_KNOWN
from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Number, Span, SpanOn, When
from diagnostics.evidence.findings import OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.orders import BELT, OWN_HOSES, RUN
from diagnostics.evidence.running import at_odds, stops
from diagnostics.evidence.running_told import read
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut

NO_VACUUM = "Deeper than perfect vacuum, or more than any hose of a loop holds."
LOW = Span(-20, 600, -101.33, 3500, "Outside what a running low side shows.", NO_VACUUM)
HIGH = Span(300, 3000, -101.33, 6000, "Outside what a running high side shows.", NO_VACUUM)
# R-744, and what may be R-744.
LOW_WIDE = Span(-20, 7000, -101.33, 15000, LOW.outside, NO_VACUUM)
HIGH_WIDE = Span(300, 14000, -101.33, 20000, HIGH.outside, NO_VACUUM)
MAYBE_744 = {"refrigerant": ("R-744", "other", "")}
AIR = Span(
    -10, 50, -60, 70, "Outside what a bay has.", "No bay is colder than −60 °C or above 70 °C."
)
SECONDS = Span(0, 600, 0, 86_400, "Longer than a cycle lasts.", "No time is below zero.")
LINE = Span(
    -30, 100, -60, 200, "Outside what a line has.", "No line is below −60 °C or above 200 °C."
)
PRESSURES = ("psi", "bar")
INSIDE_CHART = (Answer("below", "Below"), Answer("inside", "Inside"), Answer("above", "Above"))
OFTEN = When("cycles", ("yes",))

FIELDS = (
    Number(
        "low", "Low side", "Running, steady. Below zero with a minus.", "kPa", LOW, PRESSURES,
        (SpanOn(MAYBE_744, LOW_WIDE),), instrument="low_side_gauge", reference="gauge",
    ),
    Number(
        "high", "High side", "At the same moment.", "kPa", HIGH, PRESSURES,
        (SpanOn(MAYBE_744, HIGH_WIDE),), instrument="high_side_gauge", reference="gauge",
    ),
    Number(
        "ambient", "Air in front of the condenser", "In the shade.", "°C", AIR, ("°F",),
        instrument="thermometer", condition=True,
    ),
    Choice(
        "shaft", "Does the shaft turn?", "Hub seen turning; electric: by scan data.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("cannot_tell", "Can’t tell")),
        condition=True,
    ),
    CHARGE_KNOWN,
    Number(
        "rpm", "Engine speed", "If read.", "rpm",
        Span(500, 4000, 0, 12_000, "Outside a usual test speed.", "No engine turns so."),
        instrument="scan_data", condition=True, compact=True, on={"drive": BELT},
    ),
    Number(
        "stroke", "Commanded: valve, stroke or speed", "By scan data.", "%",
        Span(0, 100, 0, 100, "From 0 to 100 %.", "A command is a share: from 0 to 100 %."),
        instrument="scan_data", condition=True, compact=True,
        on={"displacement": ("variable_outer", "speed")},
    ),
    Choice(
        "rear", "Rear unit", "Its door or valve decides what flows.",
        (Answer("on", "On"), Answer("off", "Off")), condition=True, compact=True,
        on={"branches": ("rear",)},
    ),
    Choice(
        "battery", "Battery chiller", "By scan data.",
        (Answer("on", "On"), Answer("off", "Off")), condition=True, compact=True,
        on={"branches": ("battery",)},
    ),
    Choice(
        "vents", "Vents", "Center vent, after some minutes.",
        (Answer("cold", "Cold"), Answer("warm", "Warm")), compact=True,
    ),
    Choice(
        "cycles", "Switches on and off?", "The clutch, or the command.",
        (Answer("no", "Steady"), Answer("yes", "Yes")), compact=True,
    ),
    Number(
        "on_s", "Seconds on", "", "s", SECONDS, ("min",), when=(OFTEN,),
        why_not="Asked only where it switches on and off.", instrument="watch", compact=True,
    ),
    Number(
        "off_s", "Seconds off", "", "s", SECONDS, ("min",), when=(OFTEN,),
        why_not="Asked only where it switches on and off.", instrument="watch", compact=True,
    ),
    Choice(
        "low_chart", "Low side", "", INSIDE_CHART, compact=True,
        group="Against this vehicle’s own chart, if it is at hand",
    ),
    Choice("high_chart", "High side", "", INSIDE_CHART, compact=True),
    Number(
        "suction", "Suction line", "Compressor’s end, if read: superheat.", "°C", LINE, ("°F",),
        instrument="thermometer", after="high", group="Line temperatures, if read",
    ),
    Number(
        "liquid", "Liquid line", "Behind the condenser, if read: subcooling.", "°C", LINE, ("°F",),
        instrument="thermometer", after="high",
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("inside", "both sides inside", normal=True),
    OutcomeWords("inside_vents_warm", "both sides inside, vents warm"),
    OutcomeWords("low_low", "both sides low"),
    OutcomeWords("high_high", "both sides high"),
    OutcomeWords("high_low", "low side high, high side low"),
    OutcomeWords("close_together", "both sides close together, shaft turning"),
    OutcomeWords("starved", "low side toward vacuum, high side not low"),
    OutcomeWords("one_side_off", "one side off, the other inside"),
    OutcomeWords("at_the_edge", "cannot tell with these gauges"),
    OutcomeWords("nothing_told", "recorded, carries nothing", carries=False),
)

RUNNING_PRESSURES = Kind(
    name="running_pressures",
    title="Running pressures",
    question="What do both gauges show with the A/C running?",
    version=1,
    minutes=10,
    about="compressor",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=read,
    setup=("gauges on",),
    cautions=(
        EYES_AND_HANDS,
        CLEAR_OF_BELT,
        RUNS_BY_ITSELF,
        HOT,
        NEVER_DRY,
        "Never open a can or cylinder to the high side while it runs.",
        LOCAL,
    ),
    orders=(*OWN_HOSES, *RUN),
    at_odds=at_odds,
    stops=stops,
    remarks=(
        SystemRule(
            {"drive": WITH_HIGH_VOLTAGE},
            f"{HIGH_VOLTAGE} Gauges and hoses free of foreign oil: only the oil the maker names.",
        ),
        SystemRule(
            {"displacement": ("variable_inner", "variable_outer")},
            "Variable displacement: it may never cycle, and a small stroke looks like a worn one.",
        ),
        SystemRule(
            {"branches": ("rear", "battery")},
            "More than one branch: tell which were on. Label charge and oil then say “with rear”.",
        ),
        SystemRule({"refrigerant": ("R-744",)}, "R-744: recorded, not judged."),
    ),
    works_out=(
        WorkedOut("low", "Low side boils at", "boils_at", ("low",), "°C"),
        WorkedOut("high", "High side condenses at", "boils_at", ("high",), "°C"),
        WorkedOut("high", "Ratio, absolute", "ratio", ("high", "low"), "1"),
        WorkedOut("suction", "Superheat", "superheat", ("low", "suction"), "ΔK"),
        WorkedOut("liquid", "Subcooling", "subcooling", ("high", "liquid"), "ΔK"),
    ),
    fine=Fine(
        "Fine: shaft turns, steady, vents cold",
        "sets the taps below; the pressures stay yours to type",
        {"shaft": "yes", "cycles": "no", "vents": "cold"},
    ),
)
