"""What must be known from other tests before a test is offered: the order that protects people.

Common practice, no source. An order bars what is offered, never the record of what was done: that
stands and becomes an open point.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.system import System, SystemIs, can_be_such, is_such

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
# What a kind names that puts the shop's own hoses on, and one that runs the compressor.
OWN_HOSES = ("gas_first", "leak_stop_first")
RUN = ("hub_first", "charge_first")
OVERRIDE = "override"  # an owner's word among the tests made


@dataclass(frozen=True)
class Made:
    """A test that was made: its kind, and its outcome's code.

    `touched`: the car was changed since in what it tests. `opens` and `shuts` are the orders on
    which its readings bear beside its outcome (bears.py).
    """

    kind: str
    outcome: str
    touched: bool = False
    opens: tuple[str, ...] = ()
    shuts: tuple[str, ...] = ()


@dataclass(frozen=True)
class Order:
    """Open until a test of a kind in `opened` came out so; one in `closed` shuts it again.

    The newest test decides. Where the car was changed since in what a test looks at it opens
    nothing, but for an order that is `lasting`; what it shut stays shut. An owner's override may
    stand for what nobody looked at yet, never for what a test shut. `on`: the systems for
    which it holds, one that is not known among them unless it is for `known` ones. `at_first`: kept
    until something shuts it. `hoses`: it is about the shop's own hoses.
    """

    code: str
    first: str  # the sentence on the form of the test that waits for it
    broken: str  # the sentence of the open point
    opened: Mapping[str, tuple[str, ...]]
    closed: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    on: SystemIs = field(default_factory=dict)
    lasting: bool = False
    known: bool = False
    at_first: bool = False
    hoses: bool = False

    def holds_on(self, system: System) -> bool:
        """Whether such a system has to keep it."""
        return is_such(self.on, system) if self.known else can_be_such(self.on, system)

    def is_kept(self, made: Iterable[Made], system: System) -> bool:
        """Whether what was made, oldest first, opens it on such a system."""
        if not self.holds_on(system):
            return True
        kept, found = self.at_first, False
        for one in made:
            if self.is_opened_by(one):
                found = found and one.kind == OVERRIDE
                kept = kept or (not found and (self.lasting or not one.touched))
            elif self.is_shut_by(one):
                kept, found = False, True
        return kept

    def shut_at(self, made: Iterable[Made]) -> int | None:
        """Which of what was made, oldest first, shut it, where none opened it since."""
        last = None
        for at, one in enumerate(made):
            if self.is_opened_by(one):
                last = None
            elif self.is_shut_by(one):
                last = at
        return last

    def is_shut(self, made: Iterable[Made], system: System) -> bool:
        """Whether something found shut it, which holds on such a system."""
        return self.holds_on(system) and self.shut_at(made) is not None

    def is_opened_by(self, one: Made) -> bool:
        """Whether a test opens it, by its outcome or by what was read."""
        return one.outcome in self.opened.get(one.kind, ()) or self.code in one.opens

    def is_shut_by(self, one: Made) -> bool:
        """Whether a test shuts it, by its outcome or by what was read."""
        return one.outcome in self.closed.get(one.kind, ()) or self.code in one.shuts


ORDERS: dict[str, Order] = {
    order.code: order
    for order in (
        Order(
            "gas_first",
            "Identify the gas before the shop’s own hoses are put on.",
            "The hoses were put on before the gas was identified.",
            {"gas_identity": ("as_label", "air")},
            {"gas_identity": ("mixed", "other", "flammable", "burns")},
            lasting=True,  # what the shop fills itself it knows
            hoses=True,
        ),
        Order(
            "leak_stop_first",
            "Leak-stop may be in it: test for it with a kit before the shop’s own hoses are put"
            " on.",
            "The hoses were put on although leak-stop had been found, or signs of it, or a can had"
            " been added, and no kit had shown it clean since.",
            {"sealant_test": ("clean",)},
            {"sealant_test": ("found", "signs", "unclear")},
            lasting=True,
            at_first=True,
            hoses=True,
        ),
        Order(
            "hub_first",
            "Turn the hub by hand, engine off: only a free hub is run.",
            "It was run before the hub had been turned by hand and found free.",
            {"hub_turn": ("free", "free_no_resistance")},
            {
                "hub_turn": HUB_NOT_FREE,
                "limiter": ("sheared_locked", "sheared", "shaft_not_free"),
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
            {"leak_search": SEARCHED, "static_pressure": ("empty", "vacuum", "below")},
        ),
        Order(
            "recovered_first",
            "Recover first: never pump on refrigerant, nor put nitrogen to it.",
            "It was pumped down or put under nitrogen, and neither a recovery nor an empty loop had"
            " been noted before.",
            {"static_pressure": ("empty", "vacuum")},
            {"static_pressure": (*PRESSURE_THERE, "below")},
            lasting=True,  # what was recovered stays so while parts are changed
        ),
        Order(
            "dead_first",
            "High voltage: isolate, wait and prove dead first, by a person qualified for it.",
            "It was done before the high voltage was isolated and proven dead.",
            {"hv_isolation": PROVEN_DEAD},
            {"hv_isolation": ("not_dead", "not_proven")},
            {"drive": WITH_HIGH_VOLTAGE},
            known=True,  # where the drive is not noted its kinds ask for a look at it first
        ),
    )
}


def not_kept(codes: Iterable[str], made: Iterable[Made], system: System) -> tuple[Order, ...]:
    """The orders among `codes` that are still open."""
    done = tuple(made)
    return tuple(ORDERS[code] for code in codes if not ORDERS[code].is_kept(done, system))
