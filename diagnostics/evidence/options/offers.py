"""What can be offered on this car: each plan with what it cures, leaves, needs and costs.

The program advises, the person decides: nothing is chosen here, and nothing that the car can have
is hidden. Shares and expected costs are for the order alone, never for a customer.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from diagnostics.evidence.drives import look_first
from diagnostics.evidence.findings import Standing
from diagnostics.evidence.options.costing import (
    Prices,
    Scales,
    Standings,
    Thing,
    scales_of,
)
from diagnostics.evidence.options.offer import Against, Left, Offer
from diagnostics.evidence.options.option import (
    Cures,
    Ground,
    Need,
    Option,
    on_car,
    together,
    without,
)
from diagnostics.evidence.options.plans import (
    FOUND,
    PLACE,
    Car,
    cured,
    found,
    meant_for,
    plans,
    sees_to,
)
from diagnostics.evidence.options.prices import Cost, Typed, cost_now
from diagnostics.evidence.options.repairs import OPTIONS
from diagnostics.evidence.options.repairs_air import MAKE_SAFE, NOTHING
from diagnostics.evidence.system import can_be_such
from diagnostics.evidence.verdict_words import TO_CUSTOMER

NAMED_FROM = 0.1  # what is left and less likely is not named to a customer: our judgement
NO_REPAIR = "It repairs nothing: there is no later cost to set beside it."
OPENED = "A closed loop is opened for it."


@dataclass
class Remembered:
    """The same answers about sets, each worked out once."""

    stands: Standings
    shares: dict[str, float] = field(default_factory=dict)
    standings: dict[str, Standing] = field(default_factory=dict)

    def share_of(self, cures: Cures) -> float:
        """As the evidence says."""
        key = repr(sorted(cures.items()))
        if key not in self.shares:
            self.shares[key] = self.stands.share_of(cures)
        return self.shares[key]

    def standing_of(self, cures: Cures) -> Standing:
        """As the evidence says."""
        key = repr(sorted(cures.items()))
        if key not in self.standings:
            self.standings[key] = self.stands.standing_of(cures)
        return self.standings[key]


def offers(car: Car, prices: Prices) -> list[Offer]:
    """All plans that have a reason on this car, the least expected cost first, no repair last."""
    car = replace(car, stands=Remembered(car.stands))
    chosen, things = plans(car), found(car)
    singles = list(dict.fromkeys(one for plan in chosen for one in plan))
    concerned = together(*(meant_for(one, car) for one in singles))
    mending = cheapest_of_each(concerned, singles, car, prices.typed)
    made = [offer_of(plan, car, prices, things, concerned, mending) for plan in chosen]
    none = [
        offer_of((OPTIONS[code],), car, prices, things, concerned, {})
        for code in (MAKE_SAFE, NOTHING)
    ]
    return [*sorted(marked(made), key=order), *none]


def order(offer: Offer) -> tuple[bool, bool, int, bool, int, int]:
    """What was found first, then by expected cost; unpriced: all of it first, then as it stands."""
    amount = offer.expected
    stands = tuple(TO_CUSTOMER).index(offer.standing) if amount is None else 0
    return (
        not offer.sees_to_found, amount is None, amount or 0, not offer.whole, stands, offer.extent
    )  # fmt: skip


def cheapest_of_each(
    concerned: Cures, options: Sequence[Option], car: Car, typed: Typed
) -> dict[Thing, Cost]:
    """For each answer what the cheapest repair of it costs; one that is not priced is no cheapest.

    Where none is priced, the least of them, with what is missing.
    """
    costs = {one.code: cost_now((one,), typed) for one in options}
    best: dict[Thing, Cost] = {}
    for variable, codes in concerned.items():
        for code in codes:
            curing = [
                one for one in options
                if code in together(one.all_cures, meant_for(one, car)).get(variable, ())
            ]  # fmt: skip
            priced = [costs[one.code] for one in curing if costs[one.code].total is not None]
            least = min(curing, key=lambda one: one.extent)
            best[variable, code] = min(
                priced, key=lambda cost: cost.total or 0, default=costs[least.code]
            )
    return best


def offer_of(
    plan: tuple[Option, ...],
    car: Car,
    prices: Prices,
    things: Sequence[Thing],
    concerned: Cures,
    mending: Mapping[Thing, Cost],
) -> Offer:
    """One plan with all that is to be said of it."""
    mends = cured(plan, car)
    meant = together(*(meant_for(one, car) for one in plan))
    cost = cost_now(plan, prices.typed)
    left = without(concerned, mends)
    seen = [thing for thing in things if any(sees_to(one, thing) for one in plan)]
    standing = weakest(car.standing(meant_for(one, car)) if meant else "open" for one in plan)
    scales = scales_of_plan(plan, cost, left, mending, prices)
    return Offer(
        options=plan,
        cures=meant,
        standing=standing,
        seen=weakest(by_variable(seen, car)) if seen else standing,
        leaves=tuple(what_is_left(without(car.faults, mends), car)),
        needs=needs_of(plan, car),
        unshown=unshown(plan, mends, car),
        against=tuple(against(plan, things, car)),
        cautions=tuple(
            dict.fromkeys(
                one.sentence for option in plan for one in option.cautions if car.holds(one)
            )
        ),
        cost=cost,
        scales=scales,
        expected=scales.expected(car.stands),
        uncured=left,
        whole=bool(seen) and seen == list(things),
        sees_to_found=bool(seen) or not things,
    )


def weakest(standings: Iterable[Standing]) -> Standing:
    """Of several standings the one that shows least."""
    return max(standings, key=("proved", "likely", "open", "ruled_out").index)


def by_variable(things: Sequence[Thing], car: Car) -> Iterable[Standing]:
    """How what was found stands, the answers of one variable together, places as one leak."""
    found_of: dict[str, list[str]] = {}
    for variable, code in things:
        name, answer = ("tightness", "leaks") if variable == PLACE else (variable, code)
        found_of.setdefault(name, []).append(answer)
    for variable, codes in found_of.items():
        yield car.standing({variable: tuple(dict.fromkeys(codes))})


def scales_of_plan(
    plan: Sequence[Option],
    cost: Cost,
    left: Cures,
    mending: Mapping[Thing, Cost],
    prices: Prices,
) -> Scales:
    """What weighs for or against a plan; of one that repairs nothing no figure means anything."""
    if not any(one.repairs for one in plan):
        return Scales(0.0, {}, (NO_REPAIR,))
    codes = {one.code for one in plan}
    figures = [
        (one, cost_now((OPTIONS[one.then],), prices.typed))
        for one in prices.figures
        if one.after in codes
    ]
    return scales_of(cost, left, mending, figures, prices.terms, prices.typed)


def what_is_left(left: Cures, car: Car) -> Iterable[Left]:
    """What is left of each variable, what was found first; what is hardly so is not named."""
    rows = []
    for variable, codes in left.items():
        for code in codes:
            one = {variable: (code,)}
            if car.is_found(one) or car.share(one) >= NAMED_FROM:
                rows.append((variable, code, car.standing(one)))
    for standing in ("proved", "likely", "open"):
        for variable in left:
            there = tuple(code for name, code, how in rows if (name, how) == (variable, standing))
            if there:
                yield Left({variable: there}, standing)


def needs_of(plan: Sequence[Option], car: Car) -> tuple[Need, ...]:
    """What comes before, each once; how the compressor is driven where that is not noted."""
    by_drive = look_first(car.system) if any("drive" in one.on for one in plan) else ""
    first = [Need("drive", by_drive)] if by_drive else []
    every = [need for one in plan for need in one.needs]
    kept = [need for need in every if can_be_such(need.on, car.system)]
    return tuple({need.code: need for need in (*first, *kept)}.values())


def unshown(plan: Sequence[Option], mends: Cures, car: Car) -> tuple[str, ...]:
    """What these repairs rest on and no test has shown, but for what the plan itself mends.

    One sentence of each variable, the first.
    """
    said: dict[str, str] = {}
    for ground in (ground for one in plan for ground in one.rests_on):
        if car.holds(ground) and not is_mended(ground, mends, car):
            said.setdefault(ground.variable, ground.sentence)
    return tuple(said.values())


def is_mended(ground: Ground, mends: Cures, car: Car) -> bool:
    """Whether the plan cures what would be wrong with what it rests on."""
    whole = car.faults.get(ground.variable, ())
    wrong = [code for code in ground.answers if code in whole] or whole
    return set(wrong) <= set(mends.get(ground.variable, ()))


def against(plan: Sequence[Option], things: Sequence[Thing], car: Car) -> Iterable[Against]:
    """What argues against a plan: what tests found in order, and what nothing found asks for."""
    said = {ground.sentence: ground for one in plan for ground in one.against if car.holds(ground)}
    for ground in said.values():
        if car.is_found({ground.variable: car.faults[ground.variable]}):
            continue  # ruled out by another fault of the same part argues for nothing
        yield Against(ground.sentence, on_car(ground.of, car.answers))
    for one in plan:
        meant = meant_for(one, car)
        if things and one.repairs and car.standing(meant) not in FOUND:
            yield Against(
                f"{one.words}: what it is meant for is {TO_CUSTOMER[car.standing(meant)]}.", meant
            )
    if any(one.opens_loop for one in plan) and not asks_to_open(things):
        yield Against(OPENED)


def asks_to_open(things: Sequence[Thing]) -> bool:
    """Whether something that was found can only be mended with the loop open."""
    inside = ("amount", "gas", "tightness", "dirt", "flow", "oil", "mechanics", "seal", PLACE)
    return not things or any(variable in inside for variable, _ in things)


def marked(made: Sequence[Offer]) -> list[Offer]:
    """The same, the cheapest with its warning and the cheapest defensible one marked."""
    cheapest = least(one for one in made if one.sees_to_found)
    defensible = least(one for one in made if one.is_defensible)
    asked_for = least(one for one in made if one.is_asked_for)
    also = defensible or asked_for
    those = [one for one in made if one.is_defensible] if defensible else made
    why = why_also(also, [one for one in those if one.is_asked_for]) if also else ""
    return [
        replace(
            one,
            warning=warning(one) if one is cheapest else "",
            cheapest_defensible=one is defensible,
            also_possible=one is also,
            also_why=why if one is also else "",
        )
        for one in made
    ]


def least(made: Iterable[Offer]) -> Offer | None:
    """The one that costs least now; where less is done in one without a price, that one."""
    those = list(made)
    priced = [one for one in those if one.cost.total is not None]
    cheap = min(priced, key=lambda one: one.cost.total or 0, default=None)
    smaller = [
        one for one in those if one.cost.total is None and (not cheap or one.extent < cheap.extent)
    ]
    return min(smaller, key=lambda one: one.extent, default=cheap)


def why_also(also: Offer, among: Sequence[Offer]) -> str:
    """Why one is marked among those that are asked for: no more than the prices typed can say."""
    said = "the cheapest that the tests ask for"
    if also.cost.total is None:
        said = "the least work that the tests ask for; what it costs is not typed yet"
    elif any(one.cost.total is None for one in among):
        said += ", as far as prices are typed"
    return f"{said}; nothing it rests on is open" if also.is_defensible else said


def warning(offer: Offer) -> str:
    """What is to be said of the cheapest where what it cures is not proved."""
    if offer.seen == "proved":
        return ""
    return (
        f"It costs least today, and what it cures is {TO_CUSTOMER[offer.seen]}: it may be paid and"
        " change nothing."
    )
