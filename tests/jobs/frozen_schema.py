"""The schema of frozen data: the shapes of jobs.paper.frozen, and what a value of a name can be.

Held against the JSON as it was frozen, so that what is read back years later is what was meant.
"""

import re
import types
import uuid
from collections.abc import Callable, Iterator
from datetime import date, datetime
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints, is_typeddict

from diagnostics.physics.units import SI, UNITS
from jobs.money import DECIMALS
from jobs.paper.frozen import SCHEMA, RecordData


def is_time(value: Any) -> bool:
    """ISO 8601 with the zone's offset."""
    return datetime.fromisoformat(value).utcoffset() is not None


def is_day(value: Any) -> bool:
    """ISO 8601, a day alone."""
    return date.fromisoformat(value).isoformat() == value


def is_key(value: Any) -> bool:
    return str(uuid.UUID(value)) == value


def is_code(value: Any) -> bool:
    return bool(re.fullmatch(r"[A-Za-z0-9][\w-]*", value))


def optional(check: Callable[[Any], bool]) -> Callable[[Any], bool]:
    """Also empty or null: not known."""
    return lambda value: value in ("", None) or check(value)


def is_hash(value: Any) -> bool:
    return bool(re.fullmatch(r"[0-9a-f]{64}", value))


def is_whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value >= 0


def whole_or_null(value: Any) -> bool:
    return value is None or is_whole(value)


SI_UNITS = {*SI.values(), *UNITS, "1"}
# By the name under which a value stands, wherever that is.
RULES: dict[str, Callable[[Any], bool]] = {
    "schema": lambda value: value == SCHEMA,
    "replaced": optional(is_key),
    "seen_at": optional(is_time),
    "instrument": is_key,
    "sha256": is_hash,
    "shown": optional(is_hash),
    "place": optional(is_code),
    "about": optional(is_code),
    "currency": lambda value: value in DECIMALS,
    "unit": optional(lambda value: value in UNITS),
    "si_unit": optional(lambda value: value in SI_UNITS),
    "odometer_unit": lambda value: value in ("km", "mi", None),
}
SHARED_RULES: dict[str, Callable[[Any], bool]] = {
    "at arrived_at opened_at": is_time,
    "key job entry author": is_key,
    "kind role stage": is_code,
    "quantity": is_code,
    "valid_from": is_day,
    "valid_to checked_on until": optional(is_day),
    "question variable substance from_place to_place": is_code,
    "label_mg recovered_mg remainder_mg microliters": whole_or_null,
    "shop_months seller_months": whole_or_null,
    "code how_code about_code failing_now basis payer label_charge_source": optional(is_code),
    "coil_milliohm_source gap_source": optional(is_code),
    "drive displacement voltage switched_side expansion": optional(is_code),
    "odometer model_year label_charge_mg superseded_by": whole_or_null,
    "coil_milliohm gap_low_um gap_high_um smallest_units": whole_or_null,
    "version state tests issue points changes": is_whole,
}
RULES |= {name: rule for names, rule in SHARED_RULES.items() for name in names.split()}


def faults(data: Any) -> list[str]:
    """Where frozen data differ from the schema: path and what is wrong."""
    return [*shape_faults(data, RecordData, "record"), *rule_faults(data, "record")]


def shape_faults(value: Any, shape: Any, path: str) -> Iterator[str]:
    """Names that lack or are not known, values of another type."""
    origin, inner = get_origin(shape), get_args(shape)
    if is_typeddict(shape):
        yield from dict_faults(value, get_type_hints(shape), path)
    elif origin is list and isinstance(value, list):
        for at, one in enumerate(value):
            yield from shape_faults(one, inner[0], f"{path}[{at}]")
    elif origin is dict and isinstance(value, dict):
        for name, one in value.items():
            yield from shape_faults(one, inner[1], f"{path}.{name}")
    elif origin in (Union, types.UnionType):
        if all(list(shape_faults(value, one, path)) for one in inner):
            yield f"{path}: {value!r} is no {shape}"
    elif not is_a(value, shape):
        yield f"{path}: {value!r} is no {shape}"


def dict_faults(value: Any, names: dict[str, Any], path: str) -> Iterator[str]:
    """Of an object: exactly these names."""
    if not isinstance(value, dict):
        yield f"{path}: {value!r} is no object"
        return
    yield from (f"{path}.{name} lacks" for name in names.keys() - value.keys())
    yield from (f"{path}.{name} is not known" for name in value.keys() - names.keys())
    for name in names.keys() & value.keys():
        yield from shape_faults(value[name], names[name], f"{path}.{name}")


def is_a(value: Any, plain: Any) -> bool:
    """Of a plain type; a whole number is a float too, and true is no number."""
    if get_origin(plain) is Literal:
        return value in get_args(plain)
    if plain is float:
        return isinstance(value, int | float) and not isinstance(value, bool)
    if plain is int:
        return isinstance(value, int) and not isinstance(value, bool)
    return isinstance(plain, type) and isinstance(value, plain)


def rule_faults(value: Any, path: str) -> Iterator[str]:
    """Values that cannot stand under their name."""
    if isinstance(value, list):
        for at, one in enumerate(value):
            yield from rule_faults(one, f"{path}[{at}]")
    elif isinstance(value, dict):
        for name, one in value.items():
            if name in RULES and not holds(RULES[name], one):
                yield f"{path}.{name}: {one!r} cannot be"
            yield from rule_faults(one, f"{path}.{name}")


def holds(rule: Callable[[Any], bool], value: Any) -> bool:
    """A value that cannot be read at all does not hold either."""
    try:
        return rule(value)
    except (TypeError, ValueError, AttributeError):
        return False
