"""All computations by name, in the order of their subjects."""

from diagnostics.physics.computations import (
    atmosphere,
    charge,
    cooled_air,
    cycle,
    cylinder,
    humid_air,
    recovery,
    saturation,
    units,
    vent_readings,
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
)

COMPUTATIONS: dict[str, Computation] = {one.name: one for one in _ALL}
