"""What must be known from other tests before a test is offered: the order that protects people.

Common practice, no source. An order bars what is offered, never the record of what was done: that
stands and becomes an open point.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.system import System, SystemIs, can_be_such

BELT = ("belt_clutch", "belt_clutchless", "belt_electric")
PROVEN_DEAD = (
    "isolated_dead",
    "dead_insulation_inside",
    "dead_insulation_low",
    "dead_insulation_recorded",
)
PRESSURE_THERE = ("as_expected", "a_little_above", "above", "some", "unsoaked_some")
SEARCHED = ("found_again", "found", "suspect", "none_found", "part_searched")
HUB_NOT_FREE = ("locked", "rough", "frees_backwards", "broken_inside", "drive_broken")


@dataclass(frozen=True)
class Made:
    """A test that was made: its kind, and its outcome's code.

    `touched`: the car was changed since in what it tests. `shuts`: the orders that an answer shut.
    """

    kind: str
    outcome: str
    touched: bool = False
    shuts: tuple[str, ...] = ()


@dataclass(frozen=True)
class Order:
    """Open until a test of a kind in `opened` came out so; one in `closed` shuts it again.

    The newest test decides; a kind's `shuts` names answers that shut it, too. Where the car was
    changed since in what it tests it decides nothing, but for an order that is `lasting`. `on`: the
    systems for which it holds.
    """

    code: str
    first: str  # the sentence on the form of the test that waits for it
    broken: str  # the sentence of the open point
    opened: Mapping[str, tuple[str, ...]]
    closed: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    on: SystemIs = field(default_factory=dict)
    lasting: bool = False

    def is_kept(self, made: Iterable[Made], system: System) -> bool:
        """Whether what was made, oldest first, opens it on such a system."""
        kept = not can_be_such(self.on, system)
        for one in made:
            if one.touched and not self.lasting:
                continue
            if one.outcome in self.opened.get(one.kind, ()):
                kept = True
            elif one.outcome in self.closed.get(one.kind, ()) or self.code in one.shuts:
                kept = not can_be_such(self.on, system)
        return kept


ORDERS: dict[str, Order] = {
    order.code: order
    for order in (
        Order(
            "gas_first",
            "Identify the gas before the shop’s own hoses are put on.",
            "The hoses were put on before the gas was identified.",
            {"gas_identity": ("as_label", "air")},
            {"gas_identity": ("mixed", "other", "flammable")},
            lasting=True,  # what the shop fills itself it knows
        ),
        Order(
            "hub_first",
            "Turn the hub by hand, engine off: only a free hub is run.",
            "It was run before the hub had been turned by hand and found free.",
            {"hub_turn": ("free", "free_no_resistance")},
            {
                "hub_turn": HUB_NOT_FREE,
                "limiter": ("shaft_not_free",),
                "walk_round": ("not_turning",),
            },
            {"drive": BELT},
        ),
        Order(
            "charge_first",
            "Read the resting pressure: never run empty or under vacuum.",
            "It was run before a resting pressure was read.",
            {"static_pressure": PRESSURE_THERE},
            {"static_pressure": ("empty", "vacuum", "below")},
        ),
        Order(
            "leak_search_first",
            "Search for the leak under pressure before the refrigerant is recovered.",
            "The refrigerant was recovered before a leak search under pressure.",
            {"leak_search": SEARCHED, "static_pressure": ("empty", "vacuum")},
        ),
        Order(
            "dead_first",
            "High voltage: isolate, wait and prove dead first, by a person qualified for it.",
            "It was done before the high voltage was isolated and proven dead.",
            {"hv_isolation": PROVEN_DEAD},
            {"hv_isolation": ("not_dead", "not_proven")},
            {"drive": WITH_HIGH_VOLTAGE},
        ),
    )
}


def not_kept(codes: Iterable[str], made: Iterable[Made], system: System) -> tuple[Order, ...]:
    """The orders among `codes` that are still open."""
    done = tuple(made)
    return tuple(ORDERS[code] for code in codes if not ORDERS[code].is_kept(done, system))
