"""Two rows that are one: what the one that stays lacks is filled, what differs waits for a person.

The value that stands stays; the other one is kept in a mark, as where two people told a field
differently (jobs/models/conflicts.py). Of what can hurt, the more dangerous value stands until a
person settles it: what must come first is asked for by it.
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
# The values that can hurt, the worst first; all others come after. Our judgement: high voltage
# before a belt, an unknown gas before one under high pressure before those that burn.
WORST = {
    "drive": ("belt_electric", "electric_hv", "electric_48"),
    "refrigerant": ("other", "R-744", "R-152a", "R-1234yf"),
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
    differs = {name: value for name, value in told.items() if name not in lacks}
    differs.pop("vin_mark", None)
    for name in [name for name in differs if is_worse(name, differs[name], getattr(row, name))]:
        stood = getattr(row, name)
        setattr(row, name, differs[name])
        differs[name] = stood
    row.save()
    asked = Held(entry, Showing({}, NAMED, {}), ()).conflicts(row, differs)
    return [mark for mark in asked.values() if mark]


def is_worse(name: str, value: Any, stands: Any) -> bool:
    """Whether a value can hurt more than the one that stands."""
    worst = WORST.get(name, ())
    return value in worst and worst.index(value) < (
        worst.index(stands) if stands in worst else len(worst)
    )
