"""The prices of a case: what was typed on the job, whole numbers of the smallest unit of money."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields
from typing import Any, TypeVar, cast

from diagnostics.evidence.bad_case import BadCase, chosen, listed, mapping, text, unknown
from diagnostics.evidence.options.costing import Figure, Prices, Terms
from diagnostics.evidence.options.lines import FLUIDS, OPERATIONS, PARTS
from diagnostics.evidence.options.prices import KINDS, Kind, PartPrice, Tax, Typed
from diagnostics.evidence.options.repairs import OPTIONS

SOURCES = ("", "new", "remanufactured", "used", "customer")
Value = TypeVar("Value")


def prices_of(told: Mapping[str, Any]) -> Prices:
    """What was typed on a job; what is left out was not typed, which is never zero.

    Raises:
        BadCase: something in it cannot be read.

    """
    unknown(told, ("typed", "terms", "figures"), "prices")
    typed = mapping(told.get("typed", {}), "prices.typed")
    unknown(typed, names(Typed), "prices.typed")
    return Prices(
        Typed(
            rate=whole(typed["rate"], "prices.typed.rate") if "rate" in typed else None,
            minutes=each(typed, "minutes", OPERATIONS, whole),
            parts=each(typed, "parts", PARTS, part),
            fluid_price=each(typed, "fluid_price", FLUIDS, whole),
            fluids=each(typed, "fluids", FLUIDS, whole),
            taxes=tuple(tax(one) for one in listed(typed, "taxes")),
        ),
        terms(mapping(told.get("terms", {}), "prices.terms")),
        tuple(figure(one) for one in listed(told, "figures")),
    )


def names(described: type) -> list[str]:
    """The names of a description's fields."""
    return [one.name for one in fields(described)]


def whole(value: object, where: str) -> int:
    """A whole number, zero or more."""
    if isinstance(value, bool) or not isinstance(value, int) or value < 0:
        raise BadCase(f"{where} is {value!r}, and it is a whole number, zero or more.")
    return value


def each(
    typed: Mapping[str, Any], name: str, allowed: Iterable[str], read: Callable[[Any, str], Value]
) -> dict[str, Value]:
    """The values of one of the tables, by the codes that there are."""
    told = mapping(typed.get(name, {}), f"prices.typed.{name}")
    unknown(told, allowed, f"prices.typed.{name}")
    return {code: read(value, f"prices.typed.{name}.{code}") for code, value in told.items()}


def part(value: object, where: str) -> PartPrice:
    """What a part costs."""
    told = mapping(value, where)
    unknown(told, names(PartPrice), where)
    source = told.get("source", "")
    if source not in SOURCES:
        raise BadCase(f"{where}.source is {source!r}; it can be {', '.join(SOURCES[1:])}.")
    amount = told.get("amount")
    return PartPrice(
        None if amount is None else whole(amount, f"{where}.amount"),
        str(source),
        whole(told.get("pieces", 1), f"{where}.pieces"),
    )


def tax(value: object) -> Tax:
    """A tax, in millionths."""
    told = mapping(value, "prices.typed.taxes")
    unknown(told, names(Tax), "prices.typed.taxes")
    on = [chosen(one, KINDS, "prices.typed.taxes: on") for one in listed(told, "on")]
    millionths = whole(told.get("millionths"), "prices.typed.taxes.millionths")
    return Tax(millionths, cast("tuple[Kind, ...]", tuple(on)))


def terms(told: Mapping[str, Any]) -> Terms:
    """Who pays when the car comes back."""
    unknown(told, names(Terms), "prices.terms")
    found: dict[str, Any] = {}
    for name, value in told.items():
        where = f"prices.terms.{name}"
        if name.endswith("_months"):
            found[name] = whole(value, where)
        elif name == "shop_left":
            if not isinstance(value, bool):
                raise BadCase(f"{where} is {value!r}; it is true or false.")
            found[name] = value
        else:
            found[name] = tuple(chosen(one, KINDS, where) for one in listed(told, name))
    return Terms(**found)


def figure(value: object) -> Figure:
    """How often one repair came due after another, counted or typed by the owner."""
    told = mapping(value, "prices.figures")
    unknown(told, names(Figure), "prices.figures")
    for name in ("after", "then"):
        if text(told, name) and told[name] not in OPTIONS:
            raise BadCase(f"prices.figures.{name}: no such repair {told[name]!r}.")
    for name in ("came", "of"):
        if name in told:
            whole(told[name], f"prices.figures.{name}")
    text(told, "basis")
    if not isinstance(told.get("owner", False), bool):
        raise BadCase(f"prices.figures.owner is {told['owner']!r}; it is true or false.")
    try:
        return Figure(**cast("dict[str, Any]", dict(told)))
    except TypeError as odd:
        raise BadCase(f"prices.figures: {odd}") from odd
