"""The clutch's air gap, at three to six points around, engine off.

Trade articles: 0.3 to 0.8 mm is plausible, the vehicle's own limits come first; too wide works cold
and quits hot; too small is a fault too, the clutch may not release and overheats, and the bearing
loses its grease; the gap of a new part is measured before it is fitted. Nothing named: common
practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.gap_read import (
    FITTED,
    GAPS,
    SPARE,
    GapRead,
    gap_band,
    gap_strip,
    look_at_gap,
    millimeters,
    out_of_line,
    shim_words,
    span_words,
)
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Readings, kept_aside, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.gap import POINTS

GAP = Span(
    0, 2, 0, 10,
    "Outside what clutches have. Is it in inches?",
    "No clutch has a gap below nothing, or wider than a centimeter: a slipped point or unit.",
)  # fmt: skip
SHIM = Span(
    0.05, 1.5, 0.01, 10,
    "Outside what shims have. Is it in inches?",
    "A shim has some thickness, and less than a centimeter: a slipped point or unit.",
)  # fmt: skip
WITH_SHIMS = When("shims", ("fitted", "none"))
WITH_FITTED = When("shims", ("fitted",))
NEW_PART = "Measure the gap of a new part before it is fitted."


def _row(
    names: tuple[str, ...], group: str, words: str, span: Span, when: When | None
) -> Iterator[Number]:
    """Numbers that show up one after another."""
    why = "Asked only where it is set by shims." if when else ""
    for index, name in enumerate(names, 1):
        before = names[index - 2] if index > 1 else ""
        yield Number(
            name, f"{words} {index}", "", "mm", span, ("in",), when=(when,) if when else (),
            why_not=why, instrument="feeler_gauge", after=before, compact=True,
            group=group if index == 1 else "",
        )  # fmt: skip


FIELDS: tuple[Field, ...] = (
    *_row(GAPS, "Around the clutch", "Gap, point", GAP, None),
    Choice(
        "shims", "Set by shims under the hub?", "Seen with the hub off, or known of this clutch.",
        (
            Answer("fitted", "Shims fitted"), Answer("none", "No shim left"),
            Answer("other", "Set another way"), Answer("not_known", "Not known"),
        ),
    ),
    *_row(FITTED, "Shims found fitted", "Shim fitted", SHIM, WITH_FITTED),
    *_row(SPARE, "Shims at hand", "Shim at hand", SHIM, WITH_SHIMS),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("uneven", "differs more around than what it is held to"),
    OutcomeWords("far_wide", "far wider than allowed"),
    OutcomeWords("too_wide", "wider than allowed"),
    OutcomeWords("too_small", "smaller than allowed"),
    OutcomeWords("cannot_tell", "inside or outside cannot be told"),
    OutcomeWords("inside", "inside at all points", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)


def _code(seen: GapRead | None) -> str:
    if seen is None:
        return "nothing_told"
    if seen.gap and (seen.below or seen.above) and not seen.gap.fits:
        return "uneven"
    if seen.below:
        return "too_small"
    if seen.above:
        return "far_wide" if seen.far else "too_wide"
    if seen.gap is None:
        return "nothing_told"
    return "inside" if seen.inside else "cannot_tell"


def _lead(seen: GapRead) -> str:
    points = f"{len(seen.read)} point{'s' if len(seen.read) > 1 else ''}"
    if seen.smallest.value == seen.largest.value:
        return f"Gap {millimeters(seen.largest.value)} at {points}."
    return f"Gap {span_words(seen.smallest.value, seen.largest.value)} at {points}."


def _sentence(seen: GapRead | None, code: str) -> str:
    if seen is None:
        return "The gap was not told."
    allowed = "is allowed" if seen.specified else "clutches usually have"
    low, high = millimeters(seen.limits.low), millimeters(seen.limits.high)
    held = span_words(seen.limits.low, seen.limits.high)
    return {
        "uneven": "It differs more around than the limits are apart."
        if seen.specified
        else f"It differs around by more than the width of the {held} that {allowed}.",
        "far_wide": f"Far wider than the {high} that {allowed}.",
        "too_wide": f"Wider than the {high} that {allowed}.",
        "too_small": f"Smaller than the {low} that {allowed}.",
        "cannot_tell": "Whether all points are inside cannot be told with this feeler gauge.",
        "inside": f"Inside the {held} that {allowed}.",
        "nothing_told": "Fewer than three points do not show a gap that is inside.",
    }[code]


def _marks(seen: GapRead, code: str) -> Iterator[Mark]:
    """What the gap shows; by what clutches usually have alone, only what lies far off is named."""
    if code in ("too_wide", "far_wide", "uneven") and seen.above:
        measured = f"measured {millimeters(seen.largest.value)}"
        yield _outside(seen, "Gap too wide", measured, seen.far)
        yield Mark(
            "open", "Friction face worn", "wear is what widens a gap: look at the clutch faces."
        )
    if code in ("too_small", "uneven") and seen.below:
        measured = f"measured {millimeters(seen.smallest.value)}"
        yield _outside(seen, "Gap too small", measured, seen.smallest.value <= 0)
        words = "may not release, drags and runs hot; the pulley’s bearing loses its grease."
        yield Mark("open", "Clutch that drags", words)
    if code == "uneven":
        words = "points here; this step cannot tell them apart."
        yield Mark("likely", "Hub bent, or pulley’s bearing with play", words)
    if code == "inside":
        yield _held(seen)
        yield Mark("open", "Worn face, weak pull", "not told by a gap that is inside.")
    if code == "cannot_tell":
        yield Mark("open", "Gap too wide or too small", "cannot tell with this feeler gauge.")


def _held(seen: GapRead) -> Mark:
    """A gap inside: only the vehicle's own limits rule anything out."""
    subject = "Gap too wide or too small"
    if seen.specified:
        words = "ruled out by this vehicle’s own limits, as cold or warm as it was."
        return Mark("ruled_out", subject, words)
    words = "inside what clutches usually have, but this vehicle’s own limits are not known."
    return Mark("open", subject, words)


def _outside(seen: GapRead, subject: str, measured: str, far: bool) -> Mark:
    """A gap outside: shown against the vehicle's own limits, else only looked up."""
    if seen.specified:
        ends = f"allowed {span_words(seen.limits.low, seen.limits.high)}"
        return Mark("proved", subject, f"{measured}, {ends}.")
    if far:
        return Mark("likely", subject, f"{measured}, far from what clutches usually have.")
    return Mark("open", subject, f"{measured}. Look up this vehicle’s own limits.")


def _onward(seen: GapRead | None, code: str, told: dict[str, str]) -> Iterator[str]:
    to_what = "" if seen and seen.specified else " to this vehicle’s own limits"
    if code in ("too_wide", "far_wide") and told.get("shims") == "none":
        yield "No shim is left to take out: look at the clutch faces, the wear is in the parts."
    elif code in ("too_wide", "far_wide"):
        yield f"Look at the clutch faces, then set the gap{to_what}."
    elif code == "too_small":
        yield f"Set the gap{to_what}, spin the pulley by hand and listen to its bearing."
    elif code == "uneven":
        yield "Turn the hub alone and read again: what goes round with it is the hub’s."
        yield "Rock the pulley by hand for play."
    elif code == "cannot_tell":
        yield "Read again with thinner leaves, at the widest and the narrowest point."
    elif code == "inside" and seen and not seen.specified:
        yield "Look up this vehicle’s own limits and hold the gap to them."
    elif code == "nothing_told":
        yield "Read the gap at three to six points around."
    if seen and code in ("too_wide", "far_wide", "too_small", "uneven"):
        yield NEW_PART


def _not_tested(seen: GapRead | None, readings: Readings) -> Iterator[str]:
    yield "Coil, pull and shaft: not tested by this step."
    if seen is None:
        yield "Gap: no reading to go by."
    elif seen.gap is None:
        yield f"Wobble: not told by fewer than {POINTS[0]} points."
    for name, words in kept_aside(readings).items():
        yield f"{'Gap' if name in GAPS else 'A shim'}, {words}: kept as typed, not used."
    if seen and (seen.below or seen.above) and readings.get("shims") in (None, "not_known"):
        yield "Whether it is set by shims: not told."


def _notes(seen: GapRead, code: str, told: dict[str, str]) -> Iterator[str]:
    yield from shim_words(seen, none_fitted=told.get("shims") == "none")
    if code in ("too_wide", "far_wide"):
        yield "Too wide works cold and quits hot: a hot coil pulls less."
    if seen.wobbles and seen.gap and code != "uneven":
        by = millimeters(seen.gap.wobble.value)
        shows = "a bent hub, or a bearing with play, shows so"
        yield f"It differs by {by} around; {shows}, and no limit is held to that."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    seen = look_at_gap(around.system, readings)
    code = _code(seen)
    carries = code != "nothing_told"
    outcome = Outcome(
        code,
        _sentence(seen, code),
        tuple(_marks(seen, code)) if seen else (),
        tuple(_not_tested(seen, readings)),
        carries,
        seen.basis if seen and carries else "",
    )
    onward = tuple(_onward(seen, code, told))
    if seen is None:
        return Meaning(outcome, onward=onward)
    notes = tuple(_notes(seen, code, taps(readings)))
    return Meaning(outcome, _lead(seen), gap_strip(seen), gap_band(seen), notes, onward)


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    """A point that is far from all others, as a slipped decimal makes it."""
    for name, point, others in out_of_line(readings):
        words = (
            f"{point.shown} does not go with {millimeters(others)} elsewhere around: less than a"
            " fifth or more than five times that (our judgement) is rather a slipped point or unit."
            " Read it again."
        )
        yield name, words


AIR_GAP = Kind(
    name="air_gap",
    title="Air gap",
    question="How wide is the gap between plate and pulley, around the clutch?",
    version=1,
    minutes=4,
    about="clutch",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    at_odds=_at_odds,
    setup=("hub reached",),
    cautions=(
        cautions.KEY_AWAY,
        "No power at the coil while a leaf is in the gap.",
        cautions.CLEAR_OF_BELT,
        cautions.HOT,
        cautions.LOCAL,
    ),
    bars=NO_CLUTCH,
    asks_first=CLUTCH_NOT_SURE,
    remarks=(
        SystemRule({}, "Three points at least, six at most, evenly around."),
        SystemRule({}, NEW_PART),
    ),
    works_out=(
        WorkedOut("gap_3", "Smallest", "smallest", GAPS, "mm", least=POINTS[0]),
        WorkedOut("gap_3", "Smallest", "smallest", GAPS, "in", least=POINTS[0]),
        WorkedOut("gap_3", "Largest", "largest", GAPS, "mm", least=POINTS[0]),
        WorkedOut("gap_3", "Largest", "largest", GAPS, "in", least=POINTS[0]),
        WorkedOut("gap_3", "Wobble", "wobble", GAPS, "mm", least=POINTS[0]),
    ),
)
