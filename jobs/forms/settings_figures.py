"""The parts of the settings that are figures: units, altitude, sums, years and days."""

from decimal import Decimal
from typing import Any

from django import forms

from diagnostics.physics.atmosphere import standard_pressure
from diagnostics.physics.errors import Malformed
from diagnostics.physics.shown_units import UNIT_CHOICES
from diagnostics.physics.typed import split
from diagnostics.physics.units import scaled, unit_named
from jobs.forms.fields import Tap, ToldForm, Typed
from jobs.models import Shop
from jobs.models.shop import HALVES, ROUNDINGS, SUNDRIES
from jobs.money import DECIMALS, NotAnAmount, millionths, minor, percent, plain

Columns = dict[str, Any]
# m and Pa where people repair cars; our judgement.
ALTITUDES, AIRS = (-450, 5_000), (50_000, 110_000)
AIR_UNITS = ("hPa", "kPa", "mbar", "inHg", "mmHg", "bar")


class PartForm(ToldForm):
    """One part of the settings. `columns` are those of the shop's row that it tells."""

    NAME = ""
    TITLE = ""

    def columns(self) -> Columns:
        """What a valid form tells of the shop."""
        return {name: self.cleaned_data[name] for name in self.fields}

    @classmethod
    def filled(cls, shop: Shop) -> Columns:
        """The form as the shop's row has it."""
        return {name: getattr(shop, name) for name in cls.base_fields}

    @classmethod
    def said(cls, shop: Shop) -> str:
        """What holds now, in one line."""
        raise NotImplementedError


class UnitsPart(PartForm):
    """The unit each quantity is asked and shown in."""

    NAME, TITLE = "units", "Units"
    LOCALS = {f"unit_{name}": name for name in UNIT_CHOICES}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field, name in self.LOCALS.items():
            one = UNIT_CHOICES[name]
            units = {unit: unit for unit in one.units}
            self.fields[field] = Tap(one.words, units, one.hint, required=True)

    def columns(self) -> Columns:
        """Only what is not the usual unit."""
        told = {name: self.cleaned_data[field] for field, name in self.LOCALS.items()}
        return {
            "units": {
                name: unit for name, unit in told.items() if unit != UNIT_CHOICES[name].units[0]
            }
        }

    @classmethod
    def filled(cls, shop: Shop) -> Columns:
        """The chosen unit of each, or the usual one."""
        return {
            field: shop.units.get(name, UNIT_CHOICES[name].units[0])
            for field, name in cls.LOCALS.items()
        }

    @classmethod
    def said(cls, shop: Shop) -> str:
        """All of them."""
        return ", ".join(cls.filled(shop).values())


class PlacePart(PartForm):
    """How hard the air presses where the shop stands."""

    NAME, TITLE = "place", "Altitude"
    altitude = Typed(
        "Altitude of the shop",
        "In m, or type ft behind it. Gauges read over the air’s pressure, which falls with it.",
    )
    air = Typed(
        "Or the air’s usual pressure",
        "As a barometer in the shop shows it, in hPa, or type kPa or inHg behind it. A weather"
        " report is brought to sea level and is not meant.",
    )
    altitude_m: int | None = None
    air_pa: int | None = None

    def clean(self) -> Columns:
        """One of the two, within what can be."""
        said = super().clean() or {}
        if said.get("altitude") and said.get("air"):
            self.add_error("air", "Type one of the two: altitude, or pressure.")
        elif said.get("altitude"):
            meters = self.read("altitude", ("m", "ft"), ALTITUDES, "−450 to 5 000 m")
            if meters is not None:
                self.altitude_m = round(meters)
                self.air_pa = round(standard_pressure(self.altitude_m).pa)
        elif said.get("air"):
            pascal = self.read("air", AIR_UNITS, AIRS, "500 to 1 100 hPa")
            self.air_pa = None if pascal is None else round(pascal)
        return said

    def read(
        self, name: str, units: tuple[str, ...], within: tuple[int, int], words: str
    ) -> float | None:
        """A number in SI, or None with a sentence at the field."""
        typed: str = self.cleaned_data[name]
        try:
            number, suffix = split(typed)
        except Malformed as wrong:
            self.add_error(name, str(wrong))
            return None
        unit = unit_named(suffix, units, "absolute") if suffix else units[0]
        if unit is None:
            self.add_error(name, f"“{typed}” is not in {' or '.join(units)}.")
            return None
        si = scaled(number, unit)
        if not within[0] <= si <= within[1]:
            self.add_error(name, f"A shop stands at {words}. Type it again, with its unit.")
            return None
        return si

    def columns(self) -> Columns:
        """The air's pressure, and the altitude where that was told."""
        return {"altitude_m": self.altitude_m, "air_pa": self.air_pa}

    @classmethod
    def filled(cls, shop: Shop) -> Columns:
        """Meters, or hPa where the pressure was told."""
        by_air = shop.air_pa is not None and shop.altitude_m is None
        hpa = f"{Decimal(shop.air_pa) / 100:f}" if by_air and shop.air_pa else ""
        return {"altitude": "" if shop.altitude_m is None else str(shop.altitude_m), "air": hpa}

    @classmethod
    def said(cls, shop: Shop) -> str:
        """Which of the two was told."""
        told = cls.filled(shop)
        if told["altitude"]:
            return f"{told['altitude'].replace('-', '−')}\u00a0m"
        return f"Air {told['air']}\u00a0hPa" if told["air"] else "Not set: sea level is taken"


class SumsPart(PartForm):
    """How taxes are rounded, and what small things cost that nobody counts."""

    NAME, TITLE = "sums", "Rounding and sundries"
    tax_rounding = Tap("Taxes are rounded", ROUNDINGS, required=True)
    tax_halves = Tap(
        "What becomes of a part of the smallest coin?",
        HALVES,
        "As required here; the program knows no law.",
        required=True,
    )
    sundries = Tap("Sundries", SUNDRIES, "Rags, grease, cable ties.", required=True)
    sundries_typed = Typed("How much?", "In money for an amount, in percent for a share.")
    currency = ""
    figure: int | None = None

    def clean(self) -> Columns:
        """Read the amount or the share."""
        said = super().clean() or {}
        typed, how = said.get("sundries_typed", ""), said.get("sundries")
        if how in ("amount", "percent") and not typed:
            self.add_error("sundries_typed", "How much? Type it, or tap None.")
        elif typed and how == "none":
            self.add_error("sundries_typed", "With None there is nothing to type.")
        elif typed and how:
            try:
                self.figure = self.read(typed, how)
            except NotAnAmount as wrong:
                self.add_error("sundries_typed", str(wrong))
        return said

    def read(self, typed: str, how: str) -> int:
        """Smallest units, or millionths."""
        if how == "percent":
            return millionths(typed)
        return minor(typed, currency_of_shop())

    def columns(self) -> Columns:
        """The figure stands where its kind belongs."""
        told = self.cleaned_data
        how = told["sundries"]
        return {
            "tax_rounding": told["tax_rounding"],
            "tax_halves": told["tax_halves"],
            "sundries": how,
            "sundries_minor": self.figure if how == "amount" else None,
            "sundries_millionths": self.figure if how == "percent" else None,
        }

    @classmethod
    def filled(cls, shop: Shop) -> Columns:
        """The figure as it was meant."""
        typed = ""
        if shop.sundries_minor is not None and shop.currency in DECIMALS:
            typed = plain(shop.sundries_minor, shop.currency)
        elif shop.sundries_millionths is not None:
            typed = percent(shop.sundries_millionths)
        names = ("tax_rounding", "tax_halves", "sundries")
        return {name: getattr(shop, name) for name in names} | {"sundries_typed": typed}

    @classmethod
    def said(cls, shop: Shop) -> str:
        """Both in a line."""
        told = cls.filled(shop)["sundries_typed"]
        sundries = {
            "none": "no sundries",
            "amount": f"sundries {told}\u00a0{shop.currency} a job",
            "percent": f"sundries {told}\u00a0% of the labor",
        }[shop.sundries]
        where = "on each line" if shop.tax_rounding == "line" else "once, on the total"
        return f"Taxes rounded {where}, {HALVES[shop.tax_halves].lower()}; {sundries}"


class KeepPart(PartForm):
    """How long records are kept, and what counts as a comeback."""

    NAME, TITLE = "keep", "Records and comebacks"
    record_years = Typed(
        "Records are kept", "As long as none is told, they are kept for good.", "years"
    )
    comeback_days = Typed(
        "A comeback is a car back within", "For the same complaint. Not told: not counted.", "days"
    )

    def clean_record_years(self) -> int | None:
        """Whole years."""
        return self.whole("record_years", 100, ("", "y", "yr", "year", "years"))

    def clean_comeback_days(self) -> int | None:
        """Whole days."""
        return self.whole("comeback_days", 3_650, ("", "d", "day", "days"))

    def whole(self, name: str, most: int, units: tuple[str, ...]) -> int | None:
        """A whole number from one to `most`."""
        typed: str = self.cleaned_data[name]
        if not typed:
            return None
        try:
            number, unit = split(typed)
        except Malformed as wrong:
            raise forms.ValidationError(str(wrong)) from None
        whole = number == number.to_integral_value()
        if unit.lower() not in units or not whole or not 1 <= number <= most:
            raise forms.ValidationError(f"Type a whole number from 1 to {most}, or leave it empty.")
        return int(number)

    @classmethod
    def said(cls, shop: Shop) -> str:
        """Both, or that they are not told."""
        years = f"{shop.record_years} years" if shop.record_years else "for good"
        days = f"{shop.comeback_days} days" if shop.comeback_days else "not set"
        return f"Kept {years}; comeback: {days}"


def currency_of_shop() -> str:
    """The currency in force.

    Raises:
        NotAnAmount: none is set.

    """
    shop = Shop.objects.first()
    if shop is None or shop.currency not in DECIMALS:
        raise NotAnAmount("The shop’s currency is not set yet.")
    return shop.currency
