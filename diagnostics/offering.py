"""The ways to repair one car, by what its tests show and what was typed of it.

Worked out anew where something new was told, and given again else: sets of answers take longer than
a page may.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

from diagnostics.assess import Assessed, readings_of, touched_since
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.told import Test
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.leak_places import PLACE_FOUND, PLACES
from diagnostics.evidence.options.costing import Figure, Prices, Scales, Thing
from diagnostics.evidence.options.of_verdict import OfVerdict
from diagnostics.evidence.options.offer import Offer
from diagnostics.evidence.options.offers import cheapest_of_each, offers, scales_of_plan
from diagnostics.evidence.options.one_more_test import one_more_test
from diagnostics.evidence.options.option import Cures
from diagnostics.evidence.options.plans import Car, found
from diagnostics.evidence.plan import minutes
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import Verdict, weigh
from diagnostics.price_sheet import Sheet
from diagnostics.weighing import (
    Around,
    changes_by_state,
    made_now,
    standing_setups,
    what_was_told,
)

KEPT = 128  # of some hundred kilobytes each: the jobs in hand
PAY_MOST = 3  # more of them decide nothing: our judgement


@dataclass(frozen=True)
class Ways:
    """The plans of one car as they are offered, the verdict they rest on, and tests that pay."""

    verdict: Verdict
    car: Car
    offers: Sequence[Offer]
    prices: Prices

    @cached_property
    def by_code(self) -> Mapping[str, Offer]:
        """The plans by their codes."""
        return {one.code: one for one in self.offers}

    @cached_property
    def found(self) -> Sequence[Thing]:
        """What has to be cured."""
        return found(self.car)

    def tests_that_pay(self, around: Around) -> list[Kind]:
        """The tests that may be made and would pay for themselves before it is decided."""
        done = around.made_before()
        made = made_now(around.steps, around.states, around.failing_now)
        free = [
            kind
            for kind in KINDS.values()
            if kind.name in TABLES and kind.name not in made and around.may_be_made(kind, done)
        ]
        setups = frozenset(standing_setups(around.steps, around.states, around.loop_code))
        weighed = self.verdict.weighed
        worth = one_more_test(
            weighed,
            [(TABLES[kind.name], minutes(kind, setups)) for kind in free],
            compared(self),
            self.prices.typed.rate,
        )
        return [KINDS[one.kind] for one in worth if one.net > 0][:PAY_MOST]


def compared(ways: Ways) -> list[Scales]:
    """The plans that are priced, each with what it loses beside the others.

    What all of them leave changes no choice between them, so it needs no price.
    """
    priced = [
        one
        for one in ways.offers
        if one.repairs and one.sees_to_found and one.cost.total is not None
    ]
    left = [set(things_of(one.uncured)) for one in priced]
    every: set[Thing] = set().union(*left)
    apart = {thing for thing in every if not all(thing in one for one in left)}
    options = list(dict.fromkeys(option for one in priced for option in one.options))
    mended = {thing for option in options for thing in things_of(option.all_cures)}
    concerned = cures_of(apart & mended)
    mending = cheapest_of_each(concerned, options, ways.car, ways.prices.typed)
    return [
        scales_of_plan(
            one.options,
            one.cost,
            cures_of({*things_of(one.uncured)} & apart & mended),
            mending,
            ways.prices,
        )
        for one in priced
    ]


def things_of(cures: Cures) -> Iterator[Thing]:
    """A set of answers, one by one."""
    yield from ((variable, code) for variable, codes in cures.items() for code in codes)


def cures_of(things: Iterable[Thing]) -> dict[str, tuple[str, ...]]:
    """The same the other way round."""
    found: dict[str, tuple[str, ...]] = {}
    for variable, code in sorted(things):
        found[variable] = (*found.get(variable, ()), code)
    return found


def ways(around: Around, sheet: Sheet, figures: Iterable[Figure] = ()) -> Ways:
    """All that can be offered. Nobody may change what is given."""
    typed = sheet.prices
    prices = Prices(typed.typed, typed.terms, (*typed.figures, *figures))
    changes = changes_by_state(around.states, around.changes)
    told = ToOffer(
        around.system,
        tuple(what_was_told(around.steps, around.states)),
        [dict(one) for one in changes],
        places_found(around),
        sheet.set_aside,
        prices,
    )
    return kept(told)


@dataclass(frozen=True, eq=False)
class ToOffer:
    """Everything that the plans rest on. What is told the same is the same."""

    system: System
    tests: tuple[Test, ...]
    changes: Sequence[Mapping[str, Any]]
    places: frozenset[str]
    set_aside: Mapping[str, str]
    prices: Prices

    @cached_property
    def name(self) -> str:
        """The same for the same told; kinds may be taken out by tests."""
        return repr((self, sorted(self.places), tuple(KINDS)))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, ToOffer) and self.name == other.name

    def __hash__(self) -> int:
        return hash(self.name)


@lru_cache(maxsize=KEPT)
def kept(told: ToOffer) -> Ways:
    """As it was worked out last, where nothing new was told."""
    verdict = weigh(told.system, told.tests, told.changes, TABLES)
    weighed = verdict.weighed
    answers = {one.name: weighed.plain.answers[one.name] for one in weighed.plain.variables}
    car = Car(told.system, answers, OfVerdict(weighed), told.places, told.set_aside)
    return Ways(verdict, car, tuple(offers(car, told.prices)), told.prices)


def places_found(around: Around) -> frozenset[str]:
    """Where it leaks, by the searches that stand and that no change touched since."""
    return frozenset(
        place
        for one in around.steps
        if one.step.kind == "leak_search" and found_a_place(one, around)
        for place in found_in(one)
    )


def found_a_place(one: Assessed, around: Around) -> bool:
    """Whether a search of the car as it is found a place."""
    code = one.meaning.outcome.code if one.stands and one.meaning else ""
    return code in PLACE_FOUND and not touched_since(one, around.states)


def found_in(one: Assessed) -> Iterator[str]:
    """The places that a search found."""
    read = readings_of(one.step)
    yield from (place.name for place in PLACES if read.get(place.name) == "found")
