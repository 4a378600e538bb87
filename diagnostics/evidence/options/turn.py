"""Where the dearer of two choices becomes the better one, worked out from prices alone."""

from dataclasses import dataclass
from fractions import Fraction

from diagnostics.evidence.options.costing import Figure, Prices, later, split
from diagnostics.evidence.options.offer import Offer
from diagnostics.evidence.options.prices import Cost, cost_now

PRICES_ONLY = "Today’s prices alone. No guess about later is in them."
HOLDS = "That the dearer one holds for as long as the car is kept."
EVEN = "That what is left can fail in any month alike until then."
NO_FIGURE = "The shop has no figure of its own to set beside it."


@dataclass(frozen=True)
class Turn:
    """Where one choice becomes the better one, by today's prices alone.

    `gap`: what the dearer one costs more today. `parts`: the price of the cheaper one's parts at
    which both would cost the same today; None: it has no parts. `later`: what the customer would
    pay if what the cheaper one leaves has to be replaced after all. `share`: from what share of
    cars on the dearer one pays, above 1: never by these prices. Both are None where the visit, or
    how long the car is kept, is not typed. `pays`: which one the shop's own figure speaks for,
    empty without one. `rests_on` is about gap and parts, `share_rests_on` about share and pays.
    """

    cheaper: str
    dearer: str
    gap: int
    parts: int | None
    later: int | None
    share: Fraction | None
    rests_on: tuple[str, ...]
    share_rests_on: tuple[str, ...]
    pays: str = ""


def between(cheaper: Offer, dearer: Offer, prices: Prices) -> Turn | None:
    """Two offers; what the cheaper one leaves is what the other one does on top."""
    on_top = [one for one in dearer.options if one not in cheaper.options]
    before, then = ({one.code for one in plan} for plan in (cheaper.options, on_top))
    figure = next((one for one in prices.figures if one.after in before and one.then in then), None)
    due = cost_now(on_top, prices.typed)
    return turn((cheaper.code, cheaper.cost), (dearer.code, dearer.cost), due, prices, figure)


def turn(
    cheaper: tuple[str, Cost],
    dearer: tuple[str, Cost],
    due: Cost,
    prices: Prices,
    figure: Figure | None = None,
) -> Turn | None:
    """At what share of failures of what the cheaper one leaves the dearer one pays.

    Worked out as (dearer now - cheaper now) / (a visit to find it again + what is then `due`), the
    customer's part. None: a price of today is missing, or the one called dearer is not.
    """
    less, more = cheaper[1].total, dearer[1].total
    if less is None or more is None or more <= less:
        return None
    parts = cheaper[1].of("parts")
    paid = split(later(due, prices.typed), prices.terms, fitted=False, at_once=False)
    share = Fraction(more - less, paid.customer) if paid and paid.customer > 0 else None
    own = figure.share if figure else None
    told = counted(figure) if figure and own is not None else NO_FIGURE
    pays = "" if own is None or share is None else (dearer[0] if own > share else cheaper[0])
    return Turn(
        cheaper=cheaper[0],
        dearer=dearer[0],
        gap=more - less,
        parts=parts + more - less if parts else None,
        later=paid.customer if paid else None,
        share=share,
        rests_on=(PRICES_ONLY,),
        share_rests_on=(HOLDS, EVEN, told),
        pays=pays,
    )


def counted(figure: Figure) -> str:
    """What the shop's own figure rests on."""
    if figure.owner:
        return f"Typed by the owner: {figure.came} of {figure.of}, {figure.basis}"
    return f"Counted from the shop’s closed jobs: {figure.came} of {figure.of}."
