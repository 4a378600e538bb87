"""What to ask before refrigerant goes into a cylinder or out of it: pure, by what the book says.

Nothing here refuses a move that has happened: it says in words what is wrong with it. Local codes
and the marks on the cylinder come first. Masses are whole mg, a water capacity is µL, which is mg
of water by the round figure of `diagnostics.physics.cylinder`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from diagnostics.physics.cylinder import FILL, Rule, specific_gravity
from diagnostics.physics.errors import Malformed, OutOfRange
from jobs.ledger import shown_mass

# By kind, as jobs.models.amounts has them.
ANY_GAS = ("contaminated",)
NO_REFRIGERANT = ("nitrogen", "tracer")
NEVER_FILLED = ("new",)
NEVER_CHARGED_FROM = ("contaminated", "nitrogen", "tracer")
MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
RULES: Mapping[Rule, str] = {
    "water": "0.8 × water capacity",
    "density": "0.8 × water capacity × specific gravity at 25 °C",
}
# {code: the sentence}; a figure `holds_mg` is `{holds}` in it, as a mass in words.
SENTENCES = {
    "cylinder_overfull": (
        "The cylinder would hold {holds}; it may hold {limit} at most ({rule_words})."
    ),
    "cylinder_second_gas": (
        "The cylinder is for {stands}, and this is {gas}: one refrigerant to a cylinder."
    ),
    "cylinder_gas_unknown": (
        "Nobody told which gas this is: it goes into a cylinder for contaminated refrigerant."
    ),
    "cylinder_past_test": (
        "The cylinder was to be tested by {day}: it is not filled before that is done."
    ),
    "cylinder_not_refillable": "A cylinder that cannot be refilled is never filled again.",
    "cylinder_no_refrigerant": "A cylinder of nitrogen or tracer gas takes no refrigerant.",
    "cylinder_below_zero": (
        "The cylinder holds {holds} by the book, and {out} are to come out: weigh it."
    ),
    "cylinder_never_charged": "What is in this cylinder never goes into a car.",
    "cylinder_contaminates": "Contaminated refrigerant makes what is in the other cylinder so too.",
    "cylinder_not_empty": "By the book it still holds {holds}: weigh it, or empty it first.",
    "cylinder_gone": "By the book the shop has not had this cylinder since {day}.",
}


@dataclass(frozen=True)
class Limit:
    """One thing to ask. `figures` are what its sentence needs: mg, days and codes, no names."""

    code: str
    figures: Mapping[str, int | str] = field(default_factory=dict)

    def sentence(self, unit: str = "g") -> str:
        """The question in words, masses in g or oz."""
        return in_words(self.code, {**self.figures, "unit": unit})


@dataclass(frozen=True)
class Fill:
    """How much a cylinder may hold by both rules, in mg; None: cannot be told by that rule."""

    by_water: int | None
    by_density: int | None

    @property
    def rule(self) -> Rule | None:
        """The rule that is used: that of the lower limit; None: none can be told."""
        if self.by_water is None:
            return None
        below = self.by_density is not None and self.by_density < self.by_water
        return "density" if below else "water"

    @property
    def most(self) -> int | None:
        """The lower limit."""
        told = [one for one in (self.by_water, self.by_density) if one is not None]
        return min(told) if self.by_water is not None and told else None


@dataclass(frozen=True)
class Held:
    """A cylinder as its limits need it; `by_gas` has what it holds by the book, {code: mg}."""

    kind: str
    refrigerant: str = ""
    water_capacity_ul: int | None = None
    tested_until: date | None = None
    gone_since: date | None = None
    by_gas: Mapping[str, int] = field(default_factory=dict)

    @property
    def mg(self) -> int:
        """All that it holds by the book; below zero where the book is off."""
        return sum(self.by_gas.values())

    @property
    def gas(self) -> str:
        """Its refrigerant: as told, else what most of it is by the book; "": not known."""
        if self.refrigerant:
            return self.refrigerant
        return max(self.by_gas, key=lambda gas: (self.by_gas[gas], gas), default="")

    @property
    def fill(self) -> Fill:
        """How much it may hold of its refrigerant."""
        return fill(self.gas, self.water_capacity_ul)

    def with_more(self, mg: int, gas: str) -> "Held":
        """The same after a move: `mg` below zero goes out."""
        after = {**self.by_gas, gas: self.by_gas.get(gas, 0) + mg}
        told = (self.kind, self.refrigerant, self.water_capacity_ul)
        return Held(*told, self.tested_until, self.gone_since, after)


def fill(gas: str, water_capacity_ul: int | None) -> Fill:
    """How much of a gas a cylinder may hold, rounded down.

    R-744 follows the ratio stamped on its cylinder, so none can be told. Source of the rules:
    diagnostics.physics.cylinder.fill_limits.
    """
    if not water_capacity_ul or gas == "R-744":
        return Fill(None, None)
    share = Fraction(FILL).limit_denominator(100)
    try:
        gravity = Fraction(specific_gravity(gas))
    except (Malformed, OutOfRange):  # not known which gas, or not known here
        return Fill(int(share * water_capacity_ul), None)
    return Fill(int(share * water_capacity_ul), int(share * water_capacity_ul * gravity))


def asked_into(held: Held, mg: int, gas: str, day: date) -> list[Limit]:
    """What to ask before `mg` of a gas ("": nobody told which) go into a cylinder that day."""
    return [*of_kind_into(held), *of_gas(held, gas), *of_days(held, day), *of_fill(held, mg, gas)]


def asked_out_of(held: Held, mg: int, day: date, *, into_car: bool = False) -> list[Limit]:
    """What to ask before `mg` come out of a cylinder that day; `into_car`: it is charged from."""
    asked = []
    if into_car and held.kind in NEVER_CHARGED_FROM:
        asked.append(Limit("cylinder_never_charged"))
    asked.extend(of_gone(held, day))
    if mg > held.mg:
        asked.append(Limit("cylinder_below_zero", {"holds_mg": held.mg, "out_mg": mg}))
    return asked


def asked_between(source: Held, target: Held, mg: int, day: date) -> list[Limit]:
    """What to ask before `mg` go from one cylinder into another."""
    asked = [*asked_out_of(source, mg, day), *asked_into(target, mg, source.gas, day)]
    if source.kind in ANY_GAS and target.kind not in ANY_GAS:
        asked.append(Limit("cylinder_contaminates"))
    return asked


def of_kind_into(held: Held) -> Iterator[Limit]:
    """What its kind says against filling it."""
    if held.kind in NO_REFRIGERANT:
        yield Limit("cylinder_no_refrigerant")
    if held.kind in NEVER_FILLED:
        yield Limit("cylinder_not_refillable")


def of_gas(held: Held, gas: str) -> Iterator[Limit]:
    """One refrigerant to a cylinder, but for those for contaminated refrigerant."""
    if held.kind in (*ANY_GAS, *NO_REFRIGERANT):
        return
    others = {held.refrigerant, *(one for one, mg in held.by_gas.items() if mg > 0)} - {"", gas}
    if not gas:
        yield Limit("cylinder_gas_unknown")
    elif others:
        yield Limit("cylinder_second_gas", {"stands": ", ".join(sorted(others)), "gas": gas})


def of_days(held: Held, day: date) -> Iterator[Limit]:
    """Past the day by which it was to be tested, or no more in the shop."""
    if held.tested_until and held.tested_until < day:
        yield Limit("cylinder_past_test", {"day": held.tested_until.isoformat()})
    yield from of_gone(held, day)


def of_gone(held: Held, day: date) -> Iterator[Limit]:
    """No more in the shop."""
    if held.gone_since and held.gone_since <= day:
        yield Limit("cylinder_gone", {"day": held.gone_since.isoformat()})


def of_fill(held: Held, mg: int, gas: str) -> Iterator[Limit]:
    """Fuller than it may be; no question where no water capacity is noted."""
    after = held.with_more(mg, gas)
    limit = after.fill
    if limit.most is not None and limit.rule and after.mg > limit.most:
        figures = {"holds_mg": after.mg, "limit_mg": limit.most, "rule": limit.rule}
        yield Limit("cylinder_overfull", figures)


def in_words(code: str, figures: Mapping[str, int | str]) -> str:
    """The sentence of a code; masses in `unit`, g where none is told."""
    unit = str(figures.get("unit", "g"))
    told = {
        name.removesuffix("_mg"): shown_mass(int(one), unit) if name.endswith("_mg") else one
        for name, one in figures.items()
    }
    if "day" in told:
        told["day"] = day_said(date.fromisoformat(str(told["day"])))
    told["rule_words"] = next((RULES[one] for one in RULES if one == told.get("rule")), "")
    return SENTENCES[code].format(**told)


def day_said(day: date) -> str:
    """A day with its month in letters: 3 Mar 2026."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"
