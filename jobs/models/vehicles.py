"""The car and its air conditioning as fitted."""

from decimal import Decimal

from django.db import models

from jobs.models.base import Keyed
from jobs.models.customers import Customer
from jobs.models.wordings import words

# Words by code, as data: a code not listed here is shown as it was typed.
DRIVES = {
    "belt_clutch": "Belt with magnetic clutch",
    "belt_clutchless": "Belt without clutch",
    "electric_hv": "Electric, high voltage",
    "electric_48": "Electric, 48\u00a0V class",
    "belt_electric": "Belt and electric",
}
WITH_HIGH_VOLTAGE = ("electric_hv", "belt_electric")
CLUTCHES = {"magnetic": "Yes, on the belt side", "none": "No"}
DISPLACEMENTS = {
    "fixed": "Fixed",
    "variable_inner": "Variable, valve inside",
    "variable_outer": "Variable, electrically driven valve",
    "speed": "By speed",
}
EXPANSIONS = {"valve": "Expansion valve", "orifice": "Orifice tube"}
VOLTAGES = {"12": "12\u00a0V", "24": "24\u00a0V"}
SWITCHED_SIDES = {"feed": "Feed side", "ground": "Ground side"}
REFRIGERANTS = {
    "R-134a": "R-134a",
    "R-1234yf": "R-1234yf",
    "R-12": "R-12",
    "R-744": "R-744 (CO₂)",
    "R-152a": "R-152a",
    "other": "Other",
}
CHARGE_SOURCES = {
    "label": "Under-hood label",
    "workshop_data": "Workshop data",
    "customer": "Told by the customer",
    "guess": "Not sure",
}
FIGURE_SOURCES = {name: CHARGE_SOURCES[name] for name in ("workshop_data", "label", "guess")}
BRANCHES = {"front": "Front", "rear": "Rear", "battery": "Battery chiller"}


class Vehicle(Keyed):
    """A car. Plate and VIN are kept as read; what is odd about the VIN is a mark beside it."""

    customer = models.ForeignKey(Customer, models.PROTECT, related_name="vehicles")
    plate = models.CharField(max_length=40)
    vin = models.CharField(max_length=40, blank=True)
    vin_mark = models.CharField(max_length=200, blank=True)
    make_model = models.CharField(max_length=120, blank=True)
    model_year = models.PositiveSmallIntegerField(null=True, blank=True)
    merged_into = models.ForeignKey("self", models.PROTECT, null=True, blank=True)

    def __str__(self) -> str:
        return self.plate

    @property
    def words(self) -> str:
        """Make, model and year, as far as they are noted."""
        return ", ".join(str(part) for part in (self.make_model, self.model_year) if part)


class System(Keyed):
    """The A/C as fitted. An empty text means nobody looked yet.

    `clutch` is asked where the drive does not say it: belt and electric.
    Refrigerant in whole milligrams, oil in whole microlitres; `sources` says for each field where
    the figure was read ({field: code of CHARGE_SOURCES}).
    """

    vehicle = models.OneToOneField(Vehicle, models.PROTECT, related_name="system")
    drive = models.CharField(max_length=30, blank=True)
    clutch = models.CharField(max_length=20, blank=True)
    displacement = models.CharField(max_length=30, blank=True)
    voltage = models.CharField(max_length=10, blank=True)
    switched_side = models.CharField(max_length=20, blank=True)
    refrigerant = models.CharField(max_length=20, blank=True)
    label_charge_mg = models.PositiveBigIntegerField(null=True, blank=True)
    oil_name = models.CharField(max_length=60, blank=True)
    label_oil_ul = models.PositiveBigIntegerField(null=True, blank=True)
    branches = models.JSONField(default=list)
    expansion = models.CharField(max_length=20, blank=True, default="")
    coil_milliohm = models.PositiveIntegerField(null=True, blank=True)
    # The vehicle's own limits of the clutch's air gap, both or none.
    gap_low_um = models.PositiveIntegerField(null=True, blank=True)
    gap_high_um = models.PositiveIntegerField(null=True, blank=True)
    sources = models.JSONField(default=dict)

    def __str__(self) -> str:
        return f"A/C of {self.vehicle_id}"

    def read_from(self, figure: str) -> str:
        """Where a figure was read, in words; empty: not noted."""
        return words(CHARGE_SOURCES, self.sources.get(figure, "")).lower()


def shown_ohm(milliohm: int) -> str:
    """Milliohm as ohm, exact, without closing zeros."""
    return f"{Decimal(milliohm) / 1000:f}"


def shown_mm(um: int) -> str:
    """Whole micrometers as millimeters, exact, without closing zeros."""
    return f"{Decimal(um) / 1000:f}"
