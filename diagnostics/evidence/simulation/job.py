"""One job from the first test to the decision, and what came of it, held to what was hidden."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnostics.evidence.inference.network import OTHER
from diagnostics.evidence.inference.next_step import tables_of
from diagnostics.evidence.inference.stakes import REMEDIES
from diagnostics.evidence.inference.verdict import NOT_OK, Weighed
from diagnostics.evidence.simulation.bay import Bay, Shop
from diagnostics.evidence.simulation.cars import Car, faults
from diagnostics.evidence.simulation.policies import AT_MOST, POLICIES
from diagnostics.evidence.simulation.readings import read
from diagnostics.evidence.simulation.worlds import World
from diagnostics.evidence.weigh import Verdict, weigh

SORTS = ("not_ok", "ok", "single")  # of proofs


@dataclass(frozen=True)
class Wrong:
    """A standing that is wrong: of which answer, what was true, which kinds carry it most."""

    standing: str
    variable: str
    code: str
    true: str
    carried: tuple[str, ...]


@dataclass(frozen=True)
class Ended:
    """What came of a job. Minutes of the bay; costs in the same minutes (stakes.py).

    `spared` is what a decision with nothing hidden would have cost. `proved` and `cleared` count
    standings by sort of proof, `cleared` those ruled out. `slips`: how many readings slipped, and
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
    proved: Counter[str] = field(default_factory=Counter)
    ruled_out: int = 0
    wrong: tuple[Wrong, ...] = ()
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
    stands = standings(verdict.weighed)
    cost, least, mended = decided(car, verdict.weighed)
    known = {at for at, standing in stands.items() if standing in ("proved", "likely")}
    at_fault = faults(car)
    missed = [
        name for name, code in at_fault.items() if name not in mended and (name, code) not in known
    ]
    odd = {step for one in verdict.disagree if one.what == "odd" for step in one.steps}
    proved = Counter(sort_of(code) for (_, code), it in stands.items() if it == "proved")
    return Ended(
        tests=len(bay.tests),
        minutes=bay.minutes,
        cost=cost,
        least=least,
        faults=len(at_fault),
        missed=len(missed),
        proved=proved,
        ruled_out=sum(1 for it in stands.values() if it == "ruled_out"),
        wrong=tuple(wrong(car, verdict, stands)),
        slips=len(slipped),
        slips_found=len(odd & {*slipped}),
        alarm=bool(odd) and not slipped,
        outside=(share_outside(before, car), share_outside(verdict, car)) if car.beyond else None,
        made=tuple(one.kind for one in bay.tests),
    )


def standings(weighed: Weighed) -> dict[tuple[str, str], str]:
    """How each answer of each variable stands, without what carries it."""
    return {(one.variable, one.code): one.standing for one in weighed.everything()}


def sort_of(code: str) -> str:
    """The sort of a proof: that it is not in order, that it is, or one answer."""
    return code if code in (NOT_OK, "ok") else "single"


def is_true(car: Car, variable: str, code: str) -> bool:
    """Whether an answer is the car's; of a cause outside the list no answer in it is."""
    true = car.answers[variable]
    return true != "ok" if code == NOT_OK else code == true


def wrong(car: Car, verdict: Verdict, stands: Mapping[tuple[str, str], str]) -> list[Wrong]:
    """What is proved and not so, and what is ruled out and so."""
    found = []
    for (variable, code), standing in stands.items():
        true = is_true(car, variable, code)
        if (standing == "proved" and not true) or (standing == "ruled_out" and true):
            carried = tuple(one.kind for one in verdict.of(variable, code).carried[:3])
            found.append(Wrong(standing, variable, code, car.answers[variable], carried))
    return found


def decided(car: Car, weighed: Weighed) -> tuple[float, float, set[str]]:
    """What the best decisions cost on this car, what they would have with nothing hidden.

    And the variables whose fault is mended.
    """
    cost = least = 0.0
    mended = set()
    for name, table in tables_of(weighed).items():
        true = weighed.plain.at(name, car.answers[name])
        best = int((weighed.shares(name) @ table.T).argmin())
        cost += float(table[best, true])
        least += float(table[:, true].min())
        if best and car.answers[name] in REMEDIES[name][best - 1].cures:
            mended.add(name)
    return cost, least, mended


def share_outside(verdict: Verdict, car: Car) -> float:
    """The share of "something else" where the car's cause is outside the list."""
    return verdict.weighed.share(car.beyond, [OTHER])
