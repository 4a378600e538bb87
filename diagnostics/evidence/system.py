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
    displacement: fixed, variable_inner, variable_outer, speed
    voltage: 12, 24
    switched_side: feed, ground
    refrigerant: R-134a, R-1234yf, R-12, R-152a, R-744, other
    branches: of front, rear, battery
    label_charge_kg: on the label, in kilogram
    coil_ohm: the vehicle's own figure at 20 °C, in ohm
    coil_ohm_source: where the figure was read, in words
    gap_low_m, gap_high_m: the vehicle's own limits of the air gap, in meter
    gap_source: where they were read, in words
    """

    drive: str
    clutch: str
    displacement: str
    voltage: str
    switched_side: str
    refrigerant: str
    branches: list[str]
    label_charge_kg: float
    coil_ohm: float
    coil_ohm_source: str
    gap_low_m: float
    gap_high_m: float
    gap_source: str


SystemIs = Mapping[str, tuple[str, ...]]


def is_such(when: SystemIs, system: System) -> bool:
    """Whether every key of `when` has one of the values named there; "" stands for not known.

    Of a key with several values, such as branches, one is enough.
    """
    told: Mapping[str, object] = {**system}
    for key, values in when.items():
        found = told.get(key) or ""
        if not set(found if isinstance(found, list) else [found]) & set(values):
            return False
    return True


def can_be_such(when: SystemIs, system: System) -> bool:
    """The same, where a key that is not known speaks for nothing against it."""
    told: Mapping[str, object] = {**system}
    return is_such({key: values for key, values in when.items() if told.get(key)}, system)


@dataclass(frozen=True)
class SystemRule:
    """A sentence that holds when every key of `when` has one of the values named there."""

    when: SystemIs
    sentence: str

    def holds(self, system: System) -> bool:
        """Whether it holds on such a system."""
        return is_such(self.when, system)


def first_that_holds(rules: tuple[SystemRule, ...], system: System) -> str | None:
    """The sentence of the first rule that holds, or None."""
    return next((rule.sentence for rule in rules if rule.holds(system)), None)
