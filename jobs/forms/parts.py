"""The parts of which intake and the pages about customer, car and system are made."""

from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from django import forms
from django.utils import timezone

from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.typed import Unreadable, split
from jobs import ledger, vin
from jobs.forms.fields import EntryForm, Line, Tap, Taps, Typed, Why
from jobs.models.vehicles import (
    BRANCHES,
    CHARGE_SOURCES,
    CLUTCHES,
    DISPLACEMENTS,
    DRIVES,
    REFRIGERANTS,
    SWITCHED_SIDES,
    VOLTAGES,
)

NAME_MISSING = "Who brought it? If nobody knows the name, type what is known, such as “towed in”."
PLATE_MISSING = "Type the plate. A car without one: the last six of its VIN."
# What passenger cars, vans and trucks' cabs are labeled with. Our judgement, no source.
CHARGE_LOW_MG, CHARGE_HIGH_MG = 150_000, 3_000_000
OLDEST_YEAR = 1930  # the first cars with air conditioning came later
ODOMETER_HIGH = 1_500_000  # km or mi; our judgement
ODOMETER_UNITS = {"km": "km", "mi": "mi"}
ODOMETER_COLUMN = 10**12  # from here on, and below zero, it is kept as typed in the logbook alone
YEAR_COLUMN = range(1, 32_768)


@dataclass(frozen=True)
class Odd:
    """What is odd about a number: a code of jobs.models.marks.ODD with the figures it names."""

    code: str
    figures: dict[str, int | str] = field(default_factory=dict)


TWO_WAYS = "“{}” has a mark that can be read in two ways. Leave it out."
NO_THOUSANDS = "“{}” has a mark before three digits that cannot part thousands. Leave it out."
COMMAS_AS_POINTS = str.maketrans(dict.fromkeys(",\uff0c\u060c", "."))


class CustomerPart(EntryForm):
    """Who brings the car."""

    customer_name = Line(
        200,
        "Customer",
        "May be short. If nobody knows the name, type what is known, such as “towed in”.",
        required=True,
        error_messages={"required": NAME_MISSING},
    )
    phone = Line(60, "Phone", widget=forms.TextInput({"inputmode": "tel"}))


class CarPart(EntryForm):
    """Which car."""

    plate = Line(
        40,
        "Plate",
        "As it stands on the car.",
        required=True,
        error_messages={"required": PLATE_MISSING},
        widget=forms.TextInput({"autocapitalize": "characters", "spellcheck": "false"}),
    )
    make_model = Line(120, "Make and model")
    model_year = Typed("Model year", number=False, widget=forms.TextInput({"inputmode": "numeric"}))
    model_year_why = Why()
    vin = Line(
        40,
        "VIN",
        "17 characters, no I, O or Q. Kept as you read it.",
        widget=forms.TextInput(
            {"autocapitalize": "characters", "spellcheck": "false", "data-vin": ""}
        ),
    )
    odometer = Typed("Odometer", widget=forms.TextInput({"inputmode": "numeric"}))
    odometer_why = Why()
    odometer_unit = Tap("Odometer reads", ODOMETER_UNITS)
    year: int | None = None
    odometer_read: int | None = None

    def clean(self) -> dict[str, Any]:
        """Read year and odometer."""
        said = super().clean() or {}
        self.year = self.whole("model_year", year_odd)
        if self.year not in YEAR_COLUMN:
            self.year = None
        read = self.whole("odometer", odometer_odd)
        fits = read is not None and 0 <= read < ODOMETER_COLUMN
        self.odometer_read = read if fits else None
        return said

    def whole(self, name: str, odd: Callable[[Decimal], Odd | None]) -> int | None:
        """A whole number from a text field; `odd(number)` says what is odd about it, or nothing."""
        typed = self.cleaned_data.get(name, "")
        if not typed:
            return None
        try:
            number, unit = as_odometer(typed) if name == "odometer" else split(typed)
        except Malformed as wrong:
            two_ways = getattr(wrong, "code", "") == "two_ways"
            self.add_error(name, TWO_WAYS.format(typed) if two_ways else str(wrong))
            return None
        units = ODOMETER_UNITS if name == "odometer" else {}
        if unit.lower() in units:
            self.cleaned_data["odometer_unit"] = unit.lower()
        elif unit:
            self.add_error(name, f"“{typed}” has something behind the number. Type digits alone.")
            return None
        if number.as_tuple().exponent == -3:  # neither has thousandths
            says = NO_THOUSANDS if name == "odometer" else TWO_WAYS
            self.add_error(name, says.format(typed))
            return None
        found = odd(number)
        if found:
            self.asks(name, found.code, **found.figures)
        return int(number)

    def car(self) -> dict[str, Any]:
        """The car as a row has it: the VIN as read, with what is odd about it beside."""
        told = self.cleaned_data
        return {
            "plate": told["plate"],
            "vin": told["vin"],
            "vin_mark": vin.mark(told["vin"]),
            "make_model": told["make_model"],
            "model_year": self.year,
        }

    @property
    def odometer_columns(self) -> dict[str, Any]:
        """The odometer as a row has it; without a reading there is no unit."""
        unit = "" if self.odometer_read is None else self.cleaned_data["odometer_unit"]
        return {"odometer": self.odometer_read, "odometer_unit": unit}


def as_odometer(typed: str) -> tuple[Decimal, str]:
    """The reading and the unit behind it; one mark before exactly three digits parts thousands.

    No odometer has thousandths, so 143.210 and 143,210 are the same as 143 210.

    Raises:
        Unreadable: no number.

    """
    try:
        number, unit = split(typed)
    except Unreadable as wrong:
        if wrong.code != "two_ways":
            raise
        number, unit = split(typed.translate(COMMAS_AS_POINTS))
    parts_thousands = number.as_tuple().exponent == -3 and 1 <= abs(number) < 1000
    return (number.scaleb(3) if parts_thousands else number), unit


def year_odd(number: Decimal) -> Odd | None:
    """What is odd about a model year."""
    newest = timezone.localdate().year + 1  # next year's models are sold now
    if number != int(number) or not OLDEST_YEAR <= number <= newest:
        return Odd("year_out", {"oldest": OLDEST_YEAR, "newest": newest})
    return None


def odometer_odd(number: Decimal) -> Odd | None:
    """What is odd about an odometer's reading."""
    if number < 0:
        return Odd("odometer_below_zero")
    return Odd("odometer_beyond") if number > ODOMETER_HIGH else None


class SystemPart(EntryForm):
    """The A/C as fitted, as far as somebody looked."""

    drive = Tap("How is the compressor driven?", DRIVES, "Decides which steps can be made.")
    clutch = Tap(
        "Is there a magnetic clutch?", CLUTCHES, "Belt and electric: some have one at the pulley."
    )
    displacement = Tap("Displacement", DISPLACEMENTS)
    voltage = Tap("System voltage", VOLTAGES)
    switched_side = Tap("Clutch switched on which side?", SWITCHED_SIDES)
    refrigerant = Tap("Refrigerant", REFRIGERANTS, "As the label says.")
    label_charge = Typed("Label charge", "With every branch that is fitted.")
    label_charge_why = Why()
    label_charge_unit = Tap("Unit of the label charge", {unit: unit for unit in ledger.MASS_UNITS})
    label_charge_source = Tap("Read from", CHARGE_SOURCES)
    branches = Taps("Branches", BRANCHES, "Each has its own expansion device.")
    charge_mg: int | None = None

    def clean(self) -> dict[str, Any]:
        """Read the label charge."""
        said = super().clean() or {}
        if said.get("label_charge"):
            self.charge_mg = self.charge(said["label_charge"], said.get("label_charge_unit", ""))
        return said

    def charge(self, typed: str, unit: str) -> int | None:
        """The label charge in milligrams; None when it is no number, or cannot be."""
        try:
            read = ledger.mass(typed, unit)
        except Malformed as wrong:
            no_unit = not unit and typed[-1:].isdigit()
            self.add_error("label_charge", NO_UNIT if no_unit else str(wrong))
            return None
        except Impossible:
            below = split(typed)[0] < 0
            self.asks("label_charge", "mass_below_zero" if below else "mass_beyond")
            return None
        if read.mg < CHARGE_LOW_MG:
            self.asks("label_charge", "charge_low", mg=read.mg, unit=read.unit)
        elif read.mg > CHARGE_HIGH_MG:
            self.asks("label_charge", "charge_high", mg=read.mg, unit=read.unit)
        return read.mg

    def system(self) -> dict[str, Any]:
        """The A/C as a row has it."""
        told = self.cleaned_data
        source = told["label_charge_source"]
        return {name: told[name] for name in AS_TAPPED} | {
            "label_charge_mg": self.charge_mg,
            "sources": {"label_charge": source} if source else {},
        }


# Columns of the A/C that hold what was tapped.
AS_TAPPED = (
    "drive",
    "clutch",
    "displacement",
    "voltage",
    "switched_side",
    "refrigerant",
    "branches",
)
NO_UNIT = "Tap the unit: g, kg, oz or lb."
