"""The tables of all kinds of test that tell something of the network: what each one looks at."""

from collections.abc import Mapping

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.looks import (
    air_gap,
    clutch_face,
    coil_power,
    coil_resistance,
    hub_turn,
    known_good,
    limiter,
    pulley_bearing,
)

_ALL = (
    air_gap.LOOKS,
    clutch_face.LOOKS,
    coil_power.LOOKS,
    coil_resistance.LOOKS,
    hub_turn.LOOKS,
    known_good.LOOKS,
    limiter.LOOKS,
    pulley_bearing.LOOKS,
)

TABLES: Mapping[str, Looks] = {one.kind: one for one in _ALL}
