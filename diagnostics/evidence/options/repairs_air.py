"""Repairs of the air outside and inside, and what can be done without a repair. Common practice."""

from diagnostics.evidence.options import needs
from diagnostics.evidence.options.option import Option

LOOP_AS_IT_IS = "Compressor, charge and loop as they are."
NO_DEMIST = "Without it the windshield clears more slowly."

AIR = (
    Option(
        "fan", "Condenser fan or its supply", "A fan does not run, or blows the wrong way.",
        LOOP_AS_IT_IS, (needs.FAN,), 4,
        cures={"outside": ("fan",)}, operations=("fan",), parts=("fan",),
    ),
    Option(
        "face", "Condenser’s face cleaned", "Leaves, dirt or bent fins keep the air out.",
        f"Dirt between condenser and radiator that cannot be reached. {LOOP_AS_IT_IS}",
        (needs.FACE,), 1,
        cures={"outside": ("face",)}, operations=("face",),
    ),
    Option(
        "engine_heat", "Engine’s heat kept away", "The engine’s heat reaches the condenser.",
        f"Why the engine runs hot. {LOOP_AS_IT_IS}", (needs.FACE, needs.FAN), 3,
        cures={"outside": ("engine_heat",)}, operations=("engine_heat",), parts=("shield",),
    ),
    Option(
        "airflow", "Cabin filter or blower", "Too little air comes out.",
        LOOP_AS_IT_IS, (needs.AIR,), 2,
        cures={"cabin": ("airflow",)}, operations=("airflow",), parts=("cabin_filter",),
    ),
    Option(
        "door", "Air door or its actuator", "An air door lets warm air in.",
        LOOP_AS_IT_IS, (needs.AIR,), 4,
        cures={"cabin": ("door",)}, operations=("door",), parts=("door",),
    ),
    Option(
        "heater_valve", "Heater valve", "Hot coolant runs through the heater.",
        LOOP_AS_IT_IS, (needs.AIR,), 3,
        cures={"cabin": ("heater",)}, operations=("heater",), parts=("heater_valve",),
    ),
    Option(
        "ice_sensor", "Evaporator’s sensor, ice let off", "The evaporator ices up.",
        f"Too little air or charge, which ice an evaporator too. {LOOP_AS_IT_IS}",
        (needs.ICE, needs.CHARGE_KNOWN), 4,
        cures={"cabin": ("iced",)}, operations=("ice_sensor",), parts=("ice_sensor",),
    ),
    Option(
        "rear_unit", "Rear unit", "The rear unit does not cool, the front one does.",
        "The front unit and the loop as they are.", (needs.BRANCHES, needs.CHARGE_KNOWN), 7,
        cures={"cabin": ("rear",)}, operations=("rear_unit",), parts=("rear_unit",),
        on={"branches": ("rear",)},
    ),
)  # fmt: skip
MAKE_SAFE, NOTHING = "make_safe", "nothing"
NO_REPAIR = (
    Option(
        MAKE_SAFE, "Made safe, not repaired",
        "A part that can seize, throw the belt or short is taken out of use.",
        f"Everything that was found. No cooling. {NO_DEMIST}",
        (needs.SAID,), 0,
        operations=("make_safe",), cautions=needs.DRIVES_ON,
    ),
    Option(
        NOTHING, "Nothing, A/C off", "The customer may leave it as it is.",
        f"Everything that was found. No cooling. {NO_DEMIST}",
        (needs.SAID,), 0, cautions=needs.DRIVES_ON,
    ),
)  # fmt: skip
