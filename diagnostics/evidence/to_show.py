"""What is to be shown once a car was changed: the list by what was done to it and how it is built.

Which work asks for which look is common practice, no source: the clutch at the car's own plug,
cycling, fans, pressures, the vent of each branch, a leak search at pressure (a vacuum hold is no
proof of tightness), a second look at the filter after debris, caps, label. Pure data; how each
stands is worked out in shown.py.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from diagnostics.evidence.system import System, SystemIs, can_be_such

# What was done to the car, or found on it, that asks for a look.
REPAIRED = "repaired"  # anything that may have cured something
OPENED = "opened"  # the loop was opened, or may have been
PORTS = "ports"  # something was joined to its service ports
DIRT = "dirt"  # debris was found, or the loop was flushed
GAP = "gap"  # a clutch, a coil or a whole compressor was fitted, or the gap was set
COMMAND = "command"  # something between request and coil was changed
COMPRESSOR = "compressor"
CODES = "codes"  # trouble codes were found
CAPS, LABEL = "caps", "label"  # told by a tap of their own


@dataclass(frozen=True)
class By:
    """A test that shows it: by its outcome, or by what was told under `asked`.

    `outcomes` or `told` show it, `part` or `told_part` shows some of it. `says` has the answers
    that speak of it, in words. Of tests with `only` those count that have one of these answers;
    `needs` are readings without which it shows some of it at most.
    """

    kind: str
    outcomes: tuple[str, ...] = ()
    asked: str = ""
    told: tuple[str, ...] = ()
    says: Mapping[str, str] = field(default_factory=dict)
    part: tuple[str, ...] = ()
    told_part: tuple[str, ...] = ()
    only: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    needs: tuple[str, ...] = ()


@dataclass(frozen=True)
class Item:
    """One thing to show. `by`: what shows it, the test to make first; none: a tap of its own.

    `when`: the work that asks for it, one is enough. `touched`: tests count that were made after
    the last change of one of these questions; empty: after the last change of any. `warm`: it
    shows nothing where it is too cold. `compares`: it is held against the same test as the car
    came in.
    """

    code: str
    words: str
    why: str
    by: tuple[By, ...] = ()
    when: tuple[str, ...] = (REPAIRED,)
    touched: tuple[str, ...] = ()
    on: tuple[SystemIs, ...] = ({},)
    warm: bool = False
    compares: bool = False


BY_CLUTCH: tuple[SystemIs, ...] = (
    {"drive": ("belt_clutch",)},
    {"drive": ("belt_electric",), "clutch": ("magnetic",)},
)
BY_BELT_ALONE: tuple[SystemIs, ...] = (
    {"drive": ("belt_clutchless",)},
    {"drive": ("belt_electric",), "clutch": ("none",)},
)
BY_MOTOR: tuple[SystemIs, ...] = ({"drive": ("electric_hv", "electric_48", "belt_electric")},)
ON_OFF: tuple[SystemIs, ...] = tuple(
    {**one, "displacement": ("fixed", "variable_inner")} for one in BY_CLUTCH
)
# A belt without a clutch nearly always goes with an outer valve; elsewhere it has to be noted.
BY_VALVE: tuple[SystemIs, ...] = (
    {"displacement": ("variable_outer",)},
    {"drive": ("belt_clutchless",), "displacement": ("variable_outer", "")},
)
TURNS = By(
    "running_pressures",
    asked="shaft",
    told=("yes",),
    says={"yes": "the shaft turns.", "no": "the shaft does not turn."},
)
# That the shaft turns is not by whose power it does: nobody looked at the plug.
TURNS_BY_SOMETHING = replace(
    TURNS,
    told=(),
    told_part=("yes",),
    says={**TURNS.says, "yes": "the shaft turns; what was plugged in: not told."},
)
ENGAGES = By(
    "complaint_seen",
    asked="engages",
    told=("yes",),
    says={
        "yes": "the compressor engages, as seen.",
        "no": "the compressor does not engage.",
        "at_times": "the compressor engages at times only.",
    },
)
CYCLES = By(
    "running_pressures",
    asked="cycles",
    told=("yes", "no"),
    says={"yes": "it switches on and off.", "no": "it stays on while it is watched."},
)
GONE = By("complaint_seen", outcomes=("not_now", "engages"))


def vent(branch: str) -> tuple[By, ...]:
    """The vent of a branch."""
    return (By("vent_temperature", outcomes=("colder",), only={"branch": (branch,)}),)


ITEMS: tuple[Item, ...] = (
    Item(
        "complaint",
        "What the customer says is gone",
        "Looked for again as it was before.",
        (GONE,),
        warm=True,
    ),
    Item(
        "takes_hold",
        "Clutch takes hold at the car’s own plug",
        "By the car’s own command: power put straight on the coil shows nothing of that.",
        (ENGAGES, TURNS_BY_SOMETHING),
        on=BY_CLUTCH,
        warm=True,
    ),
    Item(
        "voltage",
        "Voltage at the plug under load",
        "With current flowing; voltage with the plug off proves nothing.",
        (By("feed_voltage", outcomes=("full", "full_not_coil")),),
        when=(COMMAND,),
        touched=("command",),
        on=BY_CLUTCH,
        warm=True,
    ),
    Item(
        "gap",
        "Air gap of what was fitted",
        "Before it goes in and once it is in: too small is a fault, too.",
        (By("air_gap", outcomes=("inside",)),),
        when=(GAP,),
        touched=("clutch",),
        on=BY_CLUTCH,
    ),
    Item(
        "taken_along",
        "Pulley takes the shaft along",
        "The pulley always turns; the hub tells.",
        (By("limiter", outcomes=("goes_along", "whole")), ENGAGES, TURNS),
        on=BY_BELT_ALONE,
    ),
    Item(
        "valve",
        "Low side follows the valve’s command",
        "Such a compressor may never cycle.",
        (By("control_valve_duty", outcomes=("follows",)),),
        when=(COMMAND, COMPRESSOR, OPENED),
        on=BY_VALVE,
        warm=True,
    ),
    Item(
        "motor",
        "Electric compressor runs as commanded",
        "By scan data, car ready. Never a 12 V test.",
        (By("hv_command", outcomes=("as_commanded",)),),
        on=BY_MOTOR,
        warm=True,
    ),
    Item(
        "insulation",
        "Insulation of the high voltage side",
        "After the compressor or its oil: wrong oil spoils it. By a person qualified for it.",
        (By("hv_isolation", outcomes=("dead_insulation_inside",)),),
        when=(COMPRESSOR,),
        touched=("compressor", "charge"),
        on=({"drive": ("electric_hv", "belt_electric")},),
    ),
    Item(
        "cycling",
        "Cycling watched",
        "Seconds on and off, or that it stays on; a variable one may never cycle.",
        (CYCLES,),
        on=ON_OFF,
        warm=True,
    ),
    Item(
        "fans",
        "Condenser fans run",
        "They usually come on with the compressor.",
        (By("condenser_fan", outcomes=("runs", "runs_only", "belt_only")),),
    ),
    Item(
        "pressures",
        "Running pressures",
        "Both sides at one moment, with air and engine speed told.",
        (By("running_pressures", outcomes=("inside",)),),
        when=(OPENED, COMPRESSOR),
        touched=("charge", "compressor", "heat"),
        warm=True,
        compares=True,
    ),
    Item(
        "vent_front",
        "Temperature at the front vent",
        "Under the conditions under which it was read before.",
        vent("front"),
        warm=True,
        compares=True,
    ),
    Item(
        "vent_rear",
        "Temperature at the rear unit’s vent",
        "The rear branch has an expansion device of its own.",
        vent("rear"),
        on=({"branches": ("rear",)},),
        warm=True,
        compares=True,
    ),
    Item(
        "battery",
        "Pressures with the battery chiller on",
        "The chiller’s branch has an expansion device of its own.",
        (By("running_pressures", outcomes=("inside",), only={"battery": ("on",)}),),
        when=(OPENED, COMPRESSOR),
        on=({"branches": ("battery",)},),
        warm=True,
    ),
    Item(
        "leak",
        "Leak search at pressure",
        "A vacuum hold is a gross check and no proof of tightness.",
        (
            By(
                "leak_search",
                outcomes=("none_found",),
                part=("part_searched",),
                needs=("pressure",),
            ),
        ),
        when=(OPENED,),
        touched=("charge",),
    ),
    Item(
        "filter",
        "Filter looked at again",
        "Debris was found, or it was flushed: what is left comes to the filter as it runs.",
        (By("filter_second_look", outcomes=("clean",)),),
        when=(DIRT,),
        touched=("cleanliness",),
    ),
    Item(
        "codes",
        "Trouble codes read again",
        "Codes were stored before.",
        (By("codes", outcomes=("none",)),),
        when=(CODES,),
    ),
    Item(
        CAPS,
        "Caps on both service ports",
        "A port’s valve is no seal without its cap.",
        when=(PORTS, OPENED),
        touched=("charge",),
    ),
    Item(
        LABEL,
        "Service label up to date",
        "Refrigerant and grams, oil, day: for who opens it next.",
        when=(OPENED,),
        touched=("charge",),
    ),
)
# Branches that are there only where somebody noted them; a system of unknown branches has a front.
NOTED = ("rear", "battery")


def to_show(done: Iterable[str], system: System) -> list[Item]:
    """The list for what was done to such a car, in its order; empty while nothing was repaired."""
    asked_by = set(done)
    if REPAIRED not in asked_by:
        return []
    return [
        one
        for one in ITEMS
        if asked_by & set(one.when) and any(fits(which, system) for which in one.on)
    ]


def fits(which: SystemIs, system: System) -> bool:
    """Whether such a car may be built so; a branch has to be noted."""
    branches = which.get("branches", ())
    if set(branches) & set(NOTED) and not set(branches) & set(system.get("branches") or ()):
        return False
    if not system.get("drive") and "drive" in which:
        return "belt_clutch" in which["drive"]  # where nobody noted it, the usual one
    if not system.get("displacement") and which.get("displacement") == ("variable_outer",):
        return False
    return can_be_such(which, system)


def again(kind: str, title: str, about: str, normal: Iterable[str]) -> Item:
    """A test that had found something, to be made again since the car was changed there."""
    words = f"{title}, again"
    why = "It found something as the car came in."
    return Item(f"again_{kind}", words, why, (By(kind, tuple(normal)),), touched=(about,))


def kinds_of(items: Iterable[Item]) -> Iterator[str]:
    """The kinds of test that show any of these."""
    for one in items:
        yield from (by.kind for by in one.by)
