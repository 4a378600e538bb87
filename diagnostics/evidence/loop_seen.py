"""What one test saw of the loop itself: pressure, none, vacuum, another gas, recovered, open.

It tells of the moment of the test and no more. A test that pumps, fills or empties the loop changed
it, also where its readings carry nothing: then it is told that it was done, and not what is in it.
"""

from collections.abc import Callable
from dataclasses import dataclass

from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.running import NEXT_TO_NOTHING
from diagnostics.physics.uncertainty import measured

# Below this hardly any gas is left of what a loop was held at; our judgement.
SPENT = 50e3  # Pa, gauge
AT_REST = {
    "as_expected": "liquid",
    "a_little_above": "pressure",
    "above": "pressure",
    "some": "pressure",
    "unsoaked_some": "pressure",
    "below": "little",
    "empty": "none",
    "vacuum": "low",
}
BY_VACUUM = {
    "held": "vacuum",
    "held_shallow": "vacuum",
    "moisture": "vacuum",
    "cannot_tell": "vacuum",
    "deep": "vacuum",
    "near_target": "vacuum",
    "leak": "risen",
    "rises": "risen",
    "needle_back": "risen",
}
# Both sides low can be what a recovery left in it, and what carries nothing shows no charge.
NO_CHARGE_SHOWN = ("low_low", "starved", "nothing_told")


@dataclass(frozen=True)
class Seen:
    """What was seen, as a code; `gas` is the answer that told which gas was put in."""

    code: str
    gas: str = ""


def seen_by(kind: str, outcome: str, read: Readings) -> Seen | None:
    """What a test of that kind saw of the loop, by its outcome and the readings that can be used.

    None: it tells nothing of it.
    """
    look = _LOOKS.get(kind)
    return look(outcome, read) if look else None


def _at_rest(outcome: str, read: Readings) -> Seen | None:
    """By the outcome; one side under vacuum is told also where nothing is made of the two."""
    if outcome in AT_REST:
        return Seen(AT_REST[outcome])
    seen = _by_both(read)
    return seen if seen and seen.code == "side_low" else None


def _pumped(outcome: str, _read: Readings) -> Seen:
    return Seen(BY_VACUUM.get(outcome, "pumped"))


def _held(_outcome: str, read: Readings) -> Seen:
    """Under the gas that was put in, where the end was read; else only that it was put in."""
    end, gas = number(read, "end"), taps(read).get("gas", "")
    if end is None:
        return Seen("put_in", gas)
    return Seen("gas" if end.si > SPENT else "spent", gas)


def _recovered(_outcome: str, read: Readings) -> Seen:
    grams = number(read, "recovered")
    if grams is None:
        return Seen("recovery")
    off = measured(grams.si, grams.last_digit, "scale").expanded
    return Seen("recovered" if grams.si > off else "nothing_came")


def _running(outcome: str, read: Readings) -> Seen | None:
    low, high = number(read, "low"), number(read, "high")
    shaft = taps(read).get("shaft")
    if shaft == "no":
        return _by_both(read)
    if high and high.si <= NEXT_TO_NOTHING:
        return Seen("dry")
    if low and low.si < 0:
        return Seen("sucks")
    if high is None:
        return None  # what a low side shows while it runs is no word on the loop
    shown = shaft == "yes" and outcome not in NO_CHARGE_SHOWN
    return Seen("ran" if shown else "ran_low")


def _searched(_outcome: str, read: Readings) -> Seen | None:
    """The pressure it was searched under; a tracer's detector tells that a tracer was put in."""
    pressure = number(read, "pressure")
    if pressure is None:
        return None
    code = _by_gauge(pressure, "low_side_gauge")
    filled = code == "pressure" and taps(read).get("method") == "tracer"
    return Seen("gas", "tracer") if filled else Seen(code)


def _by_both(read: Readings) -> Seen | None:
    """What both sides show at rest: vacuum on one of them goes before pressure on the other."""
    names = [(number(read, name), f"{name}_side_gauge") for name in ("low", "high")]
    codes = {_by_gauge(reading, gauge) for reading, gauge in names if reading}
    if "low" in codes and len(codes) > 1:
        return Seen("side_low")
    return Seen(min(codes, key=("pressure", "low", "none").index)) if codes else None


def _by_gauge(reading: Reading, gauge: str) -> str:
    off = measured(reading.si, reading.last_digit, gauge).expanded
    if reading.si > off:
        return "pressure"
    return "low" if reading.si < -off else "none"


def _debris(outcome: str, _read: Readings) -> Seen | None:
    return None if outcome == "nothing_told" else Seen("open")


def _filter(_outcome: str, read: Readings) -> Seen | None:
    return Seen("open") if taps(read).get("shows") in ("debris", "specks", "clean") else None


def _identified(outcome: str, _read: Readings) -> Seen | None:
    return Seen("as_label") if outcome == "as_label" else None


_LOOKS: dict[str, Callable[[str, Readings], Seen | None]] = {
    "static_pressure": _at_rest,
    "vacuum_hold": _pumped,
    "nitrogen_hold": _held,
    "recovered_share": _recovered,
    "running_pressures": _running,
    "leak_search": _searched,
    "debris": _debris,
    "filter_second_look": _filter,
    "gas_identity": _identified,
}
