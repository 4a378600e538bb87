"""What to mind before hoses go on such a car. Trade articles and common practice, no source."""

from diagnostics.evidence.cautions import HIGH_VOLTAGE
from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.system import SystemRule

HV_HOSES = SystemRule(
    {"drive": WITH_HIGH_VOLTAGE},
    f"{HIGH_VOLTAGE} Hoses and machine free of foreign oil: only the oil the maker names.",
)
MORE_BRANCHES = SystemRule(
    {"branches": ("rear", "battery")},
    "More than one branch: their valves decide what is reached. Label charge and oil then say"
    " “with rear” or “with chiller”.",
)
NO_VENTING = "Never vent, never mix: refrigerant goes into a cylinder of its own kind."
OWN_CYLINDER = "A gas nobody knows goes into a cylinder of its own, marked so."
THROUGH_REGULATOR = (
    "Nitrogen only through a regulator with relief; never oxygen, never compressed air."
)
