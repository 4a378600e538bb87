"""Under which conditions a reading before and the same one after compare: data, by kind of test.

Before and after compare under the same conditions only (trade articles, of what a vent gives). How
far apart is still alike, and which conditions bear on which reading, is our judgement; the coil's
copper moves 2 % in 5 K (0.393 %/K), the pressure of a loop at rest some 20 kPa in 1 K.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnostics.evidence.system import SystemIs

# By field: how far apart two conditions may be, in SI (K, share, 1/s, s). Our judgement.
ALIKE = {"ambient": 3.0, "intake": 3.0, "humidity": 0.15, "rpm": 200 / 60, "minutes": 180.0}
ON_BELT: SystemIs = {"drive": ("belt_clutch", "belt_clutchless", "belt_electric")}
CARRIES = ("yes",)


@dataclass(frozen=True)
class Like:
    """A condition that two tests must have alike before a difference is worked out.

    `within`: no more apart, in SI; None: the same answer, one of `only` where that is not empty.
    `of`: the readings that hang on it, empty: all. `instead`: what may stand for it where it was
    read neither time. `on`: the systems on which it is asked for; one of which that is not known
    counts among them, with `noted` only where the condition was told.
    """

    name: str
    within: float | None = None
    only: tuple[str, ...] = ()
    of: tuple[str, ...] = ()
    instead: str = ""
    on: SystemIs = field(default_factory=dict)
    noted: bool = False


AMBIENT = Like("ambient", ALIKE["ambient"])
RPM = Like("rpm", ALIKE["rpm"], on=ON_BELT)
CURRENT = Like("carries", only=CARRIES)
# By kind: the conditions that must be alike. What a kind does not ask itself (air, engine speed)
# is taken from the conditions told on the job within the hour.
LIKE: Mapping[str, tuple[Like, ...]] = {
    "fuse": (Like("carries", only=CARRIES, of=("drop",)),),
    "relay": (Like("built"),),
    "pressure_switch": (
        Like("type"),
        Like("engine", on={"drive": ("belt_clutch", "belt_clutchless")}),
        Like("temperature", 1.0),
    ),
    "feed_voltage": (
        Like("load"),
        Like("commanded", only=("yes",)),
        Like("black"),
        Like("carries"),
        Like("battery", 0.3),
    ),
    "feed_drop": (CURRENT, Like("amps", 0.5)),
    "ground_drop": (CURRENT, Like("path"), Like("amps", 0.5)),
    "coil_power": (
        Like("engine"),
        Like("ground", only=("good",)),
        Like("volts", 0.3, of=("amps",)),
        Like("temperature", 5.0, of=("amps",)),
    ),
    "coil_resistance": (Like("plug"), Like("temperature", 5.0)),
    "air_gap": (),
    "running_pressures": (
        AMBIENT,
        RPM,
        Like("stroke", 0.05, on={"displacement": ("variable_outer", "speed")}, noted=True),
        Like("rear", on={"branches": ("rear",)}, noted=True),
        Like("battery", on={"branches": ("battery",)}, noted=True),
    ),
    "equalising": (Like("pumped", only=("yes",)), AMBIENT),
    "control_valve_duty": (
        Like("ambient", ALIKE["ambient"], of=("duty", "low_small", "low_full")),
        Like("temperature", 5.0, of=("amps", "ohm")),
    ),
    "hv_command": (Like("asked", only=("yes",)), AMBIENT),
    "hv_isolation": (Like("test_volts", 25.0),),
    "gas_identity": (Like("how", only=("instrument",)),),
    "static_pressure": (Like("soaked", only=("yes",)), Like("temperature", 1.0)),
    "condenser_fan": (Like("asked", only=("yes",)),),
    "condenser_face": (AMBIENT, RPM),
    "line_temperatures": (Like("running", only=("yes",)), Like("by"), AMBIENT, RPM),
    "evaporator_sensor": (Like("still"), AMBIENT),
    "vent_temperature": (
        Like("intake", ALIKE["intake"]),
        Like("humidity", ALIKE["humidity"], instead="air"),
        RPM,
        Like("recirculation"),
        Like("blower"),
        Like("doors"),
        Like("minutes", ALIKE["minutes"]),
    ),
    "air_doors": (Like("warmth"), AMBIENT, RPM),
}
# By kind: the readings that have a twin. What stands in LIKE is a condition, or both.
MEASURED: Mapping[str, tuple[str, ...]] = {
    "fuse": ("drop",),
    "relay": ("drop", "coil_ohm"),
    "pressure_switch": ("rest", "told"),
    "feed_voltage": ("volts", "amps"),
    "feed_drop": ("volts", "to_relay", "across_relay", "across_switch", "to_coil"),
    "ground_drop": ("volts",),
    "coil_power": ("volts", "amps"),
    "coil_resistance": ("one", "other", "case_ohm"),
    "air_gap": ("gap_1", "gap_2", "gap_3", "gap_4", "gap_5", "gap_6"),
    "running_pressures": ("low", "high", "on_s", "off_s", "suction", "liquid"),
    "equalising": ("seconds",),
    "control_valve_duty": ("duty", "amps", "low_small", "low_full", "ohm"),
    "hv_command": ("commanded", "actual", "power"),
    "hv_isolation": ("insulation",),
    "gas_identity": ("share", "air"),
    "static_pressure": ("low", "high"),
    "condenser_fan": ("amps",),
    "condenser_face": ("dry", "wet"),
    "line_temperatures": (
        *("discharge", "condenser_out", "drier_in", "drier_out", "device_in", "device_out"),
        *("suction", "low", "high"),
    ),
    "evaporator_sensor": ("shown", "beside", "ohm"),
    "vent_temperature": ("vent",),
    "air_doors": ("before", "after"),
}
# Read at points that are not the same ones again: smallest and largest stand, and no difference.
SPREAD: Mapping[str, str] = {"air_gap": "Air gap, smallest to largest"}
# Tests that measure and have no twin, with why.
NO_TWIN: Mapping[str, str] = {
    "recovered_share": "what was recovered is out of the car",
    "vacuum_hold": "it belongs to the filling and tells nothing of how the car cools",
    "nitrogen_hold": "it belongs to the filling and tells nothing of how the car cools",
    "oil_condition": "what came out is another oil than what went in",
}
# What the whole car does: it counts since the last change of any sort, other tests since the last
# one in what they look at.
OF_THE_WHOLE = (
    *("running_pressures", "equalising", "control_valve_duty", "hv_command", "static_pressure"),
    *("condenser_face", "line_temperatures", "evaporator_sensor", "vent_temperature", "air_doors"),
)
PARTED_BY: Mapping[str, str] = {"vent_temperature": "branch"}  # each of its answers has its twins
AROUND = {"ambient": "Air outside the car", "air": "How the air feels", "rpm": "Engine speed"}
