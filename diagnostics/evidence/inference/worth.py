"""What each test that may be made is expected to save in wrong decisions.

Value of information as in troubleshooting theory (Heckerman, Breese and Rommelse 1995): what
deciding costs now, less what it is expected to cost after the test. Costs add up by variable, so
the shares of each variable after each outcome are enough.
"""

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field

import numpy as np

from diagnostics.evidence.inference.ahead import afters
from diagnostics.evidence.inference.factors import Array, Factor
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.present import present
from diagnostics.evidence.inference.stakes import REMEDIES, losses
from diagnostics.evidence.inference.verdict import PROVED, Weighed

TELLS = 3.0  # a test that raises the odds by less tips a share over the edge, and proves nothing
RAISED = 1.5  # times as likely out of order as such a car is before any test. Our judgement, both


@dataclass(frozen=True)
class Proof:
    """What a decision now would mend in a variable, and that it is not proved."""

    variable: str
    words: str
    cures: tuple[str, ...]
    cost: float


@dataclass(frozen=True)
class Suspected:
    """`mended`: the remedies in hand by variable; `raised`: what tests made likelier out of order.

    `found` is in hand because tests that look at it speak for it; what somebody emptied or took
    apart was not found so.
    """

    mended: Mapping[str, str]
    raised: frozenset[str]
    found: Set[str]


@dataclass(frozen=True)
class Worth:
    """A test that may be made: what it saves in all and by variable, in minutes of a bay.

    `proves` is the chance that it proves what is in hand, by variable; `outcomes` how likely each
    outcome is, with the shares that each variable would then have.
    """

    kind: str
    saves: float
    by_variable: Mapping[str, float]
    proves: Mapping[str, float]
    chances: Array = field(compare=False)
    shares: Mapping[str, Array] = field(compare=False)


def tables_of(weighed: Weighed) -> dict[str, Array]:
    """For each variable what every decision costs at every answer."""
    return {
        one.name: losses(
            one.name, weighed.plain.answers[one.name], [a.code for a in one.answers if a.rightly]
        )
        for one in weighed.plain.variables
    }


def worth(weighed: Weighed, candidates: Sequence[Looks]) -> list[Worth]:
    """Each candidate with what it saves, in the order given."""
    tables, now = tables_of(weighed), present(weighed)
    before = {name: cost(table, now.belief.alone(name))[0] for name, table in tables.items()}
    hand = in_hand(weighed, tables)
    told = [outcomes(weighed, looks) for looks in candidates]
    after = afters(now.belief, now.factors, told, list(tables))
    return [
        worth_of(weighed, looks, one, tables, before, hand)
        for looks, one in zip(candidates, after, strict=True)
    ]


def worth_of(
    weighed: Weighed,
    looks: Looks,
    after: tuple[Array, Mapping[str, Array]],
    tables: Mapping[str, Array],
    before: Mapping[str, float],
    hand: Sequence[Proof],
) -> Worth:
    """What one test saves."""
    chances, all_shares = after
    shares = {
        name: np.broadcast_to(all_shares[name], [len(chances), all_shares[name].shape[1]])
        for name in tables
    }
    saved = {
        name: float(before[name] - chances @ cost(table, shares[name]))
        for name, table in tables.items()
    }
    proves = {one.variable: proving(weighed, looks, one, chances, shares) for one in hand}
    return Worth(looks.kind, sum(saved.values()), saved, proves, chances, shares)


def proving(
    weighed: Weighed,
    looks: Looks,
    proof: Proof,
    chances: Array,
    shares: Mapping[str, Array],
) -> float:
    """The chance that the test proves what is in hand of one variable: by looking at it itself."""
    codes = weighed.plain.answers[proof.variable]
    if not {*looks.direct.get(proof.variable, ())} & {*proof.cures}:
        return 0.0
    at = [codes.index(code) for code in proof.cures if code in codes]
    now = weighed.share(proof.variable, proof.cures)
    then = shares[proof.variable][:, at].sum(axis=1)
    tells = then * (1 - now) >= TELLS * now * (1 - then)  # the odds, without a division
    return float(chances[(then >= PROVED) & tells].sum())


def decided(weighed: Weighed, name: str, table: Array) -> int:
    """What would be decided of a variable now: 0, leave it; else the number of its remedy."""
    return int((weighed.shares(name) @ table.T).argmin())


def in_hand(weighed: Weighed, tables: Mapping[str, Array]) -> list[Proof]:
    """What would be mended if it were decided now and is not proved, the dearest first."""
    found = []
    for name, table in tables.items():
        best = decided(weighed, name, table)
        if best:
            remedy = REMEDIES[name][best - 1]
            if weighed.share(name, remedy.cures) < PROVED:
                found.append(Proof(name, remedy.words, remedy.cures, remedy.cost))
    return sorted(found, key=lambda one: -one.cost)


def mended(weighed: Weighed) -> dict[str, str]:
    """What would be mended if it were decided now, proved or not: the remedy by its variable."""
    numbers = {name: decided(weighed, name, one) for name, one in tables_of(weighed).items()}
    return {name: REMEDIES[name][at - 1].words for name, at in numbers.items() if at}


def suspected(weighed: Weighed) -> Suspected:
    """What is in hand, and what tests speak against."""
    hand, speak = mended(weighed), raised(weighed)
    seen = {
        name
        for told in weighed.told
        for name in told.looks.direct
        if told.latest.get(name) in told.factor.names
    }
    return Suspected(hand, speak, {*hand} & speak & seen)


def raised(weighed: Weighed) -> frozenset[str]:
    """The variables that tests made more likely to be out of order than in any such car."""
    return frozenset(
        name
        for name, usual in weighed.plain.out_of_order.items()
        if 1 - weighed.share(name, ("ok",)) >= min(RAISED * usual, (1 + usual) / 2)
    )


def outcomes(weighed: Weighed, looks: Looks) -> Factor:
    """A table with one case for each outcome on the car as it is, the last: nothing is read."""
    plain = weighed.plain
    readable = looks.readable(plain)
    read = looks.read(plain) * readable
    nothing = np.broadcast_to(1 - readable, (*read.shape[:-1], 1))
    cases = np.concatenate([read, nothing], axis=-1) if readable.min() < 1 else read
    return Factor(looks.given(plain), np.moveaxis(cases, -1, 0))


def cost(table: Array, shares: Array) -> Array:
    """What the best decision costs in each case."""
    best: Array = (shares @ table.T).min(axis=1)
    return best
