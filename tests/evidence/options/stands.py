"""How sets of answers stand, worked out plainly: from a joint table, or as a test likes it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product

from diagnostics.evidence.findings import Standing
from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.model import Model
from diagnostics.evidence.inference.verdict import LIKELY, PROVED, RULED_OUT
from diagnostics.evidence.options.option import Cures


def of_share(share: float) -> Standing:
    """The standing that a share alone would have."""
    if share >= PROVED:
        return "proved"
    if share <= RULED_OUT:
        return "ruled_out"
    return "likely" if share >= LIKELY else "open"


@dataclass
class OfBelief:
    """The shares of a belief over a model; standings by share alone."""

    model: Model
    now: Belief

    def share_of(self, cures: Cures) -> float:
        none = [
            self.model.mask(name, tuple(set(self.model.answers[name]) - set(codes)))
            for name, codes in cures.items()
        ]
        return 1 - float(self.now.share(*none)[0])

    def standing_of(self, cures: Cures) -> Standing:
        return of_share(self.share_of(cures))


@dataclass
class OfTable:
    """A joint table written out: a share for each combination of answers."""

    answers: Mapping[str, Sequence[str]]
    shares: Mapping[tuple[str, ...], float]

    def each(self):
        for combination in product(*self.answers.values()):
            yield dict(zip(self.answers, combination, strict=True)), self.shares[combination]

    def share_of(self, cures: Cures) -> float:
        return sum(
            share
            for told, share in self.each()
            if any(told[name] in codes for name, codes in cures.items())
        )

    def standing_of(self, cures: Cures) -> Standing:
        return of_share(self.share_of(cures))


@dataclass
class AsTold:
    """Shares of single answers as told, all variables apart; what is not told has `rest`."""

    told: Mapping[tuple[str, str], float]
    rest: float = 0.0
    answers: Mapping[str, Sequence[str]] = field(default_factory=dict)

    def share_of(self, cures: Cures) -> float:
        none = 1.0
        for name, codes in cures.items():
            none *= 1 - min(1.0, sum(self.share(name, code) for code in codes))
        return 1 - none

    def share(self, name: str, code: str) -> float:
        if (name, code) in self.told:
            return self.told[name, code]
        if code == "ok":
            return 1 - sum(share for (other, _), share in self.told.items() if other == name)
        return self.rest

    def standing_of(self, cures: Cures) -> Standing:
        return of_share(self.share_of(cures))
