"""All computations by name, in the order of their subjects."""

from diagnostics.physics.computations import (
    atmosphere,
    charge,
    cooled_air,
    cycle,
    cylinder,
    diode,
    electrics,
    gap,
    humid_air,
    nitrogen,
    oil,
    recovery,
    rise,
    saturation,
    units,
    vacuum,
    vent_readings,
    wiring,
)
from diagnostics.physics.computations.computation import Computation

_ALL: tuple[Computation, ...] = (
    *units.COMPUTATIONS,
    *atmosphere.COMPUTATIONS,
    *saturation.COMPUTATIONS,
    *charge.COMPUTATIONS,
    *cycle.COMPUTATIONS,
    *recovery.COMPUTATIONS,
    *cylinder.COMPUTATIONS,
    *humid_air.COMPUTATIONS,
    *cooled_air.COMPUTATIONS,
    *vent_readings.COMPUTATIONS,
    *electrics.COMPUTATIONS,
    *diode.COMPUTATIONS,
    *wiring.COMPUTATIONS,
    *gap.COMPUTATIONS,
    *vacuum.COMPUTATIONS,
    *rise.COMPUTATIONS,
    *nitrogen.COMPUTATIONS,
    *oil.COMPUTATIONS,
)

COMPUTATIONS: dict[str, Computation] = {one.name: one for one in _ALL}
