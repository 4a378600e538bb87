"""The prices of a case: what was typed on the job, whole numbers of the smallest unit of money."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields
from typing import Any, TypeVar, cast

from diagnostics.evidence.bad_case import BadCase, mapping, unknown
from diagnostics.evidence.options.costing import Asked, Figure, Terms
from diagnostics.evidence.options.lines import FLUIDS, OPERATIONS, PARTS
from diagnostics.evidence.options.prices import KINDS, PartPrice, Tax, Typed

SOURCES = ("", "new", "remanufactured", "used", "customer")
Value = TypeVar("Value")


def prices_of(told: Mapping[str, Any]) -> Asked:
    """What was typed on a job; what is left out was not typed, which is never zero.

    Raises:
        BadCase: something in it cannot be read.

    """
    unknown(told, ("typed", "terms", "figures"), "prices")
    typed = mapping(told.get("typed", {}), "prices.typed")
    unknown(typed, names(Typed), "prices.typed")
    return Asked(
        Typed(
            rate=whole(typed["rate"], "prices.typed.rate") if "rate" in typed else None,
            minutes=each(typed, "minutes", OPERATIONS, whole),
            parts=each(typed, "parts", PARTS, part),
            fluid_price=each(typed, "fluid_price", FLUIDS, whole),
            fluids=each(typed, "fluids", FLUIDS, whole),
            taxes=tuple(tax(one) for one in typed.get("taxes", [])),
        ),
        terms(mapping(told.get("terms", {}), "prices.terms")),
        tuple(figure(one) for one in told.get("figures", [])),
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
    on = told.get("on", [])
    if not isinstance(on, list) or not {*on} <= {*KINDS}:
        raise BadCase(f"prices.typed.taxes: on is {on!r}; it lists {', '.join(KINDS)}.")
    return Tax(whole(told.get("millionths"), "prices.typed.taxes.millionths"), tuple(on))


def terms(told: Mapping[str, Any]) -> Terms:
    """Who pays when the car comes back."""
    unknown(told, names(Terms), "prices.terms")
    found: dict[str, Any] = {}
    for name, value in told.items():
        where = f"prices.terms.{name}"
        if name.endswith("_months"):
            found[name] = whole(value, where)
        elif name == "shop_left":
            found[name] = bool(value)
        elif not isinstance(value, list) or not {*value} <= {*KINDS}:
            raise BadCase(f"{where} is {value!r}; it lists {', '.join(KINDS)}.")
        else:
            found[name] = tuple(value)
    return Terms(**found)


def figure(value: object) -> Figure:
    """How often one repair came due after another, counted or typed by the owner."""
    told = mapping(value, "prices.figures")
    unknown(told, names(Figure), "prices.figures")
    try:
        return Figure(**cast("dict[str, Any]", dict(told)))
    except TypeError as odd:
        raise BadCase(f"prices.figures: {odd}") from odd
