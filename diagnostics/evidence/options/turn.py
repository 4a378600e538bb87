"""Where the dearer of two choices becomes the better one, worked out from prices alone."""

from dataclasses import dataclass
from fractions import Fraction

from diagnostics.evidence.options.costing import Figure, Terms, later, split
from diagnostics.evidence.options.prices import Cost, Typed


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
    rests_on = (
        PRICES_ONLY,
        HOLDS,
        EVEN,
        counted(figure) if figure and own is not None else NO_FIGURE,
    )
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
