"""Tables as people write them: rows, the first that fits counts.

A row says where it holds ({variable: answers}), what then comes how often, and why. What it does
not name shares the rest evenly, so nothing is ever impossible.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product as combinations

import numpy as np

from diagnostics.evidence.inference.factors import Array

COMMON = "common practice"
JUDGED = "our judgement"
LEAST = 1e-4  # what no row may go below: our judgement


@dataclass(frozen=True)
class Row:
    """`shares` of what comes where `where` holds; they sum to less than 1, the rest goes to others.

    `why` says it in words, `basis` names a source, COMMON or JUDGED.
    """

    where: Mapping[str, Sequence[str]]
    shares: Mapping[str, float]
    why: str
    basis: str = JUDGED

    def holds(self, given: Mapping[str, str]) -> bool:
        """Whether the row is about this combination of answers; what a car has not is in order."""
        return all(given.get(name, "ok") in codes for name, codes in self.where.items())

    def can_hold(self, answers: Mapping[str, Sequence[str]]) -> bool:
        """Whether a car with these answers can have such a combination."""
        return all({*codes} & {*answers.get(name, ("ok",))} for name, codes in self.where.items())


@dataclass(frozen=True)
class Rows:
    """The rows of one table: what `codes` come, given the variables `given`."""

    given: tuple[str, ...]
    rows: tuple[Row, ...]
    default: Row = field(default_factory=lambda: Row({}, {}, "nothing sets it apart", JUDGED))

    def row(self, given: Mapping[str, str]) -> Row:
        """The first row that fits."""
        return next((row for row in self.rows if row.holds(given)), self.default)

    def shares(
        self,
        answers: Mapping[str, Sequence[str]],
        codes: Sequence[str],
        usual: Mapping[str, float] | None = None,
    ) -> Array:
        """The table: an axis for each variable given that the car has, the last for `codes`.

        `usual` is how often each code comes anyway: those a row does not name share in proportion.
        """
        there = self.there(answers)
        lengths = [len(answers[name]) for name in there]
        fitting = [self.row(given) for given in self.each(there, answers)]
        # Few rows fill many cells: each is worked out once.
        cells = {id(row): filled(row.shares, codes, usual) for row in fitting}
        return np.array([cells[id(row)] for row in fitting]).reshape([*lengths, len(codes)])

    def there(self, answers: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
        """The variables given that the car has and that one of its rows tells apart."""
        can = [row for row in self.rows if row.can_hold(answers)]
        named = {name for row in can for name in row.where}
        return tuple(name for name in self.given if name in answers and name in named)

    def each(
        self, names: Sequence[str], answers: Mapping[str, Sequence[str]]
    ) -> Iterator[dict[str, str]]:
        """Every combination of answers."""
        for chosen in combinations(*(answers[name] for name in names)):
            yield dict(zip(names, chosen, strict=True))


def filled(
    shares: Mapping[str, float], codes: Sequence[str], usual: Mapping[str, float] | None = None
) -> list[float]:
    """The share of each code: as named, the rest spread over those not named.

    What is named for a code that is not there (an answer this car cannot have) goes to the others
    named, in proportion.
    """
    there = {code: shares[code] for code in codes if code in shares}
    grown = sum(shares.values()) / sum(there.values()) if there else 1.0
    named = {code: share * grown for code, share in there.items()}
    weights = {code: usual[code] if usual else 1.0 for code in codes if code not in named}
    whole = sum(weights.values())
    rest = 1 - sum(named.values())
    plain = [
        max(named[code] if code in named else rest * weights[code] / whole, LEAST) for code in codes
    ]
    return [share / sum(plain) for share in plain]
