"""Which instruments a step was read with: keys of the shop's list, one for each quantity."""

from typing import Any

from django import forms

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.read_with import quantities_of
from diagnostics.models import TOLD, Step
from diagnostics.physics.quantities import QUANTITIES
from jobs.models import Equipment
from jobs.told import as_key

WITH = "with_"
NOT_NAMED = "none"  # tapped; a field left out says the same
NO_SUCH = f"Read with “{TOLD}”: the shop’s list has no such instrument; kept as told."


class ReadWithField(forms.CharField):
    """The key of an instrument. Whatever a page told is taken: one that is not listed is marked."""

    def __init__(self, quantity: str) -> None:
        super().__init__(label=QUANTITIES[quantity].used_words, required=False, max_length=100)


def read_with_fields(kind: Kind) -> dict[str, forms.Field]:
    """The fields of a kind's form, by name."""
    return {f"{WITH}{name}": ReadWithField(name) for name in quantities_of(kind)}


def named_in(kind: Kind, said: dict[str, Any]) -> tuple[dict[str, Equipment], list[dict[str, str]]]:
    """The instruments named, by quantity, and marks of those that the list does not have."""
    told = {name: said.get(f"{WITH}{name}", "") for name in quantities_of(kind)}
    told = {name: text for name, text in told.items() if text not in ("", NOT_NAMED)}
    if not told:
        return {}, []
    keys = {name: key for name, text in told.items() if (key := as_key(text))}
    rows = {row.key: row for row in Equipment.objects.filter(key__in=keys.values())}
    named = {name: rows[key] for name, key in keys.items() if key in rows}
    marks = [
        {
            "field": f"{WITH}{name}",
            "code": "unknown_instrument",
            "sentence": NO_SUCH,
            "told": text,
            "why": "",
        }
        for name, text in told.items()
        if name not in named
    ]
    return named, marks


def typed_in_with(step: Step) -> dict[str, str]:
    """What a step was read with, to begin its correction with."""
    return {f"{WITH}{one.quantity}": one.equipment.key.hex for one in step.named.all()}
