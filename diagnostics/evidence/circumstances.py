"""What a step's readings are read against: the A/C as fitted, the switch, the air of the place."""

from dataclasses import dataclass, field

from diagnostics.evidence.system import System
from diagnostics.physics.atmosphere import SEA_LEVEL
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.shown_units import ShownIn

AT_SEA_LEVEL = "at sea level, as long as the shop’s altitude is not set"


@dataclass(frozen=True)
class Circumstances:
    """Everything beside the readings themselves.

    `failing` is the job's switch at the time of the step: "yes", "no", "cannot_tell" or "" (nobody
    told). `air` is the pressure of the air where the gauges stand, `air_words` say how it is known.
    `units` are those in which the shop wants its numbers told.
    """

    system: System = field(default_factory=System)
    failing: str = ""
    air: Absolute = SEA_LEVEL
    air_words: str = AT_SEA_LEVEL
    units: ShownIn = field(default_factory=ShownIn)
