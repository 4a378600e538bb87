"""Two rows that are one: what the one that stays lacks is filled, what differs waits for a person.

The value that stands stays; the other one is kept in a mark, as where two people told a field
differently (jobs/models/conflicts.py).
"""

from collections.abc import Mapping
from typing import Any

from jobs.actions.conflicts import Held
from jobs.models import Entry
from jobs.models.said import EMPTY
from jobs.told import Mark, Showing

# The columns that name no value of their own: they go with another.
GOES_WITH = {"vin_mark": "vin", "gap_high_um": "gap_low_um"}
FIGURES = {"label_charge": "label_charge_mg", "coil_milliohm": "coil_milliohm", "gap": "gap_low_um"}
# The fields in which columns of customer, car and system are told.
NAMED = {
    "name": "customer_name",
    "vin_mark": "vin",
    "label_charge_mg": "label_charge",
    "coil_milliohm": "coil",
    "gap_low_um": "gap_low",
    "gap_high_um": "gap_low",
}


def take_over(entry: Entry, row: Any, values: Mapping[str, Any]) -> list[Mark]:
    """Fill the row and save it; the marks that ask about what differs."""
    told = {name: value for name, value in values.items() if value not in EMPTY}
    sources = told.pop("sources", {})
    lacks = {name for name in told if getattr(row, GOES_WITH.get(name, name)) in EMPTY}
    for name in lacks:
        setattr(row, name, told[name])
    new = {figure: code for figure, code in sources.items() if FIGURES.get(figure) in lacks}
    if new:
        row.sources = {**row.sources, **new}
    row.save()
    differs = {name: value for name, value in told.items() if name not in lacks}
    differs.pop("vin_mark", None)
    asked = Held(entry, Showing({}, NAMED, {}), ()).conflicts(row, differs)
    return [mark for mark in asked.values() if mark]
