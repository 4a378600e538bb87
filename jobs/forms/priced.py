"""An estimate or an invoice as it is typed: lines, a row of fields each, and what they come to."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.forms.boundfield import BoundField
from django.utils.datastructures import MultiValueDict

from jobs.estimating import Sums, Taken, share_of, summed
from jobs.estimating import Tax as TaxOf
from jobs.forms.fields import Line, Lines, OnJob, Typed
from jobs.forms.line_read import NO_TAX, PERS, Odd, line_of, typed_of
from jobs.logbook import Told
from jobs.models import Shop, Tax
from jobs.models.changes import SOURCES
from jobs.models.priced import SORTS
from jobs.models.priced import Line as Kept
from jobs.models.prices import TAXED, in_force
from jobs.money import DECIMALS, MINOR_MAX, NotAnAmount, millionths
from jobs.told import PricedTold

PARTS = ("sort", "words", "quantity", "price", "per", "source", "taxed", "code", "out")
FIELD = re.compile(rf"(?:{'|'.join(PARTS)})_([1-9]\d*)", re.ASCII)
SPARE = 10  # empty rows under those that are filled
LINES_MOST = 80
TOO_LONG = f"{LINES_MOST} lines fit on one paper. Put some of them together."
NO_LINES = "Nothing is on it yet: type at least one line."
NO_CURRENCY = "The shop’s currency is not set yet, so nothing can be priced. An owner sets it."
NO_SORT = "Choose what sort of line this is."
NO_WORDS = "Say what it is."
OFF_WHAT = "Choose what it is taken off: labor, parts, or refrigerant and oil."
TOO_MUCH = "All together is more money than a shop can mean. Look at the lines."
NOT_LISTED = "This answer is not in the list. Choose one of those."


@dataclass(frozen=True)
class Row:
    """The fields of one line on a page; `spare`: not wanted yet."""

    number: int
    fields: Mapping[str, BoundField]
    spare: bool

    def __getattr__(self, name: str) -> BoundField:
        """One of its fields by name."""
        try:
            return self.fields[name]
        except KeyError:
            raise AttributeError(name) from None


class PricedForm(OnJob):
    """Lines in rows that are numbered from one; a row with nothing typed in it is no line."""

    note = Lines(2000, "Note", "Printed under the lines, word for word.")

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        self.shop = Shop.objects.first()
        known = self.shop and self.shop.currency in DECIMALS
        self.currency = self.shop.currency if self.shop and known else ""
        self.lines: dict[int, Kept] = {}
        self.sums = Sums()
        self.taxes: list[TaxOf] = []
        self.numbers: list[int] = []
        self.filled = self.sent = 0
        sent = {name: int(match[1][:4]) for name in data or () if (match := FIELD.fullmatch(name))}
        self.sent = max(sent.values(), default=0)
        self.make_rows(max((at for name, at in sent.items() if is_typed(data, name)), default=0))

    def make_rows(self, filled: int) -> None:
        """As many rows as are filled, or were sent, and some empty ones."""
        self.filled = filled
        filled = max(filled, self.sent - SPARE)
        for number in range(len(self.numbers) + 1, min(filled + SPARE, LINES_MOST) + 1):
            self.numbers.append(number)
            for name, field in row_fields().items():
                self.fields[f"{name}_{number}"] = field

    def begin(self, lines: Sequence[Kept], currency: str) -> None:
        """Fill an unbound form with lines as they would be typed; money of another currency not."""
        self.make_rows(len(lines))
        for number, line in enumerate(lines, 1):
            for name, text in typed_of(line, currency).items():
                kept = name != "price" or currency == self.currency
                self.initial[f"{name}_{number}"] = text if kept else ""

    @property
    def rows(self) -> list[Row]:
        """Each line's fields; those behind the first empty one are spare."""
        return [
            Row(
                number,
                {name: self[f"{name}_{number}"] for name in PARTS},
                number > self.filled + 1,
            )
            for number in self.numbers
        ]

    def clean(self) -> dict[str, Any]:
        """Read the lines, then add them up."""
        said = super().clean()
        if not self.currency:
            self.add_error(None, NO_CURRENCY)
            return said
        for number in self.numbers:
            self.read_row(number)
        if self.sent > LINES_MOST:
            self.add_error(None, TOO_LONG)
        if not self.lines and not self.errors:
            self.add_error(None, NO_LINES)
        self.add_up()
        return said

    def told_in(self, number: int) -> dict[str, str]:
        """What was typed in one row, by name."""
        said = self.cleaned_data
        told = {name: str(said.get(f"{name}_{number}") or "") for name in PARTS}
        typed = any(told[name] for name in ("words", "quantity", "price"))
        return told if typed and not told["out"] else {}

    def read_row(self, number: int) -> None:
        """One line, or a sentence at the field that is wrong."""
        told = self.told_in(number)
        if not told:
            return
        wrong = {
            "sort": NO_SORT if not told["sort"] else "",
            "words": NO_WORDS if not told["words"] else "",
            "taxed": OFF_WHAT if told["sort"] == "discount" and not told["taxed"] else "",
        }
        for name, sentence in wrong.items():
            if sentence and f"{name}_{number}" not in self.errors:
                self.add_error(f"{name}_{number}", sentence)
        if any(f"{name}_{number}" in self.errors for name in PARTS):
            return
        try:
            self.lines[number] = line_of(told, self.currency)
        except Odd as odd:
            self.add_error(f"{odd.field}_{number}", str(odd))

    def add_up(self) -> None:
        """Shares of other lines, the taxes in force, and the total."""
        for line in self.lines.values():
            if line["unit"] == "%" and not self.errors:  # of lines that all could be read
                line["amount"] = self.share(line)
        self.taxes = [
            TaxOf(one.name, one.millionths, tuple(one.taken_on))
            for one in in_force(Tax.objects.order_by("id"))
        ]
        if self.shop and not self.errors:
            lines = [Taken(line["amount"], line["taxed"]) for line in self.lines.values()]
            self.sums = summed(lines, self.taxes, self.shop.tax_rounding, self.shop.tax_halves)
        if (self.sums.total or 0) > MINOR_MAX:
            self.add_error(None, TOO_MUCH)

    def share(self, line: Kept) -> int | None:
        """Sundries are a share of the labor; a discount is one of all that is taxed as it is."""
        others = [one for one in self.lines.values() if one["unit"] != "%"]
        if line["sort"] == "discount":
            base = [one["amount"] for one in others if one["taxed"] == line["taxed"]]
        else:
            base = [one["amount"] for one in others if one["sort"] == "labor"]
        found = share_of(millionths(line["quantity"]), base)
        return -found if found is not None and line["sort"] == "discount" else found

    def priced(self) -> PricedTold:
        """All of it as a row keeps it.

        Raises:
            NotAnAmount: there is no shop yet.

        """
        shop = self.shop
        if shop is None:
            raise NotAnAmount(NO_CURRENCY)
        taxes = [
            {
                "name": one.tax.name,
                "millionths": one.tax.millionths,
                "on": list(one.tax.on),
                "base": one.base,
                "amount": one.amount,
            }
            for one in self.sums.taxes
        ]
        return PricedTold(
            currency=self.currency,
            lines=list(self.lines.values()),
            taxes=taxes,
            tax_rounding=shop.tax_rounding,
            tax_halves=shop.tax_halves,
            subtotal=self.sums.subtotal,
            tax=self.sums.tax,
            total=self.sums.total,
            note=self.cleaned_data["note"],
        )


def is_typed(data: MultiValueDict[str, str] | None, name: str) -> bool:
    """Whether somebody typed something in a field of a line."""
    typed = name.partition("_")[0] in ("words", "quantity", "price")
    return bool(typed and data and data.get(name, "").strip())


def row_fields() -> dict[str, forms.Field]:
    """The fields of one line."""
    return {
        "words": Line(300, "What it is"),
        "sort": listed("Sort", {"": "Choose", **SORTS}),
        "quantity": Typed("How much", number=False),
        "price": Typed("Price of one", number=False),
        "per": listed("That is of", {"": "By its sort", **PERS}),
        "source": listed("The part is", {"": "Not said", **SOURCES}),
        "taxed": listed("Taxed as", {"": "By its sort", **TAXED, NO_TAX: "Not taxed"}),
        "code": forms.CharField(required=False, max_length=40, widget=forms.HiddenInput),
        "out": forms.BooleanField(required=False, label="Take out"),
    }


def listed(label: str, answers: Mapping[str, str]) -> forms.ChoiceField:
    """A list that opens: buttons for every line would fill the page."""
    return forms.ChoiceField(
        label=label,
        choices=list(answers.items()),
        required=False,
        error_messages={"invalid_choice": NOT_LISTED},
    )


def missing_words(lines: Iterable[Kept]) -> list[str]:
    """The lines of which a price or an amount is missing."""
    return [line["words"] for line in lines if line["amount"] is None]
