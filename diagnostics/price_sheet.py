"""What stands of prices, hours and terms on one job: by field the last that was told.

Where nothing was typed the shop's price list counts, as far as one line of it is clearly meant;
what neither tells is missing, never zero.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from diagnostics.evidence.options.costing import Figure, Prices, Terms
from diagnostics.evidence.options.lines import FLUIDS, GRAMS
from diagnostics.evidence.options.prices import PartPrice, Tax, Typed, rounded
from diagnostics.evidence.options.repairs import OPTIONS
from diagnostics.models import PricesTyped
from diagnostics.physics.units import UNITS
from jobs import money
from jobs.models import Entry, Job, Price, Shop
from jobs.models import Tax as TaxRow
from jobs.models.prices import in_force

# A field's name is its group and the code of what it is about: hours_gap, part_clutch.
HOURS, PART, SOURCE = "hours_", "part_", "source_"
PRICE, AMOUNT, ASIDE = "price_", "amount_", "aside_"
RATE = "rate"
TERMS = ("keep_months", "shop_months", "shop_pays", "shop_left", "seller_months", "seller_pays")
FIGURE = ("figure_came", "figure_of", "figure_basis", "figure_pair")
PAYS = {"labor": "Labor", "parts": "Parts", "refrigerant": "Refrigerant and oil"}
IN_MONEY = (RATE, PART, PRICE)
SI_OF = {"refrigerant": "kg", "oil": "L"}  # what a price of the list is brought to


@dataclass(frozen=True)
class FromList:
    """A value of the shop's own list, and which line it is."""

    value: int
    line: str


@dataclass(frozen=True)
class Sheet:
    """`values` by field as typed on the job, `by` the entries that told them, `listed` the rest.

    `other_currency`: money was typed in another currency than the shop's, and does not count.
    """

    currency: str
    values: Mapping[str, Any] = field(default_factory=dict)
    by: Mapping[str, Entry] = field(default_factory=dict)
    listed: Mapping[str, FromList] = field(default_factory=dict)
    taxes: tuple[Tax, ...] = ()
    tax_names: tuple[str, ...] = ()
    other_currency: bool = False

    def value(self, name: str) -> Any:
        """What counts: typed, else of the list, else None."""
        if name in self.values:
            return self.values[name]
        return self.listed[name].value if name in self.listed else None

    @property
    def set_aside(self) -> dict[str, str]:
        """The repairs that cannot be made on this car, with the reason."""
        return dict(self.group(ASIDE))

    def group(self, start: str) -> Iterator[tuple[str, Any]]:
        """The values of one group that count, by what they are about."""
        for name in {**self.listed, **self.values}:
            if name.startswith(start):
                yield name.removeprefix(start), self.value(name)

    @property
    def prices(self) -> Prices:
        """The same as costs are worked out from it."""
        return Prices(self.typed, self.terms, tuple(self.figures()))

    @property
    def typed(self) -> Typed:
        """Prices, hours and amounts."""
        amounts, sources = dict(self.group(PART)), dict(self.group(SOURCE))
        return Typed(
            rate=self.value(RATE),
            minutes=dict(self.group(HOURS)),
            parts={
                code: PartPrice(amounts.get(code), sources.get(code, ""))
                for code in {**amounts, **sources}
            },
            fluid_price=dict(self.group(PRICE)),
            fluids=dict(self.group(AMOUNT)),
            taxes=self.taxes,
        )

    @property
    def terms(self) -> Terms:
        """Who pays when the car comes back."""
        return Terms(
            keep_months=self.value("keep_months") or 0,
            shop_months=self.value("shop_months") or 0,
            shop_pays=tuple(self.value("shop_pays") or ()),
            shop_left=self.value("shop_left") == "yes",
            seller_months=self.value("seller_months") or 0,
            seller_pays=tuple(self.value("seller_pays") or ()),
        )

    def figures(self) -> Iterator[Figure]:
        """The owner's own figure, where it was typed whole."""
        of, pair = self.value("figure_of"), str(self.value("figure_pair") or "")
        after, _, then = pair.partition(">")
        if of and after in OPTIONS and then in OPTIONS:
            came, basis = self.value("figure_came") or 0, self.value("figure_basis") or ""
            yield Figure(after, then, came, of, basis, owner=True)


def sheet_of(job: Job, rows: Iterable[PricesTyped], shop: "ShopPrices") -> Sheet:
    """What stands on a job, by its rows with their entries; superseded ones count no more."""
    values: dict[str, Any] = {}
    by: dict[str, Entry] = {}
    other = False
    standing = [row for row in rows if not row.superseded_by_id]
    for row in sorted(standing, key=lambda row: (row.entry.happened_at, row.entry_id)):
        for name, value in row.values.items():
            if name.startswith(IN_MONEY) and row.currency != shop.currency:
                other = True
                continue
            by[name] = row.entry
            values[name] = value
    told = {name: value for name, value in values.items() if value is not None}
    listed = shop.listed_for(job)
    return Sheet(shop.currency, told, by, listed, shop.taxes, shop.tax_names, other)


@dataclass(frozen=True)
class ShopPrices:
    """The shop's currency, prices and taxes in force."""

    currency: str
    prices: tuple[Price, ...]
    taxes: tuple[Tax, ...]
    tax_names: tuple[str, ...]

    def listed_for(self, job: Job) -> dict[str, FromList]:
        """What the list tells of a car: where several lines may be meant, a person types it."""
        system = job.vehicle.system
        found: dict[str, FromList | None] = {
            RATE: only(self.of("labor"), lambda one: one.amount),
            f"{PRICE}refrigerant": only(
                [one for one in self.of("refrigerant") if one.name == system.refrigerant], per_unit
            ),
            f"{PRICE}oil": only(self.of("oil"), per_unit),
        }
        if system.label_charge_mg:
            found[f"{AMOUNT}refrigerant"] = FromList(system.label_charge_mg, "label charge")
        return {name: one for name, one in found.items() if one}

    def of(self, what: str) -> list[Price]:
        """The prices of one sort in the shop's currency that have an amount."""
        return [
            one
            for one in self.prices
            if one.what == what and one.amount is not None and one.currency == self.currency
        ]


def shop_prices() -> ShopPrices:
    """Read once a page, in three queries."""
    shop = Shop.objects.first()
    currency = shop.currency if shop and shop.currency in money.DECIMALS else ""
    taxes = tuple(in_force(TaxRow.objects.order_by("id")))
    return ShopPrices(
        currency,
        tuple(in_force(Price.objects.order_by("id"))),
        tuple(Tax(one.millionths, tuple(one.taken_on)) for one in taxes),
        tuple(one.name for one in taxes),
    )


def only(rows: list[Price], value: Any) -> FromList | None:
    """The one line that can be meant; None where there are several, or none."""
    return FromList(value(rows[0]), rows[0].name) if len(rows) == 1 else None


def per_unit(price: Price) -> int:
    """A price of refrigerant or oil for a kilogram or a liter, rounded to the smallest unit."""
    unit, whole = UNITS[price.unit].factor, UNITS[SI_OF[price.what]].factor
    exact = Fraction(price.amount or 0) * Fraction(whole) / Fraction(unit)
    return rounded(exact.numerator, exact.denominator)


def amount_unit(fluid: str) -> str:
    """What an amount of a fluid is typed in."""
    return "g" if FLUIDS[fluid].unit == GRAMS else "mL"
