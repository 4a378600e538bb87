"""The bay: what was made on a car, what stands meanwhile, and what may be made next.

A test's outcome stands for its readings. The car is as it came until something is taken out of it:
no test that needs refrigerant in the loop is made after that.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnostics.evidence.bears import NOT_SHOWN, NOTHING, RUN_ON, SWITCHED_ON, TAKEN_OUT, Bears
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.told import Test
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.loop_needs import NEEDS_OPEN
from diagnostics.evidence.orders import ORDERS, RUN, Made
from diagnostics.evidence.plan import Asked, free_kinds, minutes
from diagnostics.evidence.runs import runs
from diagnostics.evidence.system import System

TAKES_OUT = ("recovered_share", *NEEDS_OPEN)
NEEDS_CHARGE = ("gas_identity", "sealant_test", "static_pressure", "leak_search", "recovered_share")
# What a test opens and shuts by its readings, whatever came out (bears.py).
BY_KIND: Mapping[str, Bears] = {
    **dict.fromkeys(TAKES_OUT, TAKEN_OUT),
    **dict.fromkeys(("vacuum_hold", "nitrogen_hold"), NOT_SHOWN),
    **dict.fromkeys(
        ("running_pressures", "line_temperatures", "equalising", "condenser_face",
         "control_valve_duty"),
        RUN_ON,
    ),
    **dict.fromkeys(
        ("noise", "hot_retest", "vent_temperature", "complaint_seen", "command_data", "hv_command"),
        SWITCHED_ON,
    ),
}  # fmt: skip
BY_OUTCOME: Mapping[tuple[str, str], Bears] = {
    ("walk_round", "gas_not_label"): Bears(shuts=("gas_first",)),
    ("walk_round", "not_turning"): Bears(shuts=("hub_first",)),
}
# A set-up that ends another one.
ENDS: Mapping[str, tuple[str, ...]] = {
    "loop open": ("loop closed",),
    "loop closed": ("loop open",),
}


@dataclass(frozen=True)
class Shop:
    """What jobs are made with: the kinds of test and the program's own tables of them.

    `chosen` keeps what the program chose after the same tests of the same sort of car.
    """

    kinds: Mapping[str, Kind]
    tables: Mapping[str, Looks]
    chosen: dict[object, str] = field(default_factory=dict, compare=False)


@dataclass
class Bay:
    """One car in a bay. `minutes` counts tests with the set-ups that did not stand."""

    system: System
    shop: Shop
    minutes: float = 0.0
    tests: list[Test] = field(default_factory=list)
    made: list[Made] = field(default_factory=list)
    setups: frozenset[str] = frozenset()
    unable: frozenset[str] = frozenset()

    def asked(self) -> Asked:
        """What the next test is chosen from."""
        done = frozenset(one.kind for one in self.tests)
        return Asked(
            self.system, tuple(self.made), done, self.setups, self.unable, self.shut(),
            any(ORDERS[code].is_shut(self.made, self.system) for code in RUN),
        )  # fmt: skip

    def shut(self) -> frozenset[str]:
        """What the loop closes off: what needs it open while it is full, and the other way."""
        taken_out = any(one.kind in TAKES_OUT for one in self.tests)
        return frozenset(NEEDS_CHARGE if taken_out else NEEDS_OPEN)

    def so_far(self) -> object:
        """The sort of car and every test with its outcome, in order."""
        tests = tuple((one.kind, one.outcome) for one in self.tests)
        return str(self.system), tests, self.unable

    def free(self) -> list[Kind]:
        """The kinds that may be made now, in the order of the catalogue."""
        return free_kinds(self.asked(), self.shop.kinds, self.shop.tables)

    def make(self, name: str, outcome: str) -> None:
        """A test was made and read so; empty: nothing could be read, and it took its minutes."""
        kind = self.shop.kinds[name]
        self.minutes += minutes(kind, self.setups)
        if outcome:
            self.noted(name, outcome)
        else:
            self.unable |= {name}
        ended = {old for new in kind.setup for old in ENDS.get(new, ())}
        if runs(kind):
            ended |= {"belt off"}
        stands = {*kind.setup, *(("loop empty",) if name in TAKES_OUT else ())}
        self.setups = (self.setups - ended) | stands

    def noted(self, name: str, outcome: str) -> None:
        """What was read, and on which orders it bears."""
        self.tests.append(Test(len(self.tests) + 1, name, outcome, "yes"))
        bears = BY_OUTCOME.get((name, outcome), BY_KIND.get(name, NOTHING))
        self.made.append(Made(name, outcome, opens=bears.opens, shuts=bears.shuts))
