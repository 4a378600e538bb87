"""What the shop set that tests are told by: its units, its air, and a kind in these units."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from functools import lru_cache
from typing import Any

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.in_units import told_in
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.system import System
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.units import shown, with_unit
from jobs.models import ShopChange


@dataclass(frozen=True)
class ShopTold:
    """What the shop set that tests are read by: its units now, and its air with when that began.

    A change of the air moves no step made before it.
    """

    units: ShownIn = field(default_factory=ShownIn)
    places: tuple[tuple[datetime, Mapping[str, Any]], ...] = ()

    def around(
        self, system: System, failing: str = "", moment: datetime | None = None
    ) -> Circumstances:
        """What a test made then is read against; without a moment, one made now."""
        told = [place for begun, place in self.places if moment is None or begun <= moment]
        if not told or not told[-1]["air_pa"]:
            return Circumstances(system, failing, units=self.units)
        air, altitude = Absolute(told[-1]["air_pa"]), told[-1]["altitude_m"]
        high = f": {with_unit(shown(altitude, 0), 'm')} above sea level" if altitude else ""
        return Circumstances(system, failing, air, f"shop’s setting{high}", self.units)


def shop_told() -> ShopTold:
    """The shop's settings, in one query."""
    told = ShopChange.objects.filter(part__in=("units", "place")).order_by("from_at", "id")
    units, places = ShownIn(), []
    for part, values, begun in told.values_list("part", "values", "from_at"):
        if part == "units":
            units = ShownIn(values["units"])
        else:
            places.append((begun, values))
    return ShopTold(units, tuple(places))


def kind_told(name: str, units: ShownIn) -> Kind | None:
    """A kind with its sentences in these units, or None."""
    kind = KINDS.get(name)
    chosen = tuple(sorted(units.chosen.items()))
    return _kind_told(id(kind), name, chosen) if kind and chosen else kind


@lru_cache(maxsize=256)
def _kind_told(_which: int, name: str, chosen: tuple[tuple[str, str], ...]) -> Kind:
    return told_in(KINDS[name], ShownIn(dict(chosen)))
