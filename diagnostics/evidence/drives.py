"""Which drives have a magnetic clutch, which a motor of their own: where a test of it is barred.

The direct test of a clutch coil is allowed exactly where there is a magnetic clutch; above 60 V a
12 V test is never made (trade articles).
"""

from diagnostics.evidence.cautions import HIGH_VOLTAGE
from diagnostics.evidence.system import System, SystemRule

WITH_HIGH_VOLTAGE = ("electric_hv", "belt_electric")
# Where a person comes near the electric side; not where the belt side alone is touched.
MIND_HIGH_VOLTAGE = SystemRule({"drive": WITH_HIGH_VOLTAGE}, HIGH_VOLTAGE)
NO_CLUTCH = (
    SystemRule(
        {"drive": ("belt_clutchless",)},
        "No clutch here: the pulley always turns. The coil on such a compressor is its control"
        " valve’s, judged by duty cycle; never put straight battery power on it.",
    ),
    SystemRule(
        {"drive": ("electric_hv",)},
        "High voltage: never a 12 V test. Isolate, wait and prove dead first, by a person"
        " qualified for it.",
    ),
    SystemRule(
        {"drive": ("electric_48",)},
        "48 V class: the compressor has a motor of its own and no clutch coil. No battery power"
        " is put on it.",
    ),
    SystemRule(
        {"drive": ("belt_electric",), "clutch": ("none",)},
        "Belt and electric without a magnetic clutch: there is no clutch coil to test.",
    ),
)
CLUTCH_NOT_SURE = (
    SystemRule(
        {"drive": ("belt_electric",), "clutch": ("",)},
        "Is there a magnetic clutch? Belt and electric: look at the pulley, and note it under Air"
        " conditioning. Without one there is no clutch coil, and the electric side stays"
        " untouched.",
    ),
    SystemRule(
        {"drive": ("belt_electric",)},
        "Belt and electric: only at the magnetic clutch’s own plug. The electric side stays"
        " untouched.",
    ),
    SystemRule(
        {"drive": ("",)},
        "The drive is not noted yet. Look first: this step is for a belt-driven compressor with a"
        " magnetic clutch, never for an electric one.",
    ),
)
NO_MOTOR = (
    SystemRule(
        {"drive": ("belt_clutch", "belt_clutchless")},
        "Belt driven: there is no electric compressor to read.",
    ),
)
MOTOR_NOT_SURE = (
    SystemRule(
        {"drive": ("",)},
        "The drive is not noted yet. Look first: orange cables mean high voltage, hands off.",
    ),
)
LOW_48 = SystemRule(
    {"drive": ("electric_48",)},
    "48 V class: below 60 V, yet it burns and arcs when shorted or pulled under load. Read it by"
    " scan data; isolate it as its maker says before a plug is touched.",
)
NOT_NOTED = (
    "How the compressor is driven is not noted: look first. Orange cables mean high voltage, hands"
    " off."
)
CLUTCH_NOT_NOTED = (
    "Belt and electric: look first whether there is a magnetic clutch. The electric side stays"
    " untouched."
)
# The pulley turned and the hub stood still, where that does not tell a broken drive.
AS_IT_SHOULD = "Pulley turned, hub still: without power a magnetic clutch lets go, so it should be."
DRIVE_UNKNOWN = (
    "Pulley turned, hub still: a broken drive on a compressor without a clutch, as it should be on"
    " one with a clutch. How this one is driven is not noted."
)


def is_without_clutch(system: System) -> bool:
    """Whether it is noted that no clutch parts pulley and shaft."""
    return system.get("drive") == "belt_clutchless" or system.get("clutch") == "none"


def driven(system: System) -> str:
    """What there is to be measured at the compressor, by how it is driven.

    "clutch"; "no_clutch", a belt without one; "motor"; "both", a motor beside a magnetic clutch;
    or "" where the drive, or the clutch of a double one, is not noted. A double drive without a
    clutch counts as "motor": nothing but its scan data is read on either side.
    """
    drive = system.get("drive", "")
    if drive == "belt_electric":
        return {"magnetic": "both", "none": "motor"}.get(system.get("clutch", ""), "")
    found = {"belt_clutch": "clutch", "belt_clutchless": "no_clutch"}
    return found.get(drive, "motor" if drive in ("electric_hv", "electric_48") else "")


def look_first(system: System) -> str:
    """What has to be noted before anything is measured at the compressor; empty where it is."""
    if driven(system):
        return ""
    return CLUTCH_NOT_NOTED if system.get("drive") == "belt_electric" else NOT_NOTED


def hub_still(system: System) -> str:
    """What a hub that stood still, the pulley turned, tells; empty where the drive is broken."""
    if is_without_clutch(system):
        return ""
    return AS_IT_SHOULD if system.get("clutch") == "magnetic" else DRIVE_UNKNOWN
