"""A loop pumped down and watched behind a shut valve: a gross check, never proof of tightness.

Target of 500 micron or lower by a micron gauge at the system: trade articles. The rise is read by
rise.py in physics, the outcome by pumped.py; a needle gauge cannot see any of it.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import EYES_AND_HANDS, LOCAL, NEVER_DRY
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span, When
from diagnostics.evidence.findings import OutcomeWords
from diagnostics.evidence.hoses import HV_HOSES, MORE_BRANCHES, THROUGH_REGULATOR
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.pumped import ROWS, at_odds
from diagnostics.evidence.pumped_told import read
from diagnostics.evidence.worked_out import WorkedOut

BY_MICRON, BY_NEEDLE = When("gauge", ("system", "machine", "")), When("gauge", ("needle",))
NO_PRESSURE = "Deeper than perfect vacuum, or above the air’s own pressure: no vacuum."
DEEP = Span(20, 5000, 0, 770_000, "Outside what a pumped loop shows.", NO_PRESSURE)
RISEN = Span(20, 30_000, 0, 770_000, "Outside what a pumped loop rises to.", NO_PRESSURE)
MINUTES = Span(0.5, 180, 0, 10_080, "Outside a usual hold.", "From none to a week.")
NO_AIR = "Inches of vacuum without a minus, and no air presses with more than 32."
OTHERS = ("Pa", "mbar")


def _rows() -> Iterator[Field]:
    """Minute and pressure, one pair after another."""
    for row in ROWS:
        before = "depth" if row == 1 else f"p{row - 1}"
        group = "After the valve was shut" if row == 1 else ""
        yield Number(
            f"t{row}", f"Minute {row}", "", "min", MINUTES, ("s", "h"), instrument="watch",
            after=before, group=group, compact=True,
        )  # fmt: skip
        yield Number(
            f"p{row}", f"Reading {row}", "", "micron", RISEN, OTHERS, instrument="micron_gauge",
            after=before, reference="absolute", compact=True,
        )  # fmt: skip


FIELDS: tuple[Field, ...] = (
    Choice(
        "gauge", "Read by", "",
        (
            Answer("system", "Micron gauge at the system"),
            Answer("machine", "Micron gauge at the machine"),
            Answer("needle", "Needle only"),
        ),
        condition=True,
    ),
    Number(
        "depth", "Depth when the valve was shut", "Target 500 micron or lower.", "micron", DEEP,
        OTHERS,
        when=(BY_MICRON,), why_not="Asked only of a micron gauge.", instrument="micron_gauge",
        reference="absolute",
    ),
    Number(
        "needle", "Needle shows", "Inches of vacuum, without a minus.", "inHg",
        Span(20, 30, 0, 32, "Outside what a pumped loop shows.", NO_AIR),
        ("kPa", "mbar"), when=(BY_NEEDLE,), why_not="Asked only of a needle.",
        instrument="low_side_gauge",
    ),
    Choice(
        "needle_after", "Needle after the hold", "",
        (Answer("stayed", "Stayed"), Answer("came_back", "Came back")),
        when=(BY_NEEDLE,), why_not="Asked only of a needle.",
    ),
    Number(
        "pumped", "Pumped for", "", "min",
        Span(5, 300, 0, 10_080, "Outside a usual evacuation.", "From none to a week."), ("h",),
        instrument="watch", condition=True, compact=True,
    ),
    Number(
        "temperature", "Temperature of the loop", "", "°C",
        Span(0, 60, -60, 120, "Outside what a bay has.", "No loop is below −60 or above 120 °C."),
        ("°F",), instrument="thermometer", condition=True, compact=True,
    ),
    *_rows(),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("held", "held vacuum (gross check)", normal=True),
    OutcomeWords("held_shallow", "held, target not reached"),
    OutcomeWords("leak", "rises in a straight line"),
    OutcomeWords("moisture", "rises and flattens below water’s line"),
    OutcomeWords("rises", "rises, what by cannot be told"),
    OutcomeWords("cannot_tell", "cannot tell whether it rises"),
    OutcomeWords("deep", "target reached, not held", normal=True),
    OutcomeWords("near_target", "near the target, cannot tell with this gauge"),
    OutcomeWords("not_deep", "target not reached"),
    OutcomeWords("needle_back", "needle came back"),
    OutcomeWords("needle_only", "needle only, carries nothing", carries=False),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

VACUUM_HOLD = Kind(
    name="vacuum_hold",
    title="Vacuum hold",
    question="How deep did it get, and did it hold?",
    version=1,
    minutes=15,
    about="charge",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=read,
    setup=("loop closed", "pump on"),
    cautions=(
        "Recover first; never pump on a loop with pressure in it.",
        NEVER_DRY,
        EYES_AND_HANDS,
        THROUGH_REGULATOR,
        LOCAL,
    ),
    orders=("recovered_first",),
    at_odds=at_odds,
    remarks=(HV_HOSES, MORE_BRANCHES),
    works_out=(WorkedOut("temperature", "Loop", "same", ("temperature",), "°F"),),
)
