"""What a case must be like to be read, and what is said of one that is not."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any


class BadCase(ValueError):
    """A case that cannot be read; its text says where and why."""


def mapping(value: object, where: str) -> Mapping[str, Any]:
    """The value, if it is an object."""
    if not isinstance(value, Mapping):
        raise BadCase(f"{where} is no object with names and values.")
    return value


def listed(told: Mapping[str, Any], name: str) -> Sequence[Any]:
    """The list of that name; empty where it is left out."""
    value = told.get(name, [])
    if not isinstance(value, list):
        raise BadCase(f"{name} is no list.")
    return value


def text(told: Mapping[str, Any], name: str) -> str:
    """The text of that name; empty where it is left out."""
    value = told.get(name, "")
    if not isinstance(value, str):
        raise BadCase(f"{name} is {value!r}, and it is a text.")
    return value


def chosen(value: Any, allowed: Iterable[str], where: str) -> str:
    """The value, if it is one of those allowed."""
    codes = list(allowed)
    if value not in codes:
        can_be = ", ".join(code or "empty" for code in codes)
        raise BadCase(f"{where} is {value!r}; it can be {can_be}.")
    return str(value)


def unknown(told: Mapping[str, Any], allowed: Iterable[str], where: str) -> None:
    """Refuse a name that means nothing here: it would be left out in silence."""
    odd = [name for name in told if name not in {*allowed}]
    if odd:
        raise BadCase(f"{where} has {', '.join(odd)}; it can have {', '.join(allowed)}.")
