"""One plan as it is offered: what it cures, leaves and needs, what argues against it, its cost."""

from dataclasses import dataclass, field

from diagnostics.evidence.findings import Standing
from diagnostics.evidence.options.costing import Scales
from diagnostics.evidence.options.option import Cures, Need, Option, in_words
from diagnostics.evidence.options.prices import Cost
from diagnostics.evidence.verdict_words import TO_CUSTOMER

ALSO_POSSIBLE = "also possible"


@dataclass(frozen=True)
class Left:
    """What a plan leaves of one variable, and how that stands."""

    cures: Cures
    standing: Standing

    @property
    def words(self) -> str:
        """In plain words: Tightness: leaks at a place (most likely)."""
        return f"{in_words(self.cures)} ({TO_CUSTOMER[self.standing]})"


@dataclass(frozen=True)
class Against:
    """What argues against a plan; `of` are the answers whose tests say so, empty: none does."""

    sentence: str
    of: Cures = field(default_factory=dict)


@dataclass(frozen=True)
class Offer:
    """One plan as it is offered.

    `cures` is what it is meant for; `standing` how that stands, of several repairs the weakest;
    `seen` the same of what was found and it sees to. `whole`: it cures all that was found.
    `unshown`: what it would have to rest on and no test has shown. `uncured`: what
    is in question and stays so. `scales` and `expected` (smallest units) are for the order alone,
    never for a customer. `warning`: only on
    the cheapest. `also_possible`: the cheapest defensible one; where none is, the cheapest that is
    asked for, with what is `unshown` in writing; `also_why` says by what.
    """

    options: tuple[Option, ...]
    cures: Cures
    standing: Standing
    seen: Standing
    leaves: tuple[Left, ...]
    needs: tuple[Need, ...]
    unshown: tuple[str, ...]
    against: tuple[Against, ...]
    cautions: tuple[str, ...]
    cost: Cost
    scales: Scales
    expected: int | None
    uncured: Cures
    whole: bool
    sees_to_found: bool
    warning: str = ""
    cheapest_defensible: bool = False
    also_possible: bool = False
    also_why: str = ""

    @property
    def code(self) -> str:
        """Its repairs' codes, joined."""
        return "+".join(one.code for one in self.options)

    @property
    def words(self) -> str:
        """Its repairs in words."""
        return " + ".join(one.words for one in self.options)

    @property
    def repairs(self) -> bool:
        """Whether it mends anything."""
        return any(one.repairs for one in self.options)

    @property
    def extent(self) -> int:
        """How much is done, where prices are missing."""
        return sum(one.extent for one in self.options)

    @property
    def leaves_words(self) -> tuple[str, ...]:
        """What stays, in the words of each repair."""
        return tuple(dict.fromkeys(one.leaves for one in self.options))

    @property
    def breaks(self) -> tuple[str, ...]:
        """Conditions of part sellers that it does not meet."""
        return tuple(dict.fromkeys(text for one in self.options for text in one.breaks))

    @property
    def asks(self) -> tuple[str, ...]:
        """Conditions of part sellers that it meets only if it is done so."""
        return tuple(dict.fromkeys(text for one in self.options for text in one.asks))

    @property
    def is_defensible(self) -> bool:
        """Whether it is asked for, rests on nothing unshown, and keeps what part sellers ask."""
        return self.is_asked_for and not self.unshown and not self.breaks

    @property
    def is_asked_for(self) -> bool:
        """Whether it cures all that was found, and what each repair is meant for was found."""
        return self.repairs and self.whole and self.standing in ("proved", "likely")

    @property
    def mark(self) -> str:
        """The words beside it: also possible."""
        return ALSO_POSSIBLE if self.also_possible or not self.repairs else ""
