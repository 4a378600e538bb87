"""What a step's readings mean, as data that a page can show and a record can keep."""

import math
from dataclasses import dataclass, field
from typing import Literal

from diagnostics.evidence.readings import Readings
from diagnostics.physics.units import shown

Standing = Literal["proved", "likely", "open", "ruled_out"]
Looks = Literal["curve", "fit", "edge", "limit", "water"]

FAILING_NOTES = {
    "no": "It was not failing at that time: a normal result says little.",
    "cannot_tell": "Whether it was failing at that time cannot be told: a normal result says"
    " little.",
}


@dataclass(frozen=True)
class Mark:
    """What the step says of one thing: shown, pointed at, cannot be told, ruled out.

    `sentence` follows the subject and a colon.
    """

    standing: Standing
    subject: str
    sentence: str


@dataclass(frozen=True)
class Strip:
    """A linear strip: axis, what is expected, what was read with its error. In `unit`."""

    unit: str
    low: float
    high: float
    ticks: tuple[float, ...]
    expected: tuple[float, float] | None
    expected_words: str
    point: float
    point_words: str
    error: float  # half width; 0 when unknown
    beyond: bool = False  # the point lies off the scale, past a break

    @property
    def below(self) -> bool:
        """Whether the break stands at the low end: the point lies under all that it can be."""
        return self.beyond and self.point < self.low

    def percent(self, value: float) -> float:
        """Where a value stands on the axis, from 0 to 100."""
        share = (value - self.low) / (self.high - self.low)
        return 100 * min(1.0, max(0.0, share))


@dataclass(frozen=True)
class Value:
    """A number worked out from what was read. `about` names the field under which it stands.

    `shown` is the number with its unit, `u` its standard uncertainty (None: not known), both in SI;
    `words` say what it is. `live`: the page's own script shows it under its field, too.
    `converts`: it is a reading in another unit, which stands with the reading and in no record.
    """

    about: str
    words: str
    shown: str
    si: float
    si_unit: str
    u: float | None = None
    live: bool = False
    converts: bool = False


def tick_words(tick: float, ticks: tuple[float, ...]) -> str:
    """A tick's number with as many decimals as its neighbors need."""
    exact = (count for count in range(4) if all(round(t, count) == round(t, 9) for t in ticks))
    return shown(tick, next(exact, 4))


@dataclass(frozen=True)
class Axis:
    """One axis of a plot, in `unit`; `log`: each power of ten takes the same room."""

    words: str
    unit: str
    low: float
    high: float
    ticks: tuple[float, ...]
    log: bool = False

    def percent(self, value: float) -> float:
        """Where a value stands between the ends, from 0 to 100; one beyond stands at the end."""
        low, high, at = self.low, self.high, min(max(value, self.low), self.high)
        if self.log:
            low, high, at = (math.log10(one) for one in (low, high, at))
        return 100 * (at - low) / (high - low)


@dataclass(frozen=True)
class Line:
    """A drawn line with the words that stand at its end.

    `looks`: "curve" (what is known), "fit" (laid through what was read), "edge" (of a band),
    "limit" or "water".
    """

    points: tuple[tuple[float, float], ...]
    words: str
    looks: Looks = "curve"


@dataclass(frozen=True)
class Spot:
    """A measured point with half widths of its error, 0 when unknown."""

    x: float
    y: float
    words: str
    error_x: float = 0.0
    error_y: float = 0.0


@dataclass(frozen=True)
class Plot:
    """A curve with what was measured, drawn within its axes.

    `words` tell it to who cannot see it, `caption` the limit of what it shows.
    """

    x: Axis
    y: Axis
    lines: tuple[Line, ...]
    spots: tuple[Spot, ...]
    words: str
    caption: str = ""


@dataclass(frozen=True)
class OutcomeWords:
    """One outcome a kind can have; `carries` is False when it bears on no question.

    `normal`: nothing wrong was seen, which says little while the car was not failing.
    """

    code: str
    words: str
    carries: bool = True
    normal: bool = False


@dataclass(frozen=True)
class Outcome:
    """One of its kind's outcomes, as it came out this time.

    `basis` tells what a measured number was held against: "vehicle" (its own specification),
    "general" (what such parts show) or "" (nothing).
    """

    code: str
    sentence: str
    marks: tuple[Mark, ...]
    not_tested: tuple[str, ...]
    carries: bool = True
    basis: str = ""


@dataclass(frozen=True)
class Meaning:
    """The outcome with what a page shows around it.

    `lead` stands before the outcome's sentence, `band` tells how the expected band came about,
    `notes` what else a reader has to know, `onward` what the step itself says to do next, `values`
    what was worked out from the readings. `taken`: the readings that something was made of.
    """

    outcome: Outcome
    lead: str = ""
    strip: Strip | None = None
    band: str = ""
    notes: tuple[str, ...] = ()
    onward: tuple[str, ...] = ()
    values: tuple[Value, ...] = ()
    plot: Plot | None = None
    taken: Readings = field(default_factory=dict, compare=False)

    @property
    def computed(self) -> tuple[Value, ...]:
        """The values that are more than a reading in another unit."""
        return tuple(one for one in self.values if not one.converts)
