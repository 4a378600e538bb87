"""What the pure part knows of the A/C as fitted. Whoever reads rows fills this; a key that is
missing or empty means not known, which is never the same as no."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypedDict

Drive = Literal[
    "belt_clutch", "belt_no_clutch", "electric_high_voltage", "electric_48", "belt_electric", ""
]


class System(TypedDict, total=False):
    """drive, clutch ("magnetic", "none", ""), voltage in volts (12, 24), switched_side ("feed",
    "ground", ""), coil_wires (1, 2), coil_ohm at 20 °C in ohm, coil_ohm_tolerance as a share
    (0.05 = 5 %), coil_ohm_source in words."""

    drive: str
    clutch: str
    voltage: int
    switched_side: str
    coil_wires: int
    coil_ohm: float
    coil_ohm_tolerance: float
    coil_ohm_source: str


@dataclass(frozen=True)
class SystemRule:
    """A sentence that holds when every key of `when` has one of the values named there."""

    when: Mapping[str, tuple[str | int, ...]]
    sentence: str

    def holds(self, system: System) -> bool:
        told: Mapping[str, object] = {**system}
        return all((told.get(key) or "") in values for key, values in self.when.items())


def first_that_holds(rules: tuple[SystemRule, ...], system: System) -> str | None:
    """The sentence of the first rule that holds, or None."""
    return next((rule.sentence for rule in rules if rule.holds(system)), None)
