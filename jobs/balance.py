"""The balance of a job's refrigerant: what came out, what went in, what nobody can know. Pure.

All amounts are whole milligrams. What a machine recovered is a lower bound of what was in the car:
beside it stands what such a machine may have left, as an unknown remainder, and nothing of that is
booked as lost. What is missing against the label leaked out or was not in it; grams do not tell
which. How far scale and label may be off comes on top and is said in words.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

from diagnostics.physics.errors import Impossible, OutOfRange
from diagnostics.physics.recovery import MACHINES, InCar, least_share, loss_per_day
from diagnostics.physics.uncertainty import Measured
from jobs.ledger import KG

CAR, HOSE = "car", "hose"
CYLINDERS = ("cylinder", "unnamed")  # one that is entered here, and one that is not
# Tested with R-12 and R-134a; of the second the others here are near enough, R-744 is not.
NOT_JUDGED = ("R-744", "other", "")
# As little as a scale tells from nothing: half an ounce, trade article. So it is with a full loop,
# too, where a coupler does not open the port's valve.
NOTHING = 15_000

# low: less than the label was in it. perhaps: cannot tell. above: more than the label was in it.
Against = Literal["low", "perhaps", "above", "no_label"]


@dataclass(frozen=True)
class Flow:
    """One move of refrigerant that stands. `work` tells one piece of work from another.

    `amount` is mg, 0 where a recovery brought nothing; places are codes of
    jobs.models.amounts.PLACES. `kind` is the kind of cylinder that it came from, "" where it came
    from none.
    """

    at: datetime
    amount: int
    from_place: str
    to_place: str
    kind: str = ""
    work: str = ""


@dataclass(frozen=True)
class Cycle:
    """What was taken out, then what was put in, until something is taken out again; all in mg.

    `pulls` are the recoveries one by one, `charges` what left which kind of cylinder, (kind, mg).
    `remainder`: at most so much the machine may have left, by the least `share` of the charge that
    it takes out; None: no bound is known. `vented` went into neither cylinder nor hose. `hose` is
    what stayed in the hose of what was drawn, below zero where more came out of it than went in.
    `evacuated`: the loop was pumped down before it was charged.
    """

    pulls: tuple[int, ...]
    remainder: int | None
    share: float | None
    vented: int
    charges: tuple[tuple[str, int], ...]
    hose: int
    began: datetime
    charged_at: datetime | None
    evacuated: bool = False

    @property
    def recovered(self) -> int:
        """What came out, all pulls together."""
        return sum(self.pulls)

    @property
    def drawn(self) -> int:
        """What left the cylinders to be charged."""
        return sum(mg for _, mg in self.charges)

    @property
    def into_car(self) -> int:
        """What of it went into the car."""
        return self.drawn - self.hose

    @property
    def emptied(self) -> bool:
        """Whether it was emptied before it was charged."""
        return bool(self.pulls) or self.evacuated

    @property
    def hardly(self) -> bool:
        """Whether next to nothing came out."""
        return bool(self.pulls) and self.recovered + self.vented <= NOTHING

    @property
    def most_in_car(self) -> int | None:
        """What was in the car at most before it was taken out; None: not known."""
        return None if self.remainder is None else self.recovered + self.vented + self.remainder


@dataclass(frozen=True)
class Missing:
    """What the label has more than was in the car, in mg: from `least` to `most`.

    Below zero: more was in it. `least` None: how much the machine left is not known.
    """

    least: int | None
    most: int

    @property
    def against(self) -> Against:
        """Where what was in the car stands to the label."""
        if self.most < 0:
            return "above"
        return "low" if self.least is not None and self.least > 0 else "perhaps"


@dataclass(frozen=True)
class Before:
    """What an earlier visit put into the emptied car, in mg, and when."""

    charged: int
    at: datetime


@dataclass(frozen=True)
class Comeback:
    """What went since an earlier visit charged it: mg a day from `least` to `most`, over `days`.

    `most` has what came out against what was charged; `least` counts what the machine may have
    left, 0 where that is not known. None of both: `why` says why it cannot be told.
    """

    charged: int
    recovered: int
    days: float
    least: int | None
    most: int | None
    why: str = ""


@dataclass(frozen=True)
class Balance:
    """All of it: `label` in mg (None: not noted), the cycles in their order, what went since."""

    label: int | None
    cycles: tuple[Cycle, ...]
    comeback: Comeback | None = None

    @property
    def missing(self) -> Missing | None:
        """Against the label, of the car as it came: None without label or recovery.

        A car that was charged before anything was taken out says nothing of what was in it.
        """
        first = self.cycles[0] if self.cycles else None
        if self.label is None or first is None or not first.pulls:
            return None
        most = self.label - first.recovered - first.vented
        bound = None if first.hardly else first.remainder
        return Missing(None if bound is None else most - bound, most)

    @property
    def charged(self) -> int | None:
        """What the last charge put into the emptied car in mg; None: none, or it was not emptied.

        What a machine may have left in it counts as gone: the loop is evacuated in between.
        """
        last = self.cycles[-1] if self.cycles else None
        return last.into_car if last and last.emptied and last.charged_at else None


def balance_of(
    flows: Iterable[Flow],
    label: int | None,
    shares: Mapping[str, float | None],
    before: Before | None = None,
    evacuated: Iterable[datetime] = (),
) -> Balance:
    """The balance of a job's standing moves of refrigerant.

    `label` is mg. `shares` has by a flow's `work` the least share of the charge (0 to 1) that its
    machine takes out, by `share_of`; None or not in it: no bound is known. `before` is what the
    visit before charged, where this job follows one, `evacuated` when the loop was pumped down.
    """
    cycles = tuple(with_vacuum(cycles_of(flows, shares), list(evacuated)))
    return Balance(label, cycles, since(before, cycles) if before else None)


def share_of(machine: str, kelvin: float | None, refrigerant: str) -> float | None:
    """The least share of the charge that a machine takes out; None: not known.

    `machine` is a class of physics.recovery, `kelvin` the temperature in the bay. The sources stand
    there.
    """
    if machine not in MACHINES or kelvin is None or kelvin <= 0 or refrigerant in NOT_JUDGED:
        return None
    return least_share(machine, kelvin)


def cycles_of(flows: Iterable[Flow], shares: Mapping[str, float | None]) -> Iterator[Cycle]:
    """The cycles in their order: one begins where something is taken out after something went in.

    The moves of one work belong together, the taking out first.
    """
    listed: list[Flow] = []
    filled = False
    for flow in sorted(flows, key=lambda one: (one.at, one.work, one.from_place != CAR)):
        if takes_out(flow) and filled:
            yield cycle_of(listed, shares)
            listed, filled = [], False
        listed.append(flow)
        filled = filled or puts_in(flow)
    if any(takes_out(one) or puts_in(one) for one in listed):
        yield cycle_of(listed, shares)


def with_vacuum(cycles: Iterable[Cycle], evacuated: list[datetime]) -> Iterator[Cycle]:
    """The cycles, each with whether the loop was pumped down between the charge before and its."""
    last: datetime | None = None
    for cycle in cycles:
        charged_at = cycle.charged_at
        pumped = charged_at is not None and any(
            one <= charged_at and (last is None or one > last) for one in evacuated
        )
        yield replace(cycle, evacuated=pumped)
        last = charged_at or last


def takes_out(flow: Flow) -> bool:
    """Out of the car, and not only back into the hose of a charge."""
    return flow.from_place == CAR and flow.to_place != HOSE


def puts_in(flow: Flow) -> bool:
    """Drawn to be charged, or into the car."""
    drawn = flow.from_place in CYLINDERS and flow.to_place == HOSE
    return flow.to_place == CAR or drawn


def cycle_of(flows: list[Flow], shares: Mapping[str, float | None]) -> Cycle:
    """The sums of one cycle."""
    pulls = [one for one in flows if takes_out(one) and one.to_place in CYLINDERS]
    taken = sum(one.amount for one in flows if takes_out(one))
    share = worst([shares.get(one.work) for one in pulls])
    charges: dict[str, int] = {}
    for one in flows:
        if puts_in(one) and one.from_place != HOSE:
            charges[one.kind] = charges.get(one.kind, 0) + one.amount
    into_car = sum(one.amount for one in flows if one.to_place == CAR)
    into_car -= sum(one.amount for one in flows if (one.from_place, one.to_place) == (CAR, HOSE))
    return Cycle(
        pulls=tuple(one.amount for one in pulls),
        remainder=None if share is None else remainder_of(taken, share),
        share=share,
        vented=taken - sum(one.amount for one in pulls),
        charges=tuple(charges.items()),
        hose=sum(charges.values()) - into_car,
        began=flows[0].at,
        charged_at=max((one.at for one in flows if puts_in(one)), default=None),
    )


def worst(shares: list[float | None]) -> float | None:
    """The share of the worst machine among several pulls; None: of one of them it is not known."""
    known = [share for share in shares if share]
    return min(known) if known and len(known) == len(shares) else None


def remainder_of(taken: int, share: float) -> int:
    """What may be left at most in mg where `taken` came out: 385 / 0.95 - 385 = 20 g."""
    return round(taken / share) - taken


def since(before: Before, cycles: tuple[Cycle, ...]) -> Comeback | None:
    """What went since the visit before; None: nothing was taken out yet."""
    first = cycles[0] if cycles else None
    if first is None or not first.pulls:
        return None
    days = (first.began - before.at).total_seconds() / 86_400
    out = first.recovered + first.vented
    most = first.most_in_car
    found = InCar(out / KG, None if most is None else most / KG)
    try:
        low, high = loss_per_day(Measured(before.charged / KG, 0.0), found, days)
    except (Impossible, OutOfRange) as wrong:
        return Comeback(before.charged, out, days, None, None, wrong.sentence)
    return Comeback(before.charged, out, days, round(low * KG), round(high * KG))
