"""Which repairs come together: cars carry two or three faults, and one repair often leaves one.

A plan is one repair or a few. Those that cure everything that was found are put together so that
none of their repairs is superfluous; beside them each repair stands alone.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from diagnostics.evidence.findings import Standing
from diagnostics.evidence.options.costing import Standings, Thing
from diagnostics.evidence.options.needs import SHAFT_NOT_SHOWN
from diagnostics.evidence.options.option import (
    CHANCE,
    Answers,
    Cures,
    Ground,
    Option,
    faults,
    on_car,
    together,
)
from diagnostics.evidence.options.repairs import possible
from diagnostics.evidence.options.repairs_clutch import PARTS_OF_CLUTCH
from diagnostics.evidence.options.repairs_loop import LEAK
from diagnostics.evidence.system import System

FOUND: tuple[Standing, ...] = ("proved", "likely")
BESIDE_CLUTCH = ("compressor_device", "electric_compressor")
NO_PLACE = "leak_place"
AT_MOST = 6  # repairs in one plan: our judgement
PLANS = 8  # plans that cure all that was found: our judgement

PLACE = "place"  # stands for the variable where a thing found is the place of a leak


@dataclass(frozen=True)
class Car:
    """What plans rest on: the car, how its answers stand, where it was found to leak.

    `places`: codes of the leak search. `set_aside`: repairs that the technician ruled out, by code,
    with the reason.
    """

    system: System
    answers: Answers
    stands: Standings
    places: frozenset[str] = frozenset()
    set_aside: Mapping[str, str] = field(default_factory=dict)

    @property
    def faults(self) -> dict[str, tuple[str, ...]]:
        """What can be mended on such a car."""
        return faults(self.answers)

    @property
    def leaks_at(self) -> frozenset[str]:
        """Where it leaks: the places found, and the nose where the shaft seal was found wet."""
        wet = on_car({"seal": ("wet",)}, self.answers)
        return self.places | ({"nose"} if wet and self.is_found(wet) else set())

    def standing(self, cures: Cures) -> Standing:
        """How a set of answers stands; what the car cannot have is ruled out."""
        there = on_car(cures, self.answers)
        return self.stands.standing_of(there) if there else "ruled_out"

    def share(self, cures: Cures) -> float:
        """Its share."""
        there = on_car(cures, self.answers)
        return self.stands.share_of(there) if there else 0.0

    def is_found(self, cures: Cures) -> bool:
        """Whether a set of answers is proved or likely."""
        return self.standing(cures) in FOUND

    def holds(self, ground: Ground) -> bool:
        """Whether a sentence holds on this car; never of a part that it does not have."""
        if not on_car(ground.of, self.answers) or self.standing(ground.of) not in ground.standings:
            return False
        return ground.above == 0 or self.share(ground.of) > ground.above


def meant_for(option: Option, car: Car) -> dict[str, tuple[str, ...]]:
    """What an option is offered because of on this car, a leak at one of its places among it."""
    closes = car.leaks_at & set(option.places)
    return on_car(together(option.cures, LEAK if closes else {}), car.answers)


def cured(options: Iterable[Option], car: Car) -> dict[str, tuple[str, ...]]:
    """All that these repairs cure together; a leak at known places only where none is left out."""
    chosen = tuple(options)
    all_of = together(*(one.all_cures for one in chosen))
    places = {place for one in chosen for place in one.all_places}
    if car.leaks_at:
        closed = car.leaks_at <= places
        codes = tuple(code for code in all_of.get("tightness", ()) if code != "leaks")
        all_of["tightness"] = (*codes, "leaks") if closed else codes
    return on_car(all_of, car.answers)


def offered(car: Car) -> list[Option]:
    """The repairs that have a reason on this car, in the order of the list."""
    there = [one for one in possible(car.system, car.answers) if one.code not in car.set_aside]
    found = [one for one in there if one.repairs and has_reason(one, car)]
    codes = {one.code for one in found}
    if codes & set(PARTS_OF_CLUTCH) and any(car.holds(one) for one in SHAFT_NOT_SHOWN):
        codes |= set(BESIDE_CLUTCH)
    return [one for one in there if one.repairs and one.code in codes]


def has_reason(option: Option, car: Car) -> bool:
    """Whether what it is meant for has a chance, or is found."""
    if option.code == NO_PLACE and car.leaks_at:
        return False
    if option.cures == LEAK and not car.leaks_at & set(option.places):
        return False
    meant = meant_for(option, car)
    return car.share(meant) >= option.from_share or car.is_found(meant)


def found(car: Car) -> list[Thing]:
    """What has to be cured: answers that are proved or likely, and each place found to leak.

    Where a variable is at fault and no single answer stands out, all that have a chance count. Not
    so for tightness: what cannot be named there is weighed again on a date.
    """
    things: list[Thing] = []
    for variable, codes in car.faults.items():
        singles = [code for code in codes if car.is_found({variable: (code,)})]
        if not singles and variable != "tightness" and car.is_found({variable: codes}):
            singles = [code for code in codes if car.share({variable: (code,)}) >= CHANCE]
        things += [(variable, code) for code in singles]
    leak = ("tightness", "leaks")
    if car.leaks_at:
        things = [thing for thing in things if thing != leak]
        things += [(PLACE, place) for place in sorted(car.leaks_at)]
    return things


def sees_to(option: Option, thing: Thing) -> bool:
    """Whether an option cures one of the things found."""
    variable, code = thing
    if variable == PLACE:
        return code in option.all_places
    return code in option.all_cures.get(variable, ())


def plans(car: Car) -> list[tuple[Option, ...]]:
    """The plans that cure all that was found, the least first, then each repair alone."""
    options, things = offered(car), found(car)
    alone: list[tuple[Option, ...]] = [(one,) for one in options]
    if not things:
        return alone
    sets = {frozenset(one.code for one in plan): plan for plan in covers(things, options, ())}
    whole = sorted(
        (plan for plan in sets.values() if not superfluous(plan, things)),
        key=lambda plan: (sum(one.extent for one in plan), len(plan)),
    )
    kept = whole[:PLANS]
    return [*kept, *(plan for plan in alone if plan not in kept)]


def covers(
    things: Sequence[Thing], options: Sequence[Option], chosen: tuple[Option, ...]
) -> Iterator[tuple[Option, ...]]:
    """Every way to see to all things with a few options; what none sees to is left out."""
    open_ = [
        thing
        for thing in things
        if not any(sees_to(one, thing) for one in chosen)
        and any(sees_to(one, thing) for one in options)
    ]
    if not open_:
        if chosen:
            yield tuple(one for one in options if one in chosen)
        return
    if len(chosen) < AT_MOST:
        for option in options:
            if sees_to(option, open_[0]):
                yield from covers(things, options, (*chosen, option))


def superfluous(plan: Sequence[Option], things: Sequence[Thing]) -> bool:
    """Whether one of the repairs could be left away and as much would be cured."""
    return any(
        all(
            any(sees_to(other, thing) for other in plan if other is not one)
            for thing in things
            if sees_to(one, thing)
        )
        for one in plan
    )
