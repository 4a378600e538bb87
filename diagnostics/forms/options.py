"""What is typed of one job on its options: hours, prices, amounts, terms; empty is not typed."""

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from diagnostics.evidence.options.lines import FLUIDS, OPERATIONS, PARTS
from diagnostics.evidence.options.repairs import OPTIONS
from diagnostics.evidence.readings import parse
from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.typed import split
from diagnostics.price_sheet import (
    AMOUNT,
    ASIDE,
    FIGURE,
    HOURS,
    PART,
    PAYS,
    PRICE,
    RATE,
    SOURCE,
    Sheet,
    amount_unit,
)
from diagnostics.told import PricesTold
from jobs import ledger
from jobs.forms.fields import Line, OnJob, Tap, Taps, Typed
from jobs.forms.prices import hours_words, minutes
from jobs.forms.settings_figures import currency_of_shop
from jobs.logbook import Told
from jobs.models.changes import SOURCES
from jobs.models.people import OWNER
from jobs.money import DECIMALS, NotAnAmount, minor, plain
from jobs.told import WAS, one_line

NOTHING_TYPED = "Nothing new is typed yet."
NOT_WHOLE = "Type whole months, or years with “years” behind them, such as 18 or 3 years."
TOO_LONG_A_TIME = "Nobody plans 50 years with a car. Type months, or years."
MONTHS_MOST = 600
MONTHS = {
    "": 1,
    "m": 1,
    "mo": 1,
    "month": 1,
    "months": 1,
    "y": 12,
    "yr": 12,
    "year": 12,
    "years": 12,
}
COUNT_MOST = 100_000
NO_COUNT = "Type a whole number."
MORE_THAN_ALL = "That is more than all of them. Type both again."
FIGURE_WHOLE = "Type both numbers and where they come from."
OWNERS_FIGURE = "The shop’s own figure is the owner’s to type."
NO_SUCH_AMOUNT = "Nothing in a car’s loop holds that much. Type it again."
AMOUNT_MOST = 100_000_000  # mg or µL: 100 kg
YES_NO = {"yes": "Yes", "no": "No"}


def field_of(name: str, currency: str) -> forms.Field | None:
    """The field of that name; None: no form of ours has such a one."""
    if name in FIXED:
        return FIXED[name](currency)
    for start, (table, made) in GROUPS.items():
        code = name.removeprefix(start)
        if name.startswith(start) and code in table:
            return made(table[code], currency)
    return None


FIXED: Mapping[str, Callable[[str], forms.Field]] = {
    RATE: lambda currency: Typed("Price of an hour", "Without tax.", currency),
    "keep_months": lambda _c: Typed(
        "How long does the customer mean to keep the car?",
        "In months, or years with “years” behind them.", "months", number=False,
    ),
    "shop_months": lambda _c: Typed("The shop’s warranty", "Months.", "months", number=False),
    "shop_pays": lambda _c: Taps("In it the shop pays", PAYS),
    "shop_left": lambda _c: Tap("Also for what the repair left in?", YES_NO),
    "seller_months": lambda _c: Typed("The part seller’s", "Months.", "months", number=False),
    "seller_pays": lambda _c: Taps("In it the seller pays", PAYS),
    "figure_came": lambda _c: Typed("It came due", "Of so many jobs.", "times", number=False),
    "figure_of": lambda _c: Typed("Of how many jobs?", "", "jobs", number=False),
    "figure_basis": lambda _c: Line(200, "Where do the two numbers come from?"),
    "figure_pair": lambda _c: forms.CharField(
        required=False, max_length=100, widget=forms.HiddenInput
    ),
}  # fmt: skip
GROUPS: Mapping[str, tuple[Mapping[str, Any], Callable[[Any, str], forms.Field]]] = {
    HOURS: (OPERATIONS, lambda one, _c: Typed(one.words, "", "h")),
    PART: (PARTS, lambda one, currency: Typed(one.words, "", currency)),
    SOURCE: (PARTS, lambda one, _c: source_of(one.words)),
    PRICE: (
        FLUIDS,
        lambda one, currency: Typed(
            f"{one.words}: price of {'a kilogram' if one.unit == 'kg' else 'a liter'}", "",
            currency,
        ),
    ),
    AMOUNT: (
        FLUIDS,
        lambda one, _c: Typed(f"{one.words}: how much", "", amount_unit(one.code)),
    ),
    ASIDE: (OPTIONS, lambda one, _c: Line(200, one.words)),
}  # fmt: skip


def source_of(words: str) -> forms.ChoiceField:
    """Which part is priced, as a list that opens: four buttons a part would fill the page."""
    choices = [("", "Not said"), *SOURCES.items()]
    field = forms.ChoiceField(label=f"{words}: which", choices=choices, required=False)
    field.error_messages["invalid_choice"] = "This answer is not in the list. Choose one of those."
    return field


class OptionsForm(OnJob):
    """Whatever fields were sent or are asked; one that was not changed tells nothing."""

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        ask: Iterable[str] = (),
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        try:
            self.currency = currency_of_shop()
        except NotAnAmount:
            self.currency = ""
        self.values: dict[str, Any] = {}
        sent = [name.removeprefix(WAS) for name in data or ()]
        whole = FIGURE if {*FIGURE} & {*sent} else ()  # its parts are asked together
        self.ask([*ask, *sent, *whole])

    def ask(self, names: Iterable[str]) -> None:
        """Put in the fields of these names that are not in it yet."""
        for name in names:
            field = None if name in self.fields else field_of(name, self.currency)
            if field:
                self.fields[name] = field
                self.fields[f"{WAS}{name}"] = forms.CharField(
                    required=False, max_length=400, widget=forms.HiddenInput
                )

    def typed_fields(self) -> list[str]:
        """The names of the fields in which something came."""
        return [name for name in self.fields if self.data.get(name)]

    def clean(self) -> dict[str, Any]:
        """Read what is new."""
        said = super().clean()
        for name in list(self.fields):
            if f"{WAS}{name}" in self.fields and name not in self.errors:
                self.read(name, said)
        if not self.values and not self.errors:
            self.add_error(None, NOTHING_TYPED)
        self.own_figure(said)
        return said

    def read(self, name: str, said: Mapping[str, Any]) -> None:
        """One field, if it is another than when the page was opened."""
        typed, was = as_text(said.get(name)), as_text(said.get(f"{WAS}{name}"))
        if typed == was:
            return
        if not typed:
            self.values[name] = None
            return
        try:
            self.values[name] = self.value(name, said[name])
        except (NotAnAmount, Malformed, Impossible) as wrong:
            self.add_error(name, str(wrong))

    def value(self, name: str, typed: Any) -> Any:
        """What was typed as a row keeps it.

        Raises:
            NotAnAmount, Malformed, Impossible: it cannot be; with a sentence for the field.

        """
        if name.startswith((RATE, PART, PRICE)):
            return minor(typed, currency_of_shop())
        if name.startswith(HOURS):
            return minutes(typed)
        if name.startswith(AMOUNT):
            return amount(typed, amount_unit(name.removeprefix(AMOUNT)))
        if name.endswith("_months"):
            return months(typed)
        return count(typed) if name in ("figure_came", "figure_of") else typed

    def own_figure(self, said: Mapping[str, Any]) -> None:
        """The owner's figure is whole, and the owner's."""
        told = [name for name in FIGURE[:3] if name in self.values]
        if not told or self.errors:
            return
        if self.entry_told and self.entry_told.author.role != OWNER:
            self.add_error(told[0], OWNERS_FIGURE)
            return
        typed = [as_text(said.get(name)) for name in FIGURE[:3]]
        if any(typed) and not all(typed):
            self.add_error(FIGURE[typed.index("")], FIGURE_WHOLE)
        elif all(typed) and count(typed[0]) > count(typed[1]):
            self.add_error("figure_came", MORE_THAN_ALL)

    def told(self) -> PricesTold:
        """What is new, as rows keep it."""
        return PricesTold(self.currency or "-", self.values)


def as_text(value: Any) -> str:
    """A field's answer as one text."""
    return one_line(",".join(value) if isinstance(value, list) else str(value or ""))


def months(typed: str) -> int:
    """Whole months of a time as typed.

    Raises:
        NotAnAmount: no whole number of months, or more than fifty years.

    """
    try:
        number, unit = split(typed)
    except Malformed as wrong:
        raise NotAnAmount(str(wrong)) from None
    found = Fraction(number) * MONTHS.get(unit.lower(), 0)
    if found <= 0 or found.denominator != 1:
        raise NotAnAmount(NOT_WHOLE)
    if found > MONTHS_MOST:
        raise NotAnAmount(TOO_LONG_A_TIME)
    return int(found)


def count(typed: str) -> int:
    """A whole number of jobs.

    Raises:
        NotAnAmount: it is none.

    """
    if not (typed.isascii() and typed.isdigit() and int(typed) <= COUNT_MOST):
        raise NotAnAmount(NO_COUNT)
    return int(typed)


def amount(typed: str, unit: str) -> int:
    """Milligrams or microliters of an amount as typed.

    Raises:
        Malformed, Impossible: no number, below zero, in no such unit, or more than a car takes.

    """
    if unit == "g":
        found = ledger.mass(typed, unit).mg
    else:
        found = round(parse(typed, ("mL", "L", "fl oz"), unit).si * 1e9)
    if not 0 <= found <= AMOUNT_MOST:
        raise Impossible(NO_SUCH_AMOUNT)
    return found


def filled(sheet: Sheet) -> dict[str, Any]:
    """What stands on a sheet as it is typed, and the same as it was when the page was opened."""
    texts = {name: typed_again(name, value, sheet.currency) for name, value in sheet.values.items()}
    return texts | {f"{WAS}{name}": as_text(text) for name, text in texts.items()}


def typed_again(name: str, value: Any, currency: str) -> Any:
    """One value as it would be typed."""
    if name.startswith((RATE, PART, PRICE)):
        return plain(value, currency) if currency in DECIMALS else ""
    if name.startswith(HOURS):
        return hours_words(value)
    return ledger.plain_grams(value) if name.startswith(AMOUNT) else value
