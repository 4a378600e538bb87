"""What a change on the car did to each variable, as far as its words tell. Our judgement."""

from collections.abc import Iterable, Mapping

from diagnostics.evidence.inference.states import (
    EMPTIED,
    FILLED,
    NEW,
    TOPPED_UP,
    WORKED_ON,
    Became,
    Changed,
)

# By the part that was fitted or swapped. What comes with it, such as a new clutch on a new
# compressor, is the job's to tell as a part of its own.
COIL = ("coil_open", "melt_open", "coil_shorted", "fails_hot")
WIRES = ("wire_open", "short_ground", "feed_resistance", "ground_resistance")
FITTED: Mapping[str, Changed] = {
    "clutch": {"clutch": NEW},
    "coil": {"clutch": COIL},
    "compressor": {
        "mechanics": NEW, "seal": NEW, "clutch": WORKED_ON, "tightness": WORKED_ON,
        "dirt": WORKED_ON, "oil": WORKED_ON,
    },
    "shaft_seal": {"seal": NEW, "tightness": WORKED_ON},
    "control_valve": {"mechanics": ("valve",)},
    "relay": {"command": ("relay_open", "relay_stuck")},
    "pressure_switch": {"command": ("switch_false",)},
    "wiring": {"command": WIRES},
    "control_unit": {"command": ("driver",)},
    "belt": {"belt": NEW},
    "hose": {"tightness": WORKED_ON, "flow": ("drier_hose",)},
    "seal": {"tightness": WORKED_ON},
    "condenser": {
        "outside": ("face",), "tightness": WORKED_ON, "flow": ("condenser_blocked",),
        "dirt": WORKED_ON,
    },
    "evaporator": {"tightness": WORKED_ON, "cabin": ("iced",)},
    "expansion_device": {"flow": ("device_blocked", "device_open")},
    "drier": {"flow": ("drier_hose",), "dirt": ("moisture",)},
    "fan": {"outside": ("fan",)},
    "door": {"cabin": ("door",)},
    "cabin_filter": {"cabin": ("airflow",)},
}  # fmt: skip
DONE: Mapping[str, Changed] = {
    "gap_set": {"clutch": ("gap_wide", "gap_small")},
    "fuse": {"command": ("fuse",)},
    "cleaned": {"command": ("feed_resistance", "ground_resistance")},
    "wire": {"command": WIRES},
    "opened": {"amount": EMPTIED},
    "closed": {},
    "flushed": {"dirt": WORKED_ON, "flow": WORKED_ON, "oil": WORKED_ON},
    "unplugged": {"command": WORKED_ON},
    "recovered": {"amount": EMPTIED},
    "recovery": {"amount": EMPTIED},  # how much came out is not told
    "nothing_came": {"amount": EMPTIED},
    "pumped": {"amount": EMPTIED},
    "shallow": {"amount": EMPTIED},  # not deep enough to take air or moisture out
    "oil_out": {},
    "oil_drained": {},
    "oil_in": {"oil": WORKED_ON},
    "evacuated": {"amount": EMPTIED, "gas": ("air",), "dirt": ("moisture",)},
    "charged": {"amount": FILLED, "gas": ("air", "mixed")},
    "topped_up": {"amount": TOPPED_UP},
}
ALL = (
    "command", "clutch", "belt", "mechanics", "seal", "tightness", "amount", "gas", "dirt", "flow",
    "oil", "outside", "cabin",
)  # fmt: skip
UNSAID: Changed = dict.fromkeys(ALL, WORKED_ON)  # nobody said which, so none is left out
FIRST = (NEW, FILLED, TOPPED_UP, EMPTIED)  # each says more of a variable than what follows it


def became(what: str, part: str = "") -> Changed:
    """What one change did; a part that is fitted and named counts by its part."""
    if part in FITTED:
        return {**FITTED[part], **({} if what == "fitted" else DONE.get(what, {}))}
    return DONE.get(what, UNSAID)


def together(changes: Iterable[Changed]) -> Changed:
    """What several changes of one car state did: what says most counts, answers mended add up."""
    found: dict[str, Became] = {}
    for change in changes:
        for name, how in change.items():
            found[name] = stronger(found[name], how) if name in found else how
    return found


def stronger(one: Became, two: Became) -> Became:
    """Of two things that became of a variable the one that says more, or both."""
    for how in FIRST:
        if how in (one, two):
            return how
    if isinstance(one, tuple) and isinstance(two, tuple):
        return tuple(dict.fromkeys((*one, *two)))
    return one if isinstance(two, str) else two
