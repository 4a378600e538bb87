"""Whether the air outside is warm enough to show that a repaired car cools, and from when it is.

A loop at rest has the pressure of its temperature, and a low-pressure switch stays open below its
own figure: no click in a cold bay is normal. The resting pressure is the saturation table's; the
rest is our judgement.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.physics.charge import static_pressure
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.pressure import Gauge
from diagnostics.physics.saturation import saturation_temperature
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.units import to_si

# Below it a car may ask for no cold at all, and a vent shows nothing of it; our judgement.
TOO_COLD = to_si(15, "°C")
# The resting pressure at this temperature stands for a switch whose own figure nobody noted; no
# limit of any switch (switch_read.py says the same).
USUAL_SWITCH = to_si(11, "°C")
ICE = to_si(0, "°C")
USUAL_GAS = "R-134a"
STEP = 1.0  # K: when to come back is told in whole degrees, rounded up


@dataclass(frozen=True)
class Switch:
    """Pressure at which the car's low-pressure switch closes, and in which step it was noted."""

    closes_at: Gauge
    step: int


@dataclass(frozen=True)
class Cold:
    """Why it is not showable at this temperature, in sentences; `from_k` is when to come back."""

    air_k: float
    shown: str
    reasons: tuple[str, ...]
    from_k: float
    from_shown: str

    @property
    def words(self) -> str:
        """Not showable at 9 °C."""
        return f"Not showable at {self.shown}"

    @property
    def come_back(self) -> str:
        """When it can be shown."""
        return f"On a day with at least {self.from_shown} in the shade, or in a bay that warm."


def too_cold(air_k: float, around: Circumstances, switch: Switch | None = None) -> Cold | None:
    """Why air of so many kelvin shows nothing of the repair.

    None: it is warm enough, as far as is known.
    """
    gas = around.system.get("refrigerant") or USUAL_GAS
    from_k = max(TOO_COLD, warm_for_switch(gas, around, switch))
    if air_k >= from_k:
        return None
    units = around.units
    shown = units.text(air_k, "°C")
    reasons = (*by_air(air_k, shown, units), *by_pressure(gas, air_k, shown, around, switch))
    return Cold(air_k, shown, reasons, from_k, units.text(up(from_k, units), "°C"))


def by_air(air_k: float, shown: str, units: ShownIn) -> Iterator[str]:
    """What the evaporator leaves room for."""
    if air_k >= TOO_COLD:
        return
    limit = units.text(TOO_COLD, "°C")
    yield f"Below {limit} a car may ask for no cold (our judgement), and a vent shows nothing then."
    if air_k > ICE:
        room = units.text(air_k - ICE, "ΔK")
        yield (
            f"An evaporator is kept from freezing, so fresh air of {shown} can turn colder by"
            f" {room} at most: what the loop does hardly shows in it."
        )
    else:
        yield "An evaporator is kept from freezing, so air below freezing is cooled by nothing."


def by_pressure(
    gas: str, air_k: float, shown: str, around: Circumstances, switch: Switch | None
) -> Iterator[str]:
    """What the low-pressure switch leaves room for."""
    rest, point = rest_at(gas, air_k, around), point_of(gas, around, switch)
    if rest is None or point is None or rest.pa >= point.pa:
        return
    text = around.units.text
    noted = around.system.get("refrigerant")
    of = f"of {gas}" if noted else f"of {gas}, if it is that,"
    held = (
        f"the switch closes at {text(point.pa, 'kPa')}, as noted in step {switch.step}"
        if switch
        else f"the pressure at {text(USUAL_SWITCH, '°C')}, {text(point.pa, 'kPa')}, stands for its"
        " switch, whose own figure is not noted (our judgement)"
    )
    yield (
        f"At {shown} a loop {of} with liquid in it rests at {text(rest.pa, 'kPa')}; {held}. That"
        " the compressor stays off then is normal, and no fault."
    )


def rest_at(gas: str, kelvin: float, around: Circumstances) -> Gauge | None:
    """The pressure at rest with liquid in the loop; None where the table does not tell."""
    try:
        return static_pressure(gas, kelvin, around.air)
    except PhysicsError:
        return None


def point_of(gas: str, around: Circumstances, switch: Switch | None) -> Gauge | None:
    """The pressure that has to stand before the compressor may come on; None: nobody knows.

    R-744 has no usual figure.
    """
    if switch:
        return switch.closes_at
    return None if gas == "R-744" else rest_at(gas, USUAL_SWITCH, around)


def warm_for_switch(gas: str, around: Circumstances, switch: Switch | None) -> float:
    """The temperature from which the loop's own pressure closes its switch, in K; 0: not known."""
    point = point_of(gas, around, switch)
    if point is None:
        return 0.0
    try:
        return saturation_temperature(gas, point.absolute(around.air))
    except PhysicsError:
        return 0.0


def up(kelvin: float, units: ShownIn) -> float:
    """The next whole degree of the unit that is shown, in K."""
    unit = units.unit("°C")
    degrees = units.value(kelvin, "°C")
    whole = -(-(degrees - 1e-6) // STEP) * STEP
    return to_si(whole, unit)
