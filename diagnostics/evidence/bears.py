"""On which orders a test bears by what was read or done in it, beside its outcome.

An outcome tells one thing of a test, its readings can tell more: a walk round that meets another
gas and a shaft that does not turn, a recovery whose grams are held to nothing. Common practice, no
source.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from diagnostics.evidence.orders import BELT
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.evidence.running import NEXT_TO_NOTHING
from diagnostics.evidence.switch_read import EMPTY
from diagnostics.evidence.system import System, can_be_such
from diagnostics.physics.uncertainty import measured

OPENED_AT = ("found", "clean")
# The fields of all kinds that read a side while it runs.
LOW_SIDES = ("low", "low_small", "low_full")
HIGH_SIDES = ("high", "dry", "wet")


@dataclass(frozen=True)
class Bears:
    """The codes of the orders that a test opens and shuts by what was read."""

    opens: tuple[str, ...] = ()
    shuts: tuple[str, ...] = ()


NOTHING = Bears()
# The refrigerant is out: none is left to run on, nor to be pumped away.
TAKEN_OUT = Bears(("recovered_first",), ("charge_first",))
NOT_SHOWN = Bears(shuts=("charge_first",))
# The car is ready or runs, and with it high voltage is on: what was proven dead is so no more.
SWITCHED_ON = Bears(shuts=("dead_first",))
# There may be refrigerant in what was run.
RUN_ON = Bears(shuts=("dead_first", "recovered_first"))


def bears(kind: str, read: Readings, system: System) -> Bears:
    """What a test of that kind opens and shuts, by the readings that can be used."""
    look = _LOOKS.get(kind)
    return look(read, system) if look else NOTHING


def _recovered(read: Readings, _system: System) -> Bears:
    """That next to nothing came out is no recovery: a coupler that does not open gives the same."""
    grams = number(read, "recovered")
    if grams is None:
        return NOT_SHOWN
    scale = measured(grams.si, grams.last_digit, "scale")
    return TAKEN_OUT if scale.value - scale.expanded > 0 else NOT_SHOWN


def _pumped(_read: Readings, _system: System) -> Bears:
    return NOT_SHOWN


def _running(read: Readings, _system: System) -> Bears:
    """Run, or found with next to nothing in it, or drawing a vacuum."""
    lows = [side.si for name in LOW_SIDES if (side := number(read, name))]
    highs = [side.si for name in HIGH_SIDES if (side := number(read, name))]
    dry = any(low < 0 for low in lows) or any(high <= NEXT_TO_NOTHING for high in highs)
    return Bears(shuts=("dead_first", "charge_first")) if dry else RUN_ON


def _run_if_read(read: Readings, system: System) -> Bears:
    """Of a kind that is looked at standing, too: it was run where a side was read."""
    sides = (*LOW_SIDES, *HIGH_SIDES)
    return _running(read, system) if any(number(read, name) for name in sides) else NOTHING


def _listened(read: Readings, _system: System) -> Bears:
    return SWITCHED_ON if taps(read).get("on") in ("yes", "no") else NOTHING


def _switched_on(_read: Readings, _system: System) -> Bears:
    return SWITCHED_ON


def _gauge(name: str) -> Callable[[Readings, System], Bears]:
    """Of a kind that reads a pressure at rest: next to none shows no charge."""

    def look(read: Readings, _system: System) -> Bears:
        reading = number(read, name)
        if reading is None:
            return NOTHING
        gauge = measured(reading.si, reading.last_digit, "low_side_gauge")
        return NOT_SHOWN if gauge.value + gauge.expanded < EMPTY else NOTHING

    return look


def _walked(read: Readings, system: System) -> Bears:
    told = taps(read)
    rows = (
        ("gas_first", told.get("gas") == "not_fine"),
        ("hub_first", told.get("turned") == "not_fine" and can_be_such({"drive": BELT}, system)),
    )
    return Bears(shuts=tuple(code for code, shuts in rows if shuts))


def _powered(read: Readings, _system: System) -> Bears:
    return Bears(shuts=("hub_first",)) if taps(read).get("hub") == "not_free" else NOTHING


def _leak_stop(read: Readings, _system: System) -> Bears:
    """A can that was added asks for a kit; one that shows it clean opens by its outcome."""
    return Bears(shuts=("leak_stop_first",)) if taps(read).get("can_added") == "yes" else NOTHING


def _debris(read: Readings, _system: System) -> Bears:
    told = taps(read)
    places = ("expansion", "drier", "hose", "port", "filter")
    seen = TAKEN_OUT if any(told.get(place) in OPENED_AT for place in places) else NOTHING
    jelly = ("leak_stop_first",) if told.get("jelly") == "yes" else ()
    return Bears(seen.opens, (*seen.shuts, *jelly))


def _filter(read: Readings, _system: System) -> Bears:
    return TAKEN_OUT if taps(read).get("shows") else NOTHING


def _oil(read: Readings, _system: System) -> Bears:
    """Oil that came out: with the loop open, or with what was recovered."""
    return TAKEN_OUT if "look" in read or number(read, "amount") else NOTHING


_LOOKS: Mapping[str, Callable[[Readings, System], Bears]] = {
    "walk_round": _walked,
    "coil_power": _powered,
    "pressure_switch": _gauge("rest"),
    "leak_search": _gauge("pressure"),
    "sealant_test": _leak_stop,
    "recovered_share": _recovered,
    "vacuum_hold": _pumped,
    "nitrogen_hold": _pumped,
    "debris": _debris,
    "filter_second_look": _filter,
    "oil_condition": _oil,
    "running_pressures": _running,
    "line_temperatures": _running,
    "equalising": _running,
    "condenser_face": _run_if_read,
    "control_valve_duty": _run_if_read,
    "noise": _listened,
    "hot_retest": _switched_on,
    "vent_temperature": _switched_on,
    "complaint_seen": _switched_on,
    "command_data": _switched_on,
    "hv_command": _switched_on,
}
