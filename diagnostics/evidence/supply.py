"""What stands at the coil's plug, what drew current there, and what is lost on the way to it."""

from dataclasses import dataclass

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.coil import NO_POWER, WORKING
from diagnostics.evidence.findings import Value
from diagnostics.evidence.readings import Reading, Readings, number
from diagnostics.evidence.system import System
from diagnostics.evidence.under_load import FEED_LIMIT, Drop, Load, drop_between, load_of
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.lamp import TWENTY_ONE_WATT, Lamp, joint_by_lamp
from diagnostics.physics.uncertainty import measured
from diagnostics.physics.units import shown, with_unit
from diagnostics.physics.wiring import drop_resistance

LAMPS = {  # W, at the voltage of a car that charges
    "lamp_5": Lamp(5.0, 13.5),
    "lamp_21": TWENTY_ONE_WATT,
    "lamp_55": Lamp(55.0, 13.5),
}


def lamp_words(by: str) -> str:
    """Such as 21 W lamp."""
    return f"{with_unit(shown(LAMPS[by].watt, 0), 'W')} lamp"


@dataclass(frozen=True)
class Supply:
    """The readings by name; `by` names the load.

    `drop` is what is lost from battery to plug, None when the battery was not read.
    """

    volts: Reading
    battery: Reading | None
    load: Load
    drop: Drop | None
    by: str
    commanded: str
    black: str
    voltage: str
    switched_side: str

    @property
    def dead(self) -> bool:
        """Whether next to no voltage was read."""
        return abs(self.volts.si) < NO_POWER

    @property
    def weak(self) -> bool:
        """Whether it is less than a coil can be judged at."""
        return abs(self.volts.si) < WORKING.get(self.voltage or "12", NO_POWER)

    @property
    def battery_weak(self) -> bool:
        """Whether the battery itself has less than a coil can be judged at; 24 V is not judged."""
        weak = self.battery is not None and abs(self.battery.si) < WORKING["12"]
        return weak and self.voltage != "24"

    @property
    def carried(self) -> bool:
        """Whether enough current flowed for the voltage to show something: a coil's or a lamp's."""
        if self.load.flows == "little":
            return self.by in LAMPS or bool(self.drop and self.drop.outside)
        return self.load.flows == "yes"

    @property
    def driven(self) -> bool:
        """Whether current flows through the coil itself."""
        return self.by == "coil" and self.load.flows == "yes"

    @property
    def stretch(self) -> str:
        """What the loss covers: "feed", or "both" sides."""
        return "feed" if self.black in ("minus", "metal") else "both"


def _load(readings: Readings, volts: Reading, system: System) -> Load:
    """A filament lamp at which a voltage stands draws current, unless somebody saw that not."""
    told, by = load_of(readings, system), str(readings.get("load", ""))
    if told.flows or by in ("", "coil"):
        return told
    return Load("yes" if by in LAMPS and abs(volts.si) >= NO_POWER else "no")


def supply(readings: Readings, volts: Reading, around: Circumstances) -> Supply:
    """What was read beside the voltage at the plug, with what is lost."""
    battery, system = number(readings, "battery"), around.system
    taps = {name: str(readings.get(name, "")) for name in ("load", "commanded", "black")}
    return Supply(
        volts,
        battery,
        _load(readings, volts, system),
        drop_between(battery, volts, FEED_LIMIT) if battery else None,
        taps["load"],
        taps["commanded"],
        taps["black"],
        system.get("voltage", ""),
        system.get("switched_side", ""),
    )


def resistances(seen: Supply) -> tuple[Value, ...]:
    """The resistance on the way, where enough is lost to tell: by the amps, or by the lamp."""
    amps, battery, drop = seen.load.amps, seen.battery, seen.drop
    unjudged = seen.voltage == "24"  # neither limit nor lamp is for it
    if unjudged or battery is None or drop is None or not drop.outside or not seen.carried:
        return ()
    if amps:
        ohm = drop_resistance(drop.volts, measured(amps.si, amps.last_digit, "dc_amps"))
        return (_resistance("Resistance on the way", ohm.value, ohm.u),)
    try:
        joint = joint_by_lamp(abs(battery.si), abs(seen.volts.si), LAMPS[seen.by])
    except (KeyError, PhysicsError):
        return ()
    return (_resistance("Resistance on the way, roughly, as such a lamp draws", joint.ohm, None),)


def _resistance(words: str, ohm: float, u: float | None) -> Value:
    return Value("battery", words, with_unit(shown(ohm, 0 if ohm >= 10 else 1), "Ω"), ohm, "Ω", u)
