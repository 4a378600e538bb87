"""What the pure part knows of the A/C as fitted.

Whoever reads rows fills this; a key that is missing or empty means not known, which is never the
same as no.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypedDict


class System(TypedDict, total=False):
    """The A/C as far as steps ask for it.

    drive: belt_clutch, belt_clutchless, electric_hv, electric_48, belt_electric
    clutch: magnetic, none
    voltage: 12, 24
    switched_side: feed, ground
    coil_ohm: the vehicle's own figure at 20 °C, in ohm
    coil_ohm_tolerance: as a share, 0.05 for 5 %
    coil_ohm_source: where the figure was read, in words
    """

    drive: str
    clutch: str
    voltage: str
    switched_side: str
    coil_ohm: float
    coil_ohm_tolerance: float
    coil_ohm_source: str


@dataclass(frozen=True)
class SystemRule:
    """A sentence that holds when every key of `when` has one of the values named there."""

    when: Mapping[str, tuple[str, ...]]
    sentence: str

    def holds(self, system: System) -> bool:
        """Whether it holds on such a system."""
        told: Mapping[str, object] = {**system}
        return all((told.get(key) or "") in values for key, values in self.when.items())


def first_that_holds(rules: tuple[SystemRule, ...], system: System) -> str | None:
    """The sentence of the first rule that holds, or None."""
    return next((rule.sentence for rule in rules if rule.holds(system)), None)
