"""Which hours and prices are asked for: those that the ways in sight are made of."""

from collections.abc import Iterable

from diagnostics.evidence.options.lines import FIND_AGAIN, FLUIDS, OPERATIONS, PARTS
from diagnostics.evidence.options.offer import Offer
from diagnostics.price_sheet import (
    AMOUNT,
    ASIDE,
    FIGURE,
    HOURS,
    PART,
    PRICE,
    RATE,
    SOURCE,
    TERMS,
)

LABOR, OF_PARTS, OF_FLUIDS = "Labor", "Parts", "Refrigerant and oil"
BACK, CANNOT, OWN = (
    "If it comes back",
    "Cannot be done on this car, because",
    "The shop’s own figure",
)


def names_of(priced: Iterable[Offer], *, owner: bool) -> dict[str, list[str]]:
    """The fields that these plans need, by their group."""
    chosen = list(priced)
    options = {one.code: one for offer in chosen for one in offer.options}.values()
    hours = dict.fromkeys(code for one in options for code in one.operations)
    parts = dict.fromkeys(code for one in options for code in one.parts)
    fluids = dict.fromkeys(code for one in options for code in one.fluids)
    if not chosen:
        return {}
    again = [FIND_AGAIN] if FIND_AGAIN not in hours else []
    return {
        LABOR: [RATE, *(f"{HOURS}{code}" for code in (*hours, *again))],
        OF_PARTS: [name for code in parts for name in (f"{PART}{code}", f"{SOURCE}{code}")],
        OF_FLUIDS: [name for code in fluids for name in (f"{AMOUNT}{code}", f"{PRICE}{code}")],
        BACK: list(TERMS),
        CANNOT: [f"{ASIDE}{one.code}" for one in options if one.repairs],
        **({OWN: list(FIGURE)} if owner else {}),
    }


def all_names() -> dict[str, list[str]]:
    """Every field there is but for the owner's, by its group."""
    return {
        LABOR: [RATE, *(f"{HOURS}{code}" for code in OPERATIONS)],
        OF_PARTS: [name for code in PARTS for name in (f"{PART}{code}", f"{SOURCE}{code}")],
        OF_FLUIDS: [name for code in FLUIDS for name in (f"{AMOUNT}{code}", f"{PRICE}{code}")],
        BACK: list(TERMS),
    }
