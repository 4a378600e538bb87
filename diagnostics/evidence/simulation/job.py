"""One job from the first test to the decision, and what came of it, held to what was hidden."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnostics.evidence.inference.network import OTHER
from diagnostics.evidence.inference.stakes import REMEDIES
from diagnostics.evidence.inference.verdict import NOT_OK, Weighed
from diagnostics.evidence.inference.worth import decided, tables_of
from diagnostics.evidence.simulation.bay import Bay, Shop
from diagnostics.evidence.simulation.cars import Car, faults
from diagnostics.evidence.simulation.policies import AT_MOST, POLICIES
from diagnostics.evidence.simulation.readings import read
from diagnostics.evidence.simulation.worlds import World
from diagnostics.evidence.weigh import Verdict, weigh

SORTS = ("not_ok", "ok", "single")  # of proofs


@dataclass(frozen=True)
class Stood:
    """An answer that was proved or ruled out at the end, what was true, which kinds carry it most.

    `doubt` is the share that speaks against it by the program's own reckoning.
    """

    standing: str
    variable: str
    code: str
    true: str
    wrong: bool
    carried: tuple[str, ...] = ()
    doubt: float = 0.0


@dataclass(frozen=True)
class Ended:
    """What came of a job. Minutes of the bay; costs in the same minutes (stakes.py).

    `least` is what a decision with nothing hidden would have cost. `stood` has what was proved or
    ruled out. `slips`: how many readings slipped, and
    how many of these stand in a disagreement; `alarm`: one was told though nothing slipped.
    `outside`: of a car with a cause outside the list, the share of "something else" there at first
    and at last.
    """

    tests: int
    minutes: float
    cost: float
    least: float
    faults: int
    missed: int
    stood: tuple[Stood, ...] = ()
    slips: int = 0
    slips_found: int = 0
    alarm: bool = False
    outside: tuple[float, float] | None = None
    made: tuple[str, ...] = ()


def run(car: Car, world: World, policy: str, shop: Shop) -> Ended:
    """Test by test until the policy says that enough is known."""
    bay = Bay(car.system, shop)
    slipped: list[int] = []
    verdict = weigh(car.system, bay.tests, (), shop.tables)
    before = verdict
    while len(bay.tests) + len(bay.unable) < AT_MOST:
        kind = POLICIES[policy](bay, verdict.weighed)
        if not kind:
            break
        true, told = read(shop.tables[kind], car, world)
        bay.make(kind, told)
        if told != true:
            slipped.append(len(bay.tests))
        verdict = weigh(car.system, bay.tests, (), shop.tables)
    return judged(car, bay, before, verdict, slipped)


def judged(car: Car, bay: Bay, before: Verdict, verdict: Verdict, slipped: list[int]) -> Ended:
    """The end of a job held to the car's hidden answers."""
    cost, least, mended = decisions(car, verdict.weighed)
    known = {(o.variable, o.code) for o in verdict.stands if o.standing in ("proved", "likely")}
    at_fault = faults(car)
    missed = [
        name for name, code in at_fault.items() if name not in mended and (name, code) not in known
    ]
    odd = {step for one in verdict.disagree if one.what == "odd" for step in one.steps}
    return Ended(
        tests=len(bay.tests),
        minutes=bay.minutes,
        cost=cost,
        least=least,
        faults=len(at_fault),
        missed=len(missed),
        stood=tuple(stood(car, verdict)),
        slips=len(slipped),
        slips_found=len(odd & {*slipped}),
        alarm=bool(odd) and not slipped,
        outside=(share_outside(before, car), share_outside(verdict, car)) if car.beyond else None,
        made=tuple(one.kind for one in bay.tests),
    )


def sort_of(code: str) -> str:
    """The sort of a proof: that it is not in order, that it is, or one answer."""
    return code if code in (NOT_OK, "ok") else "single"


def is_true(car: Car, variable: str, code: str) -> bool:
    """Whether an answer is the car's; of a cause outside the list no answer in it is."""
    return variable in faults(car) if code == NOT_OK else code == car.answers[variable]


def stood(car: Car, verdict: Verdict) -> Iterator[Stood]:
    """What is proved and what is ruled out, and whether it is so."""
    for one in verdict.stands:
        if one.standing in ("proved", "ruled_out"):
            proved, true = one.standing == "proved", is_true(car, one.variable, one.code)
            yield Stood(
                one.standing,
                one.variable,
                one.code,
                car.answers[one.variable],
                proved != true,
                tuple(each.kind for each in one.carried[:3]),
                1 - one.share if proved else one.share,
            )


def decisions(car: Car, weighed: Weighed) -> tuple[float, float, set[str]]:
    """What the best decisions cost on this car, what they would have with nothing hidden.

    And the variables whose fault is mended.
    """
    cost = least = 0.0
    mended: set[str] = set()
    for name, table in tables_of(weighed).items():
        true = weighed.plain.at(name, car.answers[name])
        best = decided(weighed, name, table)
        cost += float(table[best, true])
        least += float(table[:, true].min())
        if best and car.answers[name] in REMEDIES[name][best - 1].cures:
            mended |= {name}
    return cost, least, mended


def share_outside(verdict: Verdict, car: Car) -> float:
    """The share of "something else" where the car's cause is outside the list."""
    return verdict.weighed.share(car.beyond, [OTHER])
