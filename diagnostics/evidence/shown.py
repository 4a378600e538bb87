"""How each thing to show stands: shown, not yet, could not be, in part, not comparable, not fine.

That it was not shown is never told as a fault, and a test that could not be made is no pass.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from diagnostics.evidence.showable import Cold
from diagnostics.evidence.to_show import By, Item

Stands = Literal["shown", "not_compared", "in_part", "not_fine", "could_not", "not_yet"]
SAID: Mapping[Stands, str] = {
    "shown": "shown",
    "not_compared": "made, but not comparable",
    "in_part": "shown in part",
    "not_fine": "made, and not in order",
    "could_not": "could not be",
    "not_yet": "not yet",
}
IS_DONE: tuple[Stands, ...] = ("shown",)


@dataclass(frozen=True)
class Tried:
    """A test since the car was changed. `told` are its taps, `read` the names of its readings.

    `not_done`: why it could not be made; empty: it was. `tells`: it came out as more than that
    nothing was told. `state`: the car state in which it was made. `unlike`: why it does not compare
    with the same test as the car came in; empty: it does, or there is none.
    """

    step: int
    state: int
    kind: str
    finding: str
    outcome: str = ""
    tells: bool = True
    not_done: str = ""
    told: Mapping[str, str] = field(default_factory=dict)
    read: frozenset[str] = frozenset()
    unlike: str = ""


@dataclass(frozen=True)
class Tapped:
    """What was told by a tap of its own: how it stands, in words, in which car state."""

    stands: Stands
    words: str
    state: int


@dataclass(frozen=True)
class Shown:
    """One thing to show with how it stands. `because`: by which step, or why not."""

    item: Item
    stands: Stands
    because: str = ""
    step: int | None = None

    @property
    def words(self) -> str:
        """How it stands, in a few words."""
        return SAID[self.stands]

    @property
    def kind(self) -> str:
        """The test to make for it; empty: a tap."""
        return self.item.by[0].kind if self.item.by else ""

    @property
    def is_shown(self) -> bool:
        """Whether nothing is left to do for it."""
        return self.stands in IS_DONE


def stand(
    items: Iterable[Item],
    tests: Sequence[Tried],
    changed: Mapping[str, int],
    tapped: Mapping[str, Tapped],
    cold: Cold | None,
) -> list[Shown]:
    """How each stands. `tests` are in the order in which they were made.

    `changed`: by question the last car state that touched it, "" for the last that touched any.
    """
    return [stands_of(one, tests, since(one, changed), tapped.get(one.code), cold) for one in items]


def since(item: Item, changed: Mapping[str, int]) -> int:
    """The car state from which on a test counts for it."""
    told = [changed[question] for question in item.touched if question in changed]
    return max(told, default=changed.get("", 0)) if item.touched else changed.get("", 0)


def stands_of(
    item: Item, tests: Sequence[Tried], state: int, tapped: Tapped | None, cold: Cold | None
) -> Shown:
    """How one stands, by the last test that speaks of it."""
    if not item.by:
        if tapped is None or tapped.state < state:
            return Shown(item, "not_yet", before_words(tapped is not None))
        return Shown(item, tapped.stands, tapped.words)
    made = [one for one in tests if one.state >= state]
    said = [told for one in made for told in speaks(item, one)]
    if said:
        last = last_of(said)
        refused = cold and item.warm and last.stands == "not_fine"  # it may stay off, and is right
        return too_cold(item, cold, last) if cold and refused else last
    tried = [one for one in made if one.not_done and any(by.kind == one.kind for by in item.by)]
    if tried:
        return Shown(item, "could_not", tried[-1].not_done, tried[-1].step)
    if cold and item.warm:
        return too_cold(item, cold)
    older = any(told for one in tests for told in speaks(item, one))
    return Shown(item, "not_yet", before_words(older))


def last_of(said: Sequence[Shown]) -> Shown:
    """The last that tells how it stands: one that shows a part takes nothing back."""
    whole = [one for one in said if one.stands != "in_part"]
    return whole[-1] if whole and whole[-1].is_shown else said[-1]


def too_cold(item: Item, cold: Cold, found: Shown | None = None) -> Shown:
    """That the air is too cold for it; what was found all the same is no fault then."""
    said = f" {found.because}" if found else ""
    return Shown(item, "could_not", f"Too cold: {cold.shown}.{said}", found.step if found else None)


def before_words(older: bool) -> str:
    """That it was told before, and why that counts no more."""
    return "It was told before the car was changed in this; that counts no more." if older else ""


def speaks(item: Item, test: Tried) -> Iterator[Shown]:
    """How it stands by one test; nothing where that test does not speak of it."""
    if test.not_done or not test.tells:
        return
    for by in item.by:
        if by.kind != test.kind or not counts(by, test):
            continue
        if by.asked and test.told.get(by.asked) not in by.says:
            continue
        yield Shown(item, by_test(item, by, test), because(item, by, test), test.step)
        return


def counts(by: By, test: Tried) -> bool:
    """Whether a test is of the branch that is meant."""
    return all(test.told.get(name) in answers for name, answers in by.only.items())


def by_test(item: Item, by: By, test: Tried) -> Stands:
    """How it stands by a test that speaks of it."""
    told = test.told.get(by.asked) if by.asked else test.outcome
    if told not in (by.told if by.asked else by.outcomes):
        return "in_part" if told in (by.told_part if by.asked else by.part) else "not_fine"
    if any(name not in test.read for name in by.needs):
        return "in_part"
    return "not_compared" if item.compares and test.unlike else "shown"


def because(item: Item, by: By, test: Tried) -> str:
    """By which step, what it found, and what it does not tell."""
    found = by.says[test.told[by.asked]] if by.asked else test.finding
    said = [f"Step {test.step}: {found}"]
    if test.outcome in by.outcomes and any(name not in test.read for name in by.needs):
        said.append("The pressure in the loop was not told.")
    if item.compares and test.unlike:
        said.append(test.unlike)
    return " ".join(said)
