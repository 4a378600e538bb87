"""Which hours and prices are asked for: those that the ways in sight are made of."""

from collections.abc import Iterable, Mapping

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


# The group of a field by how its name begins.
GROUP_BY = {
    **dict.fromkeys((HOURS, RATE), LABOR),
    **dict.fromkeys((PART, SOURCE), OF_PARTS),
    **dict.fromkeys((AMOUNT, PRICE), OF_FLUIDS),
    **dict.fromkeys(TERMS, BACK),
    ASIDE: CANNOT,
    **dict.fromkeys(FIGURE, OWN),
}


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


def with_sent(names: Mapping[str, list[str]], sent: Iterable[str]) -> dict[str, list[str]]:
    """The same with what was typed on a page that asked more, so that it is shown again."""
    found = {group: list(listed) for group, listed in names.items()}
    asked = {name for listed in found.values() for name in listed}
    for name in sent:
        group = next((one for start, one in GROUP_BY.items() if name.startswith(start)), "")
        if group and name not in asked:
            found.setdefault(group, []).append(name)
    return found


def all_names() -> dict[str, list[str]]:
    """Every field there is but for the owner's, by its group."""
    return {
        LABOR: [RATE, *(f"{HOURS}{code}" for code in OPERATIONS)],
        OF_PARTS: [name for code in PARTS for name in (f"{PART}{code}", f"{SOURCE}{code}")],
        OF_FLUIDS: [name for code in FLUIDS for name in (f"{AMOUNT}{code}", f"{PRICE}{code}")],
        BACK: list(TERMS),
    }
