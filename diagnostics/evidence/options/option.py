"""A way to repair: what it cures and leaves, what has to come first, and what it is made of."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from diagnostics.evidence.findings import Standing
from diagnostics.evidence.inference.network import OTHER, VARIABLES
from diagnostics.evidence.system import SystemIs

Cures = Mapping[str, tuple[str, ...]]  # {variable: its answers}
Answers = Mapping[str, Collection[str]]  # {variable: the answers that this car can have}

CHANCE = 0.02  # what stands lower is no reason to offer a repair: our judgement
NAMED = {one.name: one for one in VARIABLES}


@dataclass(frozen=True)
class Need:
    """What comes before, or belongs to, a repair.

    `order` is the code of an order of the evidence, `kinds` are the tests that show it done; empty:
    nobody but the one who does it can tell. `on`: the systems for which it counts.
    """

    code: str
    sentence: str
    order: str = ""
    kinds: tuple[str, ...] = ()
    on: SystemIs = field(default_factory=dict)


@dataclass(frozen=True)
class Ground:
    """A sentence that holds where answers of a variable stand in one of `standings`.

    And only where their share is above `above`.
    """

    variable: str
    answers: tuple[str, ...]
    standings: tuple[Standing, ...]
    sentence: str
    above: float = 0.0

    @property
    def of(self) -> Cures:
        """What it asks the standing of."""
        return {self.variable: self.answers}


@dataclass(frozen=True, eq=False)
class Option:
    """A way to repair, as data.

    `cures` is what it is meant for and offered because of; `also` is cured on the way, such as the
    amount where the loop is charged anew. `because` says when it is offered, `leaves` what stays,
    both in plain words. `rests_on` has to stand for it to be defensible, each sentence says what is
    not shown; `against` argues against it. `breaks`: conditions of part sellers that it does not
    meet; `asks`: those that it meets only if it is done so. `places`: the leaks it is meant for,
    `closes` those it closes on the way.
    `extent` puts options in order of how much is done where prices are missing. `on`: systems that
    can have it. `from_share`: from what share on it is offered.
    """

    code: str
    words: str
    because: str
    leaves: str
    needs: tuple[Need, ...]
    extent: int
    cures: Cures = field(default_factory=dict)
    also: Cures = field(default_factory=dict)
    operations: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    fluids: tuple[str, ...] = ()
    rests_on: tuple[Ground, ...] = ()
    against: tuple[Ground, ...] = ()
    breaks: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    cautions: tuple[Ground, ...] = ()
    places: tuple[str, ...] = ()
    closes: tuple[str, ...] = ()
    on: SystemIs = field(default_factory=dict)
    from_share: float = CHANCE

    @property
    def repairs(self) -> bool:
        """Whether it mends anything: neither made safe nor nothing."""
        return bool(self.cures)

    @property
    def all_cures(self) -> dict[str, tuple[str, ...]]:
        """What it cures, meant or on the way."""
        return together(self.cures, self.also)

    @property
    def all_places(self) -> frozenset[str]:
        """The places of a leak that it closes, meant or on the way."""
        return frozenset((*self.places, *self.closes))

    @property
    def opens_loop(self) -> bool:
        """Whether the refrigerant goes out for it."""
        return "recover" in self.operations


def together(*cures: Cures) -> dict[str, tuple[str, ...]]:
    """Several sets of cured answers as one, each answer once, in their order."""
    found: dict[str, tuple[str, ...]] = {}
    for one in cures:
        for variable, codes in one.items():
            found[variable] = tuple(dict.fromkeys((*found.get(variable, ()), *codes)))
    return found


def on_car(cures: Cures, answers: Answers) -> dict[str, tuple[str, ...]]:
    """What of a set of answers such a car can have."""
    found = {
        variable: tuple(code for code in codes if code in answers.get(variable, ()))
        for variable, codes in cures.items()
    }
    return {variable: codes for variable, codes in found.items() if codes}


def without(whole: Cures, taken: Cures) -> dict[str, tuple[str, ...]]:
    """What of one set of answers is not in the other."""
    found = {
        variable: tuple(code for code in codes if code not in taken.get(variable, ()))
        for variable, codes in whole.items()
    }
    return {variable: codes for variable, codes in found.items() if codes}


def faults(answers: Answers) -> dict[str, tuple[str, ...]]:
    """What of a car's answers can be mended: neither in order, nor rightly so, nor without a name.

    "Something else" is cured by no option: nobody knows yet what would mend it.
    """
    found = {
        variable: tuple(
            code
            for code in codes
            if code not in ("ok", OTHER) and not NAMED[variable].answer(code).rightly
        )
        for variable, codes in answers.items()
        if variable in NAMED
    }
    return {variable: codes for variable, codes in found.items() if codes}


def in_words(cures: Cures) -> str:
    """A set of answers as people read it: Clutch and hub: coil open, oil on the friction face."""
    return "; ".join(
        f"{NAMED[variable].words}: {', '.join(NAMED[variable].answer(one).words for one in codes)}"
        for variable, codes in cures.items()
    )
