"""What a repair is expected to cost until the customer gives the car away, and what turns a choice.

Cost of coming back adds up by variable: two faults that are left count as two visits. What no
repair in hand cures is left by all alike, so it changes no choice and is not counted. The result is
for weighing only: no chance, and no figure from which one could be worked out, is for a customer.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Protocol

from diagnostics.evidence.findings import Standing
from diagnostics.evidence.options.lines import FIND_AGAIN
from diagnostics.evidence.options.option import Cures
from diagnostics.evidence.options.prices import KINDS, Cost, Kind, Typed, labor

Thing = tuple[str, str]  # (variable, answer)
COUNTED = 20  # closed jobs from which the shop's own figure is used: our judgement
KEPT = "How long the customer means to keep the car is not typed."


class Standings(Protocol):
    """What the evidence says of sets of answers; a set is true where one of its answers is."""

    def share_of(self, cures: Cures) -> float:
        """How large the share is, from 0 to 1."""

    def standing_of(self, cures: Cures) -> Standing:
        """How it stands."""


@dataclass(frozen=True)
class Terms:
    """Who pays when the car comes back, as typed.

    `keep_months`: how long the customer means to keep the car, 0: not typed. The shop pays
    `shop_pays` for `shop_months`, for what it did; for what it left in, too, if `shop_left`. The
    part seller pays `seller_pays` for `seller_months`, for what was fitted. All else is the
    customer's.
    """

    keep_months: int = 0
    shop_months: int = 0
    shop_pays: tuple[Kind, ...] = ()
    shop_left: bool = False
    seller_months: int = 0
    seller_pays: tuple[Kind, ...] = ()


@dataclass(frozen=True)
class Split:
    """Who pays how much of it, in smallest units; the three together are the whole."""

    customer: int
    shop: int = 0
    seller: int = 0

    @property
    def whole(self) -> int:
        """All of it."""
        return self.customer + self.shop + self.seller


@dataclass(frozen=True)
class Figure:
    """How often, after one repair, another came due within the time meant.

    Counted: `came` of `of` closed jobs. Or typed by the owner with the basis in words.
    """

    after: str
    then: str
    came: int
    of: int
    basis: str = ""
    owner: bool = False

    @property
    def share(self) -> Fraction | None:
        """The figure where it may be used: twenty jobs or more, or the owner's with its basis."""
        counts = self.of >= COUNTED or (self.owner and bool(self.basis.strip()))
        return Fraction(self.came, self.of) if counts and 0 <= self.came <= self.of > 0 else None


@dataclass(frozen=True)
class Prices:
    """What was typed on the job: prices, terms, the shop's own figures."""

    typed: Typed = field(default_factory=Typed)
    terms: Terms = field(default_factory=Terms)
    figures: tuple[Figure, ...] = ()


def again(typed: Typed) -> Cost:
    """What it costs to find the fault again when the car comes back."""
    return Cost((labor(FIND_AGAIN, typed),), typed.taxes)


def later(mending: Cost, typed: Typed) -> Cost:
    """What it costs to mend something on a visit of its own."""
    return Cost((*again(typed).lines, *mending.lines), typed.taxes)


def split(cost: Cost, terms: Terms, fitted: bool, at_once: bool) -> Split | None:
    """Who pays a visit: for something that was `fitted`, or was left in; None: not all is typed.

    `at_once`: it was never cured, so it comes back within any warranty; else it may come at any
    time until the car is given away, each month alike (our judgement).
    """
    shop = seller = whole = 0
    if not at_once and terms.keep_months <= 0:
        return None
    for kind in KINDS:
        amount = cost.of(kind)
        if amount is None:
            return None
        sellers = terms.seller_months if fitted and kind in terms.seller_pays else 0
        shops = terms.shop_months if kind in terms.shop_pays and (fitted or terms.shop_left) else 0
        first, both = months(sellers, terms, at_once), months(max(sellers, shops), terms, at_once)
        over = 1 if at_once else terms.keep_months
        seller += amount * first // over
        shop += amount * both // over - amount * first // over
        whole += amount
    return Split(whole - shop - seller, shop, seller)


def months(warranted: int, terms: Terms, at_once: bool) -> int:
    """How many of the months in question a warranty covers."""
    return int(warranted > 0) if at_once else min(warranted, terms.keep_months)


@dataclass(frozen=True)
class Scales:
    """What weighs for or against a plan, in smallest units: the customer's part.

    `now`: its cost and what the shop's own figures put on top; `losses`: what each answer that it
    leaves would cost. `missing` says why it cannot be weighed.
    """

    now: float
    losses: Mapping[Thing, int]
    missing: tuple[str, ...] = ()

    def expected(self, stands: Standings) -> int | None:
        """What it is expected to cost until the car is given away; None: something is missing."""
        if self.missing:
            return None
        coming = (
            stands.share_of({variable: (code,)}) * loss
            for (variable, code), loss in self.losses.items()
        )
        return int(self.now + sum(coming) + 0.5)


def scales_of(
    now: Cost,
    left: Cures,
    mending: Mapping[Thing, Cost],
    figures: Iterable[tuple[Figure, Cost]],
    terms: Terms,
    typed: Typed,
) -> Scales:
    """A plan that costs `now` and leaves the answers `left`.

    `mending`: what the cheapest repair of each answer costs; `figures`: the shop's own, each with
    the cost of what comes due then.
    """
    missing, losses, on_top = list(now.missing), dict[Thing, int](), 0.0
    for variable, codes in left.items():
        for code in codes:
            cost = later(mending[variable, code], typed)
            paid = split(cost, terms, fitted=False, at_once=True)
            missing += cost.missing
            losses[variable, code] = paid.customer if paid else 0
    for figure, due in figures:
        if figure.share is not None:
            cost = later(due, typed)
            paid = split(cost, terms, fitted=figure.then == figure.after, at_once=False)
            missing += cost.missing if paid or terms.keep_months else (*cost.missing, KEPT)
            on_top += float(figure.share) * (paid.customer if paid else 0)
    return Scales((now.total or 0) + on_top, losses, tuple(dict.fromkeys(missing)))
