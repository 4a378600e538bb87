"""What a repair is expected to cost until the customer gives the car away, and what turns a choice.

Cost of coming back adds up by variable: two faults that are left count as two visits. What no
repair in hand cures is left by all alike, so it changes no choice and is not counted. The result is
for weighing only: no chance, and no figure from which one could be worked out, is for a customer.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from diagnostics.evidence.inference.verdict import Standing
from diagnostics.evidence.options.lines import FIND_AGAIN
from diagnostics.evidence.options.option import Cures, without
from diagnostics.evidence.options.prices import KINDS, Cost, Kind, Typed, labor

COUNTED = 20  # closed jobs from which the shop's own figure is used: our judgement


class Stands(Protocol):
    """What the evidence says of sets of answers; a set is true where one of its answers is."""

    def share_of(self, cures: Cures) -> float:
        """How large the share is, from 0 to 1."""

    def standing_of(self, cures: Cures) -> Standing:
        """How it stands."""


@dataclass(frozen=True)
class Terms:
    """Who pays when the car comes back, as typed.

    `keep_months`: how long the customer means to keep the car. The shop pays `shop_pays` for
    `shop_months`, for what it did; for what it left in, too, if `shop_left`. The part seller pays
    `seller_pays` for `seller_months`, for what was fitted. All else is the customer's.
    """

    keep_months: int
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


def again(typed: Typed) -> Cost:
    """What it costs to find the fault again when the car comes back."""
    return Cost((labor(FIND_AGAIN, typed),), typed.taxes)


def later(mending: Cost, typed: Typed) -> Cost:
    """What it costs to mend something on a visit of its own."""
    return Cost((*again(typed).lines, *mending.lines), typed.taxes)


def split(cost: Cost, terms: Terms, fitted: bool, at_once: bool) -> Split | None:
    """Who pays a visit: for something that was `fitted`, or was left in; None: not all typed.

    `at_once`: it was never cured, so it comes back within any warranty; else it may come at any
    time until the car is given away, each month alike (our judgement).
    """
    shop = seller = whole = 0
    for kind in KINDS:
        amount = cost.of(kind)
        if amount is None:
            return None
        sellers = terms.seller_months if fitted and kind in terms.seller_pays else 0
        shops = terms.shop_months if kind in terms.shop_pays and (fitted or terms.shop_left) else 0
        first, both = months(sellers, terms, at_once), months(max(sellers, shops), terms, at_once)
        over = 1 if at_once else max(terms.keep_months, 1)
        seller += amount * first // over
        shop += amount * both // over - amount * first // over
        whole += amount
    return Split(whole - shop - seller, shop, seller)


def months(warranted: int, terms: Terms, at_once: bool) -> int:
    """How many of the months in question a warranty covers."""
    return int(warranted > 0) if at_once else min(warranted, max(terms.keep_months, 1))


@dataclass(frozen=True)
class Expected:
    """What a choice is expected to cost the customer; `missing` says why there is no figure."""

    amount: int | None
    missing: tuple[str, ...] = ()


def remains(cured: Cures, concerned: Cures, stands: Stands) -> float:
    """How likely it is that something of what is in question is left uncured, all taken together."""
    left = without(concerned, cured)
    return stands.share_of(left) if left else 0.0


def expected(
    now: Cost,
    left: Cures,
    mending: Mapping[tuple[str, str], Cost],
    figures: Iterable[tuple[Figure, Cost]],
    stands: Stands,
    terms: Terms,
    typed: Typed,
) -> Expected:
    """The cost now, and what is expected to come on top by coming back.

    `left`: the answers in question that it does not cure; `mending`: what the cheapest repair of
    each costs; `figures`: the shop's own, each with the cost of what comes due then.
    """
    coming: list[tuple[float, Split | None, Cost]] = []
    for variable, codes in left.items():
        for code in codes:
            cost = later(mending[variable, code], typed)
            share = stands.share_of({variable: (code,)})
            coming.append((share, split(cost, terms, fitted=False, at_once=True), cost))
    for figure, due in figures:
        if figure.share is not None:
            cost, fitted = later(due, typed), figure.then == figure.after
            paid = split(cost, terms, fitted=fitted, at_once=False)
            coming.append((float(figure.share), paid, cost))
    missing = [*now.missing, *(gap for _, paid, cost in coming if not paid for gap in cost.missing)]
    if missing or now.total is None:
        return Expected(None, tuple(dict.fromkeys(missing)))
    on_top = sum(share * paid.customer for share, paid, _ in coming if paid)
    return Expected(now.total + int(on_top + 0.5))


@dataclass(frozen=True)
class Turn:
    """Where one choice becomes the better one, by today's prices alone.

    `gap`: what the dearer one costs more today. `parts`: the price of the cheaper one's parts at
    which both would cost the same today; None: it has no parts. `later`: what the customer would
    pay if what the cheaper one leaves has to be replaced after all. `share`: from what share of
    cars on the dearer one pays; above 1: never by these prices. `pays`: which one the shop's own
    figure speaks for, empty without one.
    """

    cheaper: str
    dearer: str
    gap: int
    parts: int | None
    later: int
    share: Fraction
    rests_on: tuple[str, ...]
    pays: str = ""


PRICES_ONLY = "Today’s prices alone. No guess about later is in them."
HOLDS = "That the dearer one holds for as long as the car is kept."
EVEN = "That what is left can fail in any month alike until then."
NO_FIGURE = "The shop has no figure of its own to set beside it."


def turn(
    cheaper: tuple[str, Cost],
    dearer: tuple[str, Cost],
    terms: Terms,
    typed: Typed,
    figure: Figure | None = None,
) -> Turn | None:
    """At what share of failures of what the cheaper one leaves the dearer one pays.

    Worked out as (dearer now - cheaper now) / (a visit to find it again + the dearer one then), the
    customer's part. None: not all typed, or the one called dearer is not.
    """
    less, more = cheaper[1].total, dearer[1].total
    paid = split(later(dearer[1], typed), terms, fitted=False, at_once=False)
    if less is None or more is None or paid is None or more <= less or paid.customer <= 0:
        return None
    parts = cheaper[1].of("parts")
    share = Fraction(more - less, paid.customer)
    own = figure.share if figure else None
    rests_on = (PRICES_ONLY, HOLDS, EVEN, counted(figure) if figure and own else NO_FIGURE)
    pays = "" if own is None else (dearer[0] if own > share else cheaper[0])
    return Turn(
        cheaper[0], dearer[0], more - less, parts + more - less if parts else None,
        paid.customer, share, rests_on, pays,
    )  # fmt: skip


def counted(figure: Figure) -> str:
    """What the shop's own figure rests on."""
    if figure.owner:
        return f"Typed by the owner: {figure.came} of {figure.of}, {figure.basis}"
    return f"Counted from the shop’s closed jobs: {figure.came} of {figure.of}."
