"""What repairs are made of: operations, parts, refrigerant and oil, each a line that is paid once.

Nobody but the shop knows how long an operation takes on this car, so none has hours of its own:
they are typed on the job. An operation that two repairs share is one line.
"""

from collections.abc import Mapping
from dataclasses import dataclass

GRAMS, MILLILITERS = "kg", "L"  # what a fluid's price is for


@dataclass(frozen=True)
class Operation:
    """Work that is done once, however many repairs want it. Its hours are typed for each job."""

    code: str
    words: str


@dataclass(frozen=True)
class Part:
    """A part. `fitted` is its code among the changes of a car; empty: nothing is fitted."""

    code: str
    words: str
    fitted: str = ""


@dataclass(frozen=True)
class Fluid:
    """What is filled in, priced for one `unit`."""

    code: str
    words: str
    unit: str


def by_code(*rows: tuple[str, str]) -> dict[str, Operation]:
    """Operations by their code."""
    return {code: Operation(code, words) for code, words in rows}


FIND_AGAIN = "find_again"  # when the car comes back
OPERATIONS: Mapping[str, Operation] = by_code(
    ("relay", "Relay replaced"),
    ("fuse", "Fuse replaced"),
    ("feed", "Feed wire traced and repaired"),
    ("ground", "Ground cleaned and made fast"),
    ("switch", "Switch or sensor replaced"),
    ("control_unit", "Control unit replaced and set up"),
    ("gap", "Air gap set"),
    ("clutch_in_car", "Clutch parts off and on, compressor in its place"),
    ("unbolt", "Compressor unbolted"),
    ("clutch_beside", "Clutch parts off and on, compressor unbolted, hoses on"),
    ("belt", "Belt and tensioner"),
    ("hoses_off", "Hoses off the compressor, new one fitted"),
    ("shaft_seal", "Shaft seal renewed"),
    ("control_valve", "Control valve replaced"),
    ("isolate", "Electric side isolated"),
    ("motor_command", "Command of the compressor’s electronics traced and repaired"),
    ("recover", "Refrigerant recovered"),
    ("evacuate", "Loop evacuated and held"),
    ("charge", "Charged by weight"),
    ("sweep", "Detector sweep at pressure"),
    ("own_cylinder", "Recovered into its own marked cylinder"),
    ("weigh_again", "Recovered and weighed again on a date"),
    ("find_place", "Place of the leak found"),
    ("leak_place", "Leak repaired at its place"),
    ("joint", "Seals and valve cores renewed"),
    ("hose", "Hose or line replaced"),
    ("drier", "Drier or accumulator replaced"),
    ("device", "Expansion device replaced"),
    ("condenser", "Condenser replaced"),
    ("evaporator", "Evaporator replaced"),
    ("branch", "Rear or battery branch repaired"),
    ("flush", "Lines flushed where they can be"),
    ("oil", "Oil drained, measured and put right"),
    ("fan", "Fan or its supply repaired"),
    ("face", "Condenser’s face cleaned"),
    ("engine_heat", "Engine’s heat kept away"),
    ("airflow", "Cabin filter or blower"),
    ("door", "Air door or its actuator"),
    ("heater", "Heater valve"),
    ("ice_sensor", "Evaporator’s sensor"),
    ("rear_unit", "Rear unit repaired"),
    ("make_safe", "Made safe"),
    (FIND_AGAIN, "Fault found again when the car comes back"),
)
PARTS: Mapping[str, Part] = {
    one.code: one
    for one in (
        Part("relay", "Relay", "relay"),
        Part("fuse", "Fuse"),
        Part("wiring", "Wiring or plug", "wiring"),
        Part("pressure_switch", "Pressure switch or sensor", "pressure_switch"),
        Part("control_unit", "Control unit", "control_unit"),
        Part("shims", "Shims"),
        Part("coil", "Clutch coil", "coil"),
        Part("clutch", "Clutch, complete", "clutch"),
        Part("pulley", "Pulley with bearing", "other"),
        Part("limiter", "Hub or limiter", "other"),
        Part("belt", "Belt or tensioner", "belt"),
        Part("compressor", "Compressor, complete", "compressor"),
        Part("electric_compressor", "Electric compressor, complete", "compressor"),
        Part("shaft_seal", "Shaft seal", "shaft_seal"),
        Part("control_valve", "Control valve", "control_valve"),
        Part("hose", "Hose or line", "hose"),
        Part("seals", "Seals and valve cores", "seal"),
        Part("leak_part", "Part at the leak’s place", "other"),
        Part("branch", "Parts of the rear or battery branch", "other"),
        Part("drier", "Receiver-drier or accumulator", "drier"),
        Part("device", "Expansion device", "expansion_device"),
        Part("condenser", "Condenser", "condenser"),
        Part("evaporator", "Evaporator", "evaporator"),
        Part("fan", "Fan", "fan"),
        Part("door", "Air door or actuator", "door"),
        Part("cabin_filter", "Cabin filter", "cabin_filter"),
        Part("heater_valve", "Heater valve", "other"),
        Part("ice_sensor", "Evaporator’s sensor", "pressure_switch"),
        Part("rear_unit", "Parts of the rear unit", "other"),
        Part("shield", "Heat shield or duct", "other"),
        Part("flush_agent", "Flushing agent"),
        Part("reclaim", "Taking back of refrigerant that cannot be used"),
    )
}
FLUIDS: Mapping[str, Fluid] = {
    one.code: one
    for one in (
        Fluid("refrigerant", "Refrigerant", GRAMS),
        Fluid("oil", "Oil", MILLILITERS),
        Fluid("dye", "Dye", MILLILITERS),
    )
}
