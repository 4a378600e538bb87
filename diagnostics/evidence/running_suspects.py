"""What a pattern of running pressures leaves open, and what the trade would do next.

While nobody told that the charge is right, no word here names what pumps.
"""

from collections.abc import Iterator

from diagnostics.evidence.charge_told import UNKNOWN_CHARGE, WEIGH_FIRST
from diagnostics.evidence.findings import Mark
from diagnostics.evidence.loop_pressures import TRANSCRITICAL
from diagnostics.evidence.running import Running, harms, ratio_place

HARDLY_LIQUID = (
    "the high side stands below where liquid would rest in such air, whatever was told of the"
    " charge."
)
HARM = {
    "dry": "Next to nothing is in the loop, and without oil coming back what turns is ruined.",
    "vacuum": "With its suction under vacuum no oil comes back, and air can be drawn in.",
    "too_high": "So high a pressure strains hoses and drive (our judgement: from 3\u00a0MPa).",
}
# What follows with it switched off: nothing there needs it running. Common practice, no source.
_AT_REST = {
    "dry": (
        "Read both sides at rest.",
        "Empty: search with nitrogen or a non-flammable tracer before it is filled.",
    ),
    "vacuum": (
        "While it is still cold, feel for frost or a cold step at expansion device and drier.",
        "Let the sides meet and read them at rest.",
    ),
    "too_high": (
        "Look at condenser fan and face before it is run again.",
        "Read both sides at rest, soaked: air in the loop and too large a charge show high.",
    ),
}
NOT_PUMPED = ("high_low", "close_together")
TOO_SMALL = ("below", "not_pumping")  # of the ratio

# What a pattern leaves open: with the charge not known to be right, and with it told as right.
_SUSPECTS = {
    "low_low": (
        "Low charge, little heat to take up, or a reduced stroke",
        "Little heat to take up, or a reduced stroke",
        "pressures cannot tell them apart.",
    ),
    "high_high": (
        "Airflow through the condenser, overcharge, air in the loop, engine heat",
        "Airflow through the condenser, air in the loop, engine heat",
        "look at fans and face of the condenser, then at the soak pressure.",
    ),
    "starved": (
        "Expansion device or drier blocked, or ice in it",
        "Expansion device or drier blocked, or ice in it",
        "a temperature drop across the part is needed before one is named.",
    ),
    "inside_vents_warm": (
        "Air door, heater valve, airflow, cabin filter",
        "Air door, heater valve, airflow, cabin filter",
        "both pressures are inside: look on the air’s side.",
    ),
    "one_side_off": (
        "Charge, airflow, expansion device",
        "Airflow, expansion device",
        "one side alone is no pattern.",
    ),
}


def marks(seen: Running, code: str) -> Iterator[Mark]:
    """What the pattern says of parts; of none that pumps while the charge is not known."""
    if code in NOT_PUMPED:
        yield _not_pumping(seen)
    elif code in _SUSPECTS:
        unknown, known, words = _SUSPECTS[code]
        yield Mark("open", known if seen.charge else unknown, words)
    elif code == "inside" and seen.charge and ratio_place(seen) not in TOO_SMALL:
        words = f"ruled out at this load: both sides stand inside, charge {seen.charge}."
        yield Mark("ruled_out", "Compressor not pumping", words)
    elif code == "inside" and not seen.charge:
        yield Mark("open", "Charge", "two pressures inside do not tell that it is right.")


def _not_pumping(seen: Running) -> Mark:
    """Little is moved: by what, once charge and command are known."""
    return _charge_first(seen) if not seen.charge else _by_what(seen)


def _charge_first(seen: Running) -> Mark:
    """The charge, refuted or not known to be right."""
    if seen.refuted and seen.colder_than_any:
        return Mark("likely", "Charge", f"low, points here: {HARDLY_LIQUID}")
    if seen.refuted:  # where nothing is pumped, liquid gathers in the coldest place
        colder = "Only liquid in a colder evaporator rests so."
        return Mark("open", "Charge", f"not taken as right: {HARDLY_LIQUID} {colder}")
    return Mark("open", "Charge", "not known to be right, and too little in it shows so too.")


def _by_what(seen: Running) -> Mark:
    """What moves so little, with the charge told as right."""
    by_motor = seen.system.get("drive") in ("electric_hv", "electric_48")
    none = by_motor or seen.system.get("displacement") in ("fixed", "speed")
    valve = "" if none else " its control valve,"
    subject = f"Compressor not pumping,{valve} or an expansion device wide open"
    if seen.shaft != "yes":
        return Mark("open", subject, "whether the shaft turns was not told.")
    if ratio_place(seen) not in ("", *TOO_SMALL):
        words = "yet the ratio of both sides is not too small for such air: the two do not fit."
        return Mark("open", subject, words)
    if not seen.asks_for_output:
        return Mark("open", subject, "the command is not known: read it before one is named.")
    if seen.asks_for_output == "no":
        asked = seen.stroke.shown if seen.stroke else ""
        words = f"only {asked} is commanded: find out why, then repeat."
        return Mark("open", "Output held small by its command", words)
    told = f"charge {seen.charge}"
    told += f", {seen.stroke.shown} commanded" if seen.stroke else ""
    return Mark("likely", subject, f"points here ({told}); this step cannot tell them apart.")


def onward(seen: Running, code: str) -> tuple[str, ...]:
    """What the trade would do next; where running harms the compressor, it is not run again."""
    harm = harms(seen)
    return ("Switch it off.", *_AT_REST[harm]) if harm else _next(seen, code)


def _next(seen: Running, code: str) -> tuple[str, ...]:
    if code in NOT_PUMPED:
        return _after_not_pumping(seen)
    weigh = () if seen.charge else (WEIGH_FIRST,)
    steps = {
        "inside": ("Measure vents and lines: pressures alone are no measure of cooling.",),
        "inside_vents_warm": ("Look at air doors, heater valve, airflow and cabin filter.",),
        "low_low": weigh or ("Read the commanded stroke; repeat with blower high, doors open.",),
        "high_high": ("Look at condenser fans and face.", *weigh),
        "starved": ("Measure temperatures before and behind expansion device and drier.",),
        "one_side_off": weigh or ("Look up this vehicle’s own chart and read again.",),
        "at_the_edge": ("Look up this vehicle’s own chart, or read with a finer gauge.",),
    }
    if seen.shaft == "no":
        return ("Find out why the shaft does not turn, then repeat.",)
    return steps.get(code) or to_repeat(seen)


def to_repeat(seen: Running) -> tuple[str, ...]:
    """What was missing for anything to be made of it."""
    loop, gas = seen.loop, seen.system.get("refrigerant", "")
    if gas == TRANSCRITICAL:
        return ("Hold it against this vehicle’s own chart.",)
    wanted = (
        (loop.low.reading is None or loop.high.reading is None, "both gauges"),
        (loop.ambient is None, "the air’s temperature"),
        (seen.shaft in ("", "cannot_tell"), "whether the shaft turns"),
    )
    read = [words for missing, words in wanted if missing]
    steps = [f"Read {' and '.join(read)}, at one moment."] if read else []
    if gas in ("", "other"):
        steps.append("Note the refrigerant under Air conditioning, or read the vehicle’s chart.")
    if loop.ambient and not loop.hot_enough:
        steps.append("Repeat in a warm bay, or hold it against the vehicle’s own chart.")
    return tuple(steps) or ("Hold it against this vehicle’s own chart.",)


def _after_not_pumping(seen: Running) -> tuple[str, ...]:
    if not seen.charge:
        return (WEIGH_FIRST,)
    if seen.shaft != "yes":
        return ("Look whether the shaft turns, then repeat.",)
    if seen.asks_for_output != "yes":
        return ("Read the command and its reason, then repeat with full output asked for.",)
    return (
        "Switch off and time how fast the sides meet.",
        "Look for metal at the expansion device before parts are ordered.",
    )


def not_tested(seen: Running, code: str) -> tuple[str, ...]:
    """What this step says nothing about, and what was not read."""
    missing = ["How much refrigerant is in it: not told by a pressure."]
    if not seen.charge and code not in ("nothing_told", *NOT_PUMPED):
        missing.append(UNKNOWN_CHARGE)
    if seen.loop.ambient is None:
        missing.append(f"Air’s temperature: {_no_reading(seen, 'ambient')}")
    if seen.shaft in ("", "cannot_tell"):
        missing.append("Whether the shaft turns: not told.")
    if seen.system.get("displacement") in ("variable_outer", "speed") and seen.stroke is None:
        missing.append(f"Command: {_no_reading(seen, 'stroke')}")
    for branch, words in (("rear", "Rear unit"), ("battery", "Battery chiller")):
        if branch in seen.system.get("branches", []) and branch not in seen.taps:
            missing.append(f"{words}: on or off not told.")
        elif seen.taps.get(branch) == "off":
            missing.append(f"{words}: off, so its branch is not told.")
    if code == "inside" and "vents" not in seen.taps:
        missing.append("Vents: not told.")
    return tuple(missing)


def _no_reading(seen: Running, name: str) -> str:
    return "kept as typed, not used." if name in seen.aside else "no reading to go by."
