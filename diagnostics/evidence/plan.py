"""Which test comes next: what it saves by the minute of a bay, inside the order that protects.

A test that must wait for another lends that one its worth, so the way to it is taken. All figures
of this file are our judgement.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.verdict import Weighed
from diagnostics.evidence.inference.worth import (
    Proof,
    Suspected,
    Worth,
    in_hand,
    suspected,
    tables_of,
    worth,
)
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.orders import Made, Order, not_kept
from diagnostics.evidence.runs import runs
from diagnostics.evidence.system import System

# Minutes that a set-up takes where it does not stand yet.
SETUPS: Mapping[str, float] = {
    "gauges on": 4, "ports reached": 1, "lift": 4, "shield off": 6, "hub reached": 5,
    "coil plug reached": 4, "lines reached": 2, "belt off": 8, "engine hot": 12,
    "scan tool on": 3, "machine on": 4, "pump on": 5, "nitrogen and regulator": 6,
    "service plug reached": 6, "loop open": 75, "loop closed": 25, "loop empty": 45,
}  # fmt: skip
SETUP = 1.0  # a set-up not named above
WORTH_IT = 1.0  # a minute of decision cost saved by each minute of the bay
PROOF_WORTH_IT = 0.7  # the same of a test that may prove what is in hand
IN_LOOP = ("mechanics", "seal", "tightness", "amount", "dirt", "flow", "oil")
FAIR_CHANCE = 0.15  # of proving what is in hand
DEAR = 60.0  # what costs less is decided without a proof
PROOF_COUNTS = 0.5  # a proof of what is in hand is worth that share of what it costs
FIRST = "complaint_seen"  # where nothing was looked at yet: does it do what the customer says?
# Mended at the shaft: a locked one breaks the new part, so the hub is turned before, whatever else.
AT_THE_SHAFT = ("clutch", "belt")
TURNS = ("hub_turn", "limiter")  # either tells whether the shaft is free
# A coil that draws too much ends the next relay or fuse too, so it is measured before either is
# replaced (trade article).
SWITCHES_COIL = ("relay", "fuse", "control unit")
COIL = "coil_resistance"
# A look that comes first, and what has been done better once that was made.
LOOKED_BEFORE: Mapping[str, str] = {"walk_round": "hub_turn"}
# Volts are lost under current only, and none flows through a coil that was found open.
UNDER_CURRENT = ("feed_drop", "ground_drop")
COIL_OPEN: Mapping[str, str] = {"coil_power": "no_current", "coil_resistance": "open"}
# A sample of the gas flows out of a loop with pressure in it only.
NEEDS_GAS = ("gas_identity", "sealant_test")
NO_GAS = ("empty", "vacuum")
# Minutes against the better part of an hour: whether the loop is empty says how it is searched.
READ_BEFORE: Mapping[str, str] = {"leak_search": "static_pressure"}
# What an identifier sips from the loop goes through it: leak-stop ends it as it ends a machine.
NOT_WITH: Mapping[str, str] = {"gas_identity": "leak_stop_first"}
SHOWN = 0.5  # saved minutes below which a test is not named at all


@dataclass(frozen=True)
class Asked:
    """What the next test is chosen from, beside what was told.

    `made` are the tests that stand, oldest first, with what touched them since; `setups` stand
    already; `unable` could not be made, or are not wanted, on the car as it is; `shut` are closed
    off by the loop; `must_not_run`: the car must not be run now; `again` were made, and do not go
    together with the others.
    """

    system: System
    made: Sequence[Made] = ()
    done: frozenset[str] = frozenset()  # kinds made on the car as it is
    setups: frozenset[str] = frozenset()
    unable: frozenset[str] = frozenset()
    shut: frozenset[str] = frozenset()
    must_not_run: bool = False
    again: frozenset[str] = frozenset()


@dataclass(frozen=True)
class NextTest:
    """A test that may be made next, in minutes with its set-ups; `why` tells what it is good for.

    `leads_to` is the test whose way it opens, empty: it is worth it by itself. `second`: something
    is found, and this one looks for what may be wrong besides. `again`: it was made, and does not
    go together with the others.
    """

    kind: str
    minutes: float
    saves: float
    variable: str
    proves: str
    leads_to: str = ""
    second: bool = False
    again: bool = False

    @property
    def per_minute(self) -> float:
        """What it saves by the minute of a bay."""
        return self.saves / self.minutes


@dataclass(frozen=True)
class Plan:
    """What to do next. `best` None: enough is known, or nothing that is left tells more.

    `beside` are tests whose set-ups stand anyway; `unproved` what would be mended now without
    being shown; `left_out` are tests worth making that could not be made.
    """

    best: NextTest | None
    others: tuple[NextTest, ...] = ()
    beside: tuple[NextTest, ...] = ()
    left_out: tuple[str, ...] = ()
    unproved: tuple[Proof, ...] = ()
    worths: tuple[Worth, ...] = field(default=(), compare=False)

    @property
    def decide(self) -> bool:
        """Whether enough is known, or nothing that is left tells more."""
        return self.best is None


def plan(
    weighed: Weighed, asked: Asked, kinds: Mapping[str, Kind], tables: Mapping[str, Looks]
) -> Plan:
    """The next test, up to three others, and what may be done beside."""
    there = [
        kind
        for kind in kinds.values()
        if kind.name in tables
        and kind.name not in asked.done
        and LOOKED_BEFORE.get(kind.name) not in asked.done
        and not kind.forbids(asked.system)
        and not (kind.name in UNDER_CURRENT and coil_is_open(asked.made))
    ]
    worths = {one.kind: one for one in worth(weighed, [tables[kind.name] for kind in there])}
    hand = tuple(in_hand(weighed, tables_of(weighed)))
    dear = [one for one in hand if one.cost >= DEAR]
    free = [kind for kind in there if may_be_made(kind, asked)]
    offers = [
        offered(kind, worths[kind.name], asked, dear, 0.0, tables[kind.name].direct)
        for kind in free
        if not (kind.name in NEEDS_GAS and loop_is_empty(asked.made))
    ]
    for kind in there:
        for opener, extra in openers(kind, asked, free):
            lent = offered(kind, worths[kind.name], asked, dear, extra, tables[kind.name].direct)
            offers.append(replace(lent, kind=opener.name, leads_to=kind.name))
    ranked = best_of_each(offers)
    suspects = suspected(weighed)
    if suspects.found:
        ranked = bearing_first(ranked, bears(suspects))
    first = must_come_first(suspects, asked, clutched="clutch" in weighed.plain.answers)
    ranked = [replace(one, again=one.kind in asked.again) for one in ranked]
    best = best_of(ranked, begun=bool(weighed.told), first=first)
    # Before anything is decided on tests at odds, one of them is made again, whatever it saves.
    best = best or next((one for one in ranked if one.again), None)
    left = [one for one in ranked if not best or one.kind != best.kind]
    rest = [one for one in left if one.saves >= SHOWN or one.again]
    rest = [*(one for one in rest if one.again), *(one for one in rest if not one.again)]
    worthy = {name for name, one in worths.items() if one.saves >= SHOWN}
    return Plan(
        best,
        tuple(rest[:3]),
        tuple(one for one in rest if stands_ready(kinds[one.kind], asked))[:3],
        tuple(sorted(asked.unable & worthy)),
        tuple(dear),
        tuple(worths.values()),
    )


def best_of(
    ranked: Sequence[NextTest], *, begun: bool, first: Mapping[str, str]
) -> NextTest | None:
    """The one to make; None: what is left saves less than it takes.

    `begun`: some test has told something. `first` are tests that come before any other, each with
    the variable that it is made for.
    """
    by_kind = {one.kind: one for one in ranked}
    if not begun and FIRST in by_kind:
        return by_kind[FIRST]
    for name, variable in first.items():
        if name in by_kind:
            return replace(by_kind[name], proves=variable, variable=variable, second=False)
    best = next((one for one in ranked if one.per_minute >= least(one)), None)
    before = by_kind.get(READ_BEFORE.get(best.kind, "")) if best else None
    return replace(before, leads_to=best.kind, variable=best.variable) if best and before else best


def least(one: NextTest) -> float:
    """What a test has to save by the minute to be made."""
    return PROOF_WORTH_IT if one.proves else WORTH_IT


def bears(suspects: Suspected) -> frozenset[str]:
    """The variables that tests speak against, and the gas where mending opens the loop.

    What is replaced with the part that would be mended now needs no test of its own.
    """
    opened = {"gas"} if {*IN_LOOP} & suspects.found else set()
    return (suspects.raised | opened) - {*replaced_with_it(suspects)}


def must_come_first(suspects: Suspected, asked: Asked, *, clutched: bool) -> dict[str, str]:
    """The tests without which what would be mended now is ruined or in vain."""
    first = {}
    if {*suspects.mended} & {*AT_THE_SHAFT} and not {*TURNS} & asked.done:
        first["hub_turn"] = "mechanics"
    switched = "command" in suspects.found and suspects.mended["command"] in SWITCHES_COIL
    if switched and clutched and COIL not in asked.done:
        first[COIL] = "clutch"
    return first


def bearing_first(ranked: Iterable[NextTest], speak: Collection[str]) -> list[NextTest]:
    """Where something is found: first the tests that bear on it, then those for a second fault."""
    told = [replace(one, second=not (one.proves or one.variable in speak)) for one in ranked]
    return sorted(told, key=lambda one: one.second)


def replaced_with_it(suspects: Suspected) -> tuple[str, ...]:
    """What is replaced with what would be mended now: a complete compressor has its clutch."""
    whole = "mechanics" in suspects.found and suspects.mended["mechanics"] == "compressor"
    return ("clutch",) if whole else ()


def coil_is_open(made: Iterable[Made]) -> bool:
    """Whether the newest test of the coil, on the coil as it is, found no current going through."""
    tests = [one for one in made if one.kind in COIL_OPEN]
    return bool(tests) and not tests[-1].touched and tests[-1].outcome == COIL_OPEN[tests[-1].kind]


def loop_is_empty(made: Iterable[Made]) -> bool:
    """Whether the newest pressure at rest, of the loop as it is, was next to none."""
    tests = [one for one in made if one.kind == "static_pressure"]
    return bool(tests) and not tests[-1].touched and tests[-1].outcome in NO_GAS


def stands_ready(kind: Kind, asked: Asked) -> bool:
    """Whether a test needs a set-up, and all of it stands already."""
    return bool(kind.setup) and {*kind.setup} <= asked.setups


def may_be_made(kind: Kind, asked: Asked) -> bool:
    """Whether it can be offered as the car is now."""
    return (
        kind.name not in asked.unable
        and kind.name not in asked.shut
        and not kind.not_sure(asked.system)
        and not (asked.must_not_run and runs(kind))
        and not kind.not_kept(asked.made, asked.system)
        and not not_kept(NOT_WITH.get(kind.name, "").split(), asked.made, asked.system)
    )


def free_kinds(asked: Asked, kinds: Mapping[str, Kind], tables: Mapping[str, Looks]) -> list[Kind]:
    """The kinds with a table that were not made and may be made now, in the catalogue's order."""
    return [
        kind
        for kind in kinds.values()
        if kind.name in tables
        and kind.name not in asked.done
        and not kind.forbids(asked.system)
        and may_be_made(kind, asked)
    ]


def offered(
    kind: Kind,
    one: Worth,
    asked: Asked,
    dear: Sequence[Proof],
    extra: float,
    direct: Collection[str],
) -> NextTest:
    """A test with what it saves, and what a proof of something dear in hand is worth.

    `direct`: the variables that it looks at itself. It is offered for one of them, not for what
    follows for others, which a reader would not see in it.
    """
    saves, proves = one.saves, ""
    for proof in dear:
        chance = one.proves.get(proof.variable, 0.0)
        if chance >= FAIR_CHANCE:
            saves += PROOF_COUNTS * chance * proof.cost
            proves = proves or proof.variable
    looked_at = [name for name in direct if name in one.by_variable]
    variable = max(looked_at or one.by_variable, key=lambda name: one.by_variable[name])
    takes = minutes(kind, asked.setups) + extra
    return NextTest(kind.name, takes, saves, proves or variable, proves)


def minutes(kind: Kind, standing: frozenset[str]) -> float:
    """The minutes of a test, with the set-ups that do not stand yet."""
    return kind.minutes + sum(SETUPS.get(one, SETUP) for one in kind.setup if one not in standing)


def openers(kind: Kind, asked: Asked, free: Sequence[Kind]) -> Iterable[tuple[Kind, float]]:
    """The free tests that open one order in the way of a test, and what all of them take.

    A test with an order that no free test opens has no such way yet.
    """
    if kind in free or kind.name in asked.unable or kind.name in asked.shut:
        return
    if kind.not_sure(asked.system) or (asked.must_not_run and runs(kind)):
        return
    way = []
    for order in kind.not_kept(asked.made, asked.system):
        opening = quickest(order, free, asked)
        if opening is None:
            return
        way.append(opening)
    extra = sum(minutes(one, asked.setups) for one in way)
    for one in way:
        yield one, extra


def has_a_way(
    kind: Kind, asked: Asked, kinds: Mapping[str, Kind], before: frozenset[str] = frozenset()
) -> bool:
    """Whether the orders in its way can still be opened by tests that somebody is able to make.

    What nobody could make, or was refused, opens nothing: a test behind it is not waited for.
    """
    for order in kind.not_kept(asked.made, asked.system):
        opening = (kinds[name] for name in order.opened if name in kinds)
        if not any(
            one.name not in asked.unable | before
            and not one.forbids(asked.system)
            and has_a_way(one, asked, kinds, before | {kind.name})
            for one in opening
        ):
            return False
    return True


def quickest(order: Order, free: Sequence[Kind], asked: Asked) -> Kind | None:
    """The free test that opens an order in the least time."""
    opening = [kind for kind in free if kind.name in order.opened]
    return min(opening, key=lambda kind: minutes(kind, asked.setups), default=None)


def best_of_each(offers: Iterable[NextTest]) -> list[NextTest]:
    """Each kind once, as the best of its offers; the best first, and the order is always one."""
    best: dict[str, NextTest] = {}
    for one in sorted(offers, key=lambda one: (-one.per_minute, one.kind)):
        best.setdefault(one.kind, one)
    return list(best.values())
