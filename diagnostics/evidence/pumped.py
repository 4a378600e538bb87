"""A loop pumped down, and how it held: depth, the rise behind a shut valve, what it shows."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.rise import DECISIVE, Rise, read_rise
from diagnostics.physics.rise_curves import Timed
from diagnostics.physics.uncertainty import Place, measured
from diagnostics.physics.units import to_si
from diagnostics.physics.vacuum import depth_absolute, reaches
from diagnostics.physics.water import vapor_pressure

ROWS = tuple(range(1, 9))
# Where no temperature was read the curves are laid under water's line at this one, and nothing is
# said of moisture.
NEEDLE_OFF = to_si(0.5, "inHg")  # how far a needle's zero may be off; our judgement
SCATTER_SHARE, SCATTER = 0.1, to_si(10, "micron")  # of one gauge read several times; our judgement
TAKEN = to_si(20, "°C")
LATER = (
    "Each reading is later than the one before, and later than the shut valve: check the minutes."
)


@dataclass(frozen=True)
class Pumped:
    """What was read of a vacuum. `where` is where the deepest reading stands to the target."""

    taps: Mapping[str, str]
    depth: Reading | None
    needle: Reading | None
    pumped: Reading | None
    temperature: Reading | None
    timed: tuple[Timed, ...]
    where: Place | None
    water: Absolute
    rise: Rise | None
    code: str

    @property
    def kelvin(self) -> float:
        """The loop's temperature, or the one taken for it."""
        return self.temperature.si if self.temperature else TAKEN

    @property
    def minutes(self) -> float:
        """How long it was watched."""
        return (self.timed[-1].second - self.timed[0].second) / 60 if self.timed else 0.0


def look(readings: Readings) -> Pumped:
    """The readings, the rise laid through them, and which outcome they are."""
    told = taps(readings)
    depth, needle = number(readings, "depth"), number(readings, "needle")
    temperature = number(readings, "temperature")
    timed = tuple(_timed(readings))
    deepest = min(_pressures(readings), key=lambda one: one.si, default=None)
    where = None
    if deepest:
        where = reaches(measured(deepest.si, deepest.last_digit, "micron_gauge"))
    water = vapor_pressure(temperature.si if temperature else TAKEN)
    rise = _rise(timed, water, depth)
    pumped = number(readings, "pumped")
    first = Pumped(told, depth, needle, pumped, temperature, timed, where, water, rise, "")
    code = _code(first)
    return Pumped(told, depth, needle, pumped, temperature, timed, where, water, rise, code)


def at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    """Minutes that do not go on, a perfect vacuum, one deeper than the place allows."""
    for name in ("depth", *(f"p{row}" for row in ROWS)):
        reading = number(readings, name)
        if reading and reading.si <= 0:
            yield name, "Perfect vacuum: no pump reaches it, so look after the gauge."
    passed = 0.0 if number(readings, "depth") else -1.0
    for row in ROWS:
        minute, micron = number(readings, f"t{row}"), number(readings, f"p{row}")
        if minute and micron:
            if minute.si <= passed:
                yield f"t{row}", LATER
            passed = max(passed, minute.si)
    needle = number(readings, "needle")
    if needle:
        try:
            depth_absolute(Gauge(-max(needle.si - NEEDLE_OFF, 0.0)), around.air)
        except PhysicsError as problem:
            yield "needle", problem.sentence


def _pressures(readings: Readings) -> Iterator[Reading]:
    """The depth and each timed pressure."""
    for name in ("depth", *(f"p{row}" for row in ROWS)):
        reading = number(readings, name)
        if reading:
            yield reading


def _timed(readings: Readings) -> Iterator[Timed]:
    """Depth at the shut valve, then each pair that is whole."""
    depth = number(readings, "depth")
    if depth:
        yield Timed(0.0, Absolute(depth.si))
    for row in ROWS:
        minute, micron = number(readings, f"t{row}"), number(readings, f"p{row}")
        if minute and micron:
            yield Timed(minute.si, Absolute(micron.si))


def _rise(timed: tuple[Timed, ...], water: Absolute, depth: Reading | None) -> Rise | None:
    if len(timed) < 2:
        return None
    try:
        return read_rise(timed, water, depth.last_digit if depth else 0.0)
    except PhysicsError:
        return None


def _code(seen: Pumped) -> str:
    if seen.rise:
        return _by_rise(seen, seen.rise)
    if seen.depth and seen.where:
        return {"inside": "deep", "above": "not_deep"}.get(seen.where, "near_target")
    if seen.taps.get("needle_after") == "came_back":
        return "needle_back"
    return "needle_only" if seen.needle or "needle_after" in seen.taps else "nothing_told"


def _jumps(seen: Pumped) -> bool:
    """Whether the readings stand further apart than one gauge scatters: no level line.

    What its scale is off counts for all of them; the span allowed is our judgement.
    """
    low, high = (end(one.pressure.pa for one in seen.timed) for end in (min, max))
    return high - low > SCATTER_SHARE * high + SCATTER


def _by_rise(seen: Pumped, rise: Rise) -> str:
    """Leak and moisture are told apart only where the temperature was read."""
    held = "held" if seen.where in ("inside", "cannot_tell") else "held_shallow"
    if _jumps(seen):
        held = "cannot_tell"
    if rise.seen == "falls" or rise.rate.value + rise.rate.expanded < 0:
        return "nothing_told"
    if rise.seen == "no_rise":
        return held
    if rise.seen in ("leak", "moisture"):
        return rise.seen if seen.temperature else "rises"
    if rise.why == "few":  # too few to lay a curve, enough to see whether it climbed
        if rise.rate.value - rise.rate.expanded <= 0:
            return held
        return "rises" if _jumps(seen) else "cannot_tell"
    level = rise.curves["level"].aicc
    best = min(rise.curves["straight"].aicc, rise.curves["flattening"].aicc)
    return "rises" if level - best >= DECISIVE else "cannot_tell"
