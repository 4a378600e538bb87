"""Prices and taxes as they are typed: one line of a list at a time."""

from decimal import Decimal
from typing import Any

from django import forms

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from jobs.forms.fields import Line, Tap, Taps, ToldForm, Typed
from jobs.forms.settings_figures import currency_of_shop
from jobs.models import Price, Tax
from jobs.models.prices import TAXED, UNITS, WHAT
from jobs.money import DECIMALS, NotAnAmount, millionths, minor, percent, plain

MINUTES_MOST = 100 * 60
NO_WHAT = "The shop server knows no such price."
PRICE_LABELS = {"labor": "Price of an hour", "operation": "Fixed price"}
PRICE_HINTS = {
    "operation": "Without tax. Left empty, it costs its hours at a labor rate.",
    "refrigerant": "Without tax. Where a gram costs parts of a coin, give the price of a kilogram.",
}


class ListedForm(ToldForm):
    """What every line of a list has: which one it changes, if any, and whether it ends."""

    line = forms.UUIDField(required=False, widget=forms.HiddenInput)
    seen = forms.UUIDField(required=False, widget=forms.HiddenInput)
    ends = forms.CharField(required=False, max_length=3, widget=forms.HiddenInput)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.ending:
            for name in set(self.fields) - set(ListedForm.base_fields):
                del self.fields[name]

    @property
    def ending(self) -> bool:
        """Whether it only ends a line."""
        return bool(self.is_bound and self.data.get("ends") and self.data.get("line"))

    def columns(self) -> dict[str, Any]:
        """What a valid form tells of the row."""
        raise NotImplementedError


class PriceForm(ListedForm):
    """One price; what it is of decides what is asked."""

    field_order = ("what", "name", "part_number", "hours", "price", "unit")
    what = forms.ChoiceField(
        choices=list(WHAT.items()),
        widget=forms.HiddenInput,
        error_messages={"required": NO_WHAT, "invalid_choice": NO_WHAT},
    )
    name = Line(
        120,
        "Name",
        "As it stands on an estimate.",
        required=True,
        error_messages={"required": "Type what it is called."},
    )
    part_number = Line(60, "Part number", "If it has one.")
    hours = Typed(
        "How long does it take?",
        "In hours, or type min behind it.",
        "h",
        required=True,
        error_messages={"required": "How long does it take? Type its hours."},
    )
    price = Typed("Price", "Without tax.")
    unit = Tap("For one", {})
    amount: int | None = None
    minutes: int | None = None
    currency = ""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        told = self.data if self.is_bound else self.initial
        what = str(told.get("what", ""))
        if "what" in self.fields and (what in WHAT or not self.is_bound):
            self.narrow(what)  # of what is no price all that was typed is shown again

    def narrow(self, what: str) -> None:
        """Ask only what such a price has."""
        fits = UNITS.get(what, {})
        if what != "operation":
            del self.fields["hours"]
        if what != "part":
            del self.fields["part_number"]
        if len(fits) < 2:
            del self.fields["unit"]
        else:
            self.fields["unit"] = Tap("For one", fits, required=True)
            if what == "part":
                self.initial = {"unit": "piece", **self.initial}  # most parts are sold so
        try:
            self.currency = currency_of_shop()
        except NotAnAmount:
            self.currency = ""
        price = self.fields["price"]
        price.unit = self.currency  # type: ignore[attr-defined]
        price.label = PRICE_LABELS.get(what, "Price")
        price.help_text = PRICE_HINTS.get(what, "Without tax.")

    def clean(self) -> dict[str, Any]:
        """Read price and hours."""
        said = super().clean() or {}
        if "what" in self.errors:
            self.add_error(None, NO_WHAT)
        if self.ending or "what" in self.errors:
            return said
        if said.get("price"):
            self.amount = self.read("price", said["price"], self.money)
        elif said["what"] != "operation" and "price" not in self.errors:
            self.add_error("price", "Type the price; 0 if it costs nothing.")
        if said.get("hours"):
            self.minutes = self.read("hours", said["hours"], minutes)
        return said

    def read(self, name: str, typed: str, how: Any) -> int | None:
        """A whole number by `how`, or None with a sentence at the field."""
        try:
            return int(how(typed))
        except NotAnAmount as wrong:
            self.add_error(name, str(wrong))
            return None

    def money(self, typed: str) -> int:
        """Smallest units of the shop's currency."""
        return minor(typed, currency_of_shop())

    def columns(self) -> dict[str, Any]:
        """The row."""
        told = self.cleaned_data
        return {
            "what": told["what"],
            "name": told["name"],
            "part_number": told.get("part_number", ""),
            "unit": told.get("unit") or next(iter(UNITS[told["what"]])),
            "amount": self.amount,
            "currency": self.currency,
            "minutes": self.minutes,
        }

    @staticmethod
    def filled(price: Price) -> dict[str, Any]:
        """A price as it was typed."""
        amount = ""
        if price.amount is not None and price.currency in DECIMALS:
            amount = plain(price.amount, price.currency)
        hours = "" if price.minutes is None else hours_words(price.minutes)
        return {name: getattr(price, name) for name in ("what", "name", "part_number", "unit")} | {
            "price": amount,
            "hours": hours,
        }


class TaxForm(ListedForm):
    """One tax."""

    field_order = ("name", "share", "taken_on")
    name = Line(
        120,
        "Name of the tax",
        "As it is printed.",
        required=True,
        error_messages={"required": "Type what the tax is called."},
    )
    share = Typed(
        "How much?",
        "Such as 8.25; a comma does as well.",
        "%",
        required=True,
        error_messages={"required": "Type the percent; 0 if there is none."},
    )
    taken_on = Taps("Taken on", TAXED)
    millionths: int | None = None

    def clean(self) -> dict[str, Any]:
        """Read the percent, exact."""
        said = super().clean() or {}
        if self.ending:
            return said
        if said.get("share"):
            try:
                self.millionths = millionths(said["share"])
            except NotAnAmount as wrong:
                self.add_error("share", str(wrong))
        if not said.get("taken_on") and "taken_on" not in self.errors:
            self.add_error("taken_on", "Tap what it is taken on.")
        return said

    def columns(self) -> dict[str, Any]:
        """The row."""
        told = self.cleaned_data
        return {
            "name": told["name"],
            "millionths": self.millionths,
            "taken_on": [code for code in TAXED if code in told["taken_on"]],
        }

    @staticmethod
    def filled(tax: Tax) -> dict[str, Any]:
        """A tax as it was typed."""
        return {"name": tax.name, "share": percent(tax.millionths), "taken_on": tax.taken_on}


def minutes(typed: str) -> int:
    """Whole minutes of hours as typed, `0.75`, `45 min`.

    Raises:
        NotAnAmount: no number, not whole minutes, or longer than a hundred hours.

    """
    try:
        number, unit = split(typed)
    except Malformed as wrong:
        raise NotAnAmount(str(wrong)) from None
    factors = {"": 60, "h": 60, "hr": 60, "hours": 60, "hour": 60, "min": 1, "minutes": 1}
    if unit.lower() not in factors:
        raise NotAnAmount("Type hours, or minutes with min behind them.")
    found = number * factors[unit.lower()]
    if not 0 < found <= MINUTES_MOST:
        raise NotAnAmount("An operation takes more than nothing, and up to 100 hours.")
    if found != found.to_integral_value():
        raise NotAnAmount("Type it so that it comes out in whole minutes, such as 0.75 or 45 min.")
    return int(found)


def hours_words(count: int) -> str:
    """Minutes as hours where they come out, else as minutes."""
    if count * 100 % 60:
        return f"{count} min"
    number = Decimal(count) / 60
    return f"{number:f}".rstrip("0").rstrip(".") if count % 60 else str(count // 60)
