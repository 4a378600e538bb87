"""The options of a case as plain data: what each cures, leaves and needs, and what it costs."""

from collections.abc import Mapping, Sequence
from typing import Any

from diagnostics.evidence.case import Case
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.leak_places import PLACE_FOUND, PLACES
from diagnostics.evidence.options.of_verdict import OfVerdict
from diagnostics.evidence.options.offer import Offer
from diagnostics.evidence.options.offers import offers
from diagnostics.evidence.options.one_more_test import one_more_test
from diagnostics.evidence.options.plans import Car
from diagnostics.evidence.options.turn import between
from diagnostics.evidence.plan import Asked, free_kinds, minutes
from diagnostics.evidence.weigh import Verdict


def options(
    case: Case,
    verdict: Verdict,
    asked: Asked,
    kinds: Mapping[str, Kind],
    tables: Mapping[str, Looks],
) -> dict[str, Any]:
    """Everything that can be offered on a case, and which further test would pay for itself."""
    weighed = verdict.weighed
    answers = {one.name: weighed.plain.answers[one.name] for one in weighed.plain.variables}
    car = Car(case.system, answers, OfVerdict(weighed), places_found(case))
    found = offers(car, case.prices)
    free = [
        (tables[kind.name], minutes(kind, asked.setups))
        for kind in free_kinds(asked, kinds, tables)
    ]
    scales = [one.scales for one in found]
    pays = one_more_test(weighed, free, scales, case.prices.typed.rate)
    return {
        "offers": [offered(one) for one in found],
        "break_even": break_even(found, case),
        "tests_that_pay": [
            {"kind": one.kind, "saves": round(one.saves), "costs": round(one.costs)}
            for one in pays
            if one.net > 0
        ],
    }


def places_found(case: Case) -> frozenset[str]:
    """Where the last leak search of the car as it is found it to leak."""
    searches = [
        step
        for step in case.steps
        if step.kind.name == "leak_search" and step.outcome in PLACE_FOUND
        if not any("tightness" in change for change in case.changes[step.state :])
    ]
    names = {place.name for place in PLACES}
    return frozenset(
        name
        for step in searches[-1:]
        for name, told in step.readings.items()
        if name in names and told == "found"
    )


def offered(one: Offer) -> dict[str, Any]:
    """One plan."""
    return {
        "code": one.code,
        "words": one.words,
        "standing": one.standing,
        "cures": {name: list(codes) for name, codes in one.cures.items()},
        "leaves": [left.words for left in one.leaves],
        "leaves_words": list(one.leaves_words),
        "needs": [need.sentence for need in one.needs],
        "asks": list(one.asks),
        "breaks": list(one.breaks),
        "unshown": list(one.unshown),
        "against": [against.sentence for against in one.against],
        "cautions": list(one.cautions),
        "cost": one.cost.total,
        "not_typed": list(one.cost.missing),
        "expected": one.expected,
        "whole": one.whole,
        "sees_to_found": one.sees_to_found,
        "warning": one.warning,
        "cheapest_defensible": one.cheapest_defensible,
        "also_possible": one.also_possible,
    }


def break_even(found: Sequence[Offer], case: Case) -> list[dict[str, Any]]:
    """Where each dearer whole plan becomes the better one against the cheapest of them."""
    whole = [one for one in found if one.whole and one.cost.total is not None]
    whole.sort(key=lambda one: one.cost.total or 0)
    turns = (between(whole[0], other, case.prices) for other in whole[1:])
    return [
        {
            "cheaper": turn.cheaper,
            "dearer": turn.dearer,
            "gap": turn.gap,
            "later": turn.later,
            "share": float(turn.share) if turn.share is not None else None,
            "rests_on": [*turn.rests_on, *turn.share_rests_on],
            "pays": turn.pays,
        }
        for turn in turns
        if turn
    ]
