"""The car before and after each change: what a change touched has an answer of its own since.

What it did not touch keeps its one answer, so a test made before and one made after speak of the
same. What was replaced begins as a new part; what was only worked on may be as it was.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from diagnostics.evidence.inference.factors import Array, Factor
from diagnostics.evidence.inference.model import Model
from diagnostics.evidence.inference.network import COUPLINGS, IN_BETWEEN, VARIABLES
from diagnostics.evidence.inference.rows import LEAST, filled

# What became of a variable. All figures: our judgement.
NEW = "new"  # replaced: as a new part is
WORKED_ON = "worked_on"  # cleaned, adjusted, repaired: probably cured, perhaps as it was
FILLED = "filled"  # charged by weight after evacuation
TOPPED_UP = "topped_up"  # filled without a weight to start from
EMPTIED = "emptied"  # recovered or blown off
NEW_PART_OK = 0.985
# A new part's own troubles: a clutch is fitted with the wrong gap sooner than it wears; most
# compressors that come back were killed by the way they were fitted, not made badly.
NEW_PARTS: Mapping[str, Mapping[str, float]] = {
    "clutch": {"ok": 0.985, "gap_wide": 0.008, "gap_small": 0.002, "worn": 0.0004},
    "mechanics": {"ok": 0.965, "locked": 0.014},
}
CURED = 0.6
MENDED = 0.97  # an answer whose own part was replaced or put right
# A pump takes water out slowly: as ice, in the drier and in PAG oil it stays (common practice).
MENDED_IN_PART: Mapping[str, float] = {"moisture": 0.6}
BROKEN_BY_WORK = 0.01
AMOUNTS: Mapping[str, Mapping[str, float]] = {
    FILLED: {"ok": 0.955, "low": 0.02, "empty": 0.005, "too_much": 0.02},
    TOPPED_UP: {"ok": 0.40, "low": 0.32, "empty": 0.01, "too_much": 0.27},
    EMPTIED: {"ok": 0.005, "low": 0.015, "empty": 0.975, "too_much": 0.005},
}
RIGHTLY = tuple(
    answer.code for one in VARIABLES if one.name == "command" for answer in one.answers
    if answer.rightly
)  # fmt: skip

# What a leak that nobody mended has let out again since it was filled, hours or weeks ago.
LEAKING = ("leaks", "leaks_hidden")
FILLED_AND_LEAKS: Mapping[str, float] = {"ok": 0.88, "low": 0.09, "empty": 0.01, "too_much": 0.02}

Became = str | tuple[str, ...]  # one of the above, or the answers that were mended
Changed = Mapping[str, Became]  # {variable: what became of it}


@dataclass(frozen=True)
class Sliced:
    """The network of a car with all its states. `names[state]` has each variable's name then.

    `plain` is the network of one state.
    """

    plain: Model
    model: Model
    names: tuple[Mapping[str, str], ...]

    def at(self, factor: Factor, state: int) -> Factor:
        """A table over the variables as they were in that state."""
        return Factor(tuple(self.names[state][name] for name in factor.names), factor.values)

    @property
    def latest(self) -> Mapping[str, str]:
        """Each variable's name in the last state."""
        return self.names[-1]


def sliced(model: Model, changes: Sequence[Changed]) -> Sliced:
    """The network with one more state for each change; a variable that this car has not is left."""
    names: list[dict[str, str]] = [{name: name for name in model.answers}]
    answers, factors = dict(model.answers), list(model.factors)
    for number, change in enumerate(changes, start=1):
        before = names[-1]
        since = before | {name: f"{name}@{number}" for name in touched(model, change)}
        answers |= {since[name]: model.answers[name] for name in model.answers}
        names.append(since)
        factors += [
            became(model, name, change.get(name, ""), before, since)
            for name in touched(model, change)
        ]
    whole = replace(model, answers=answers, factors=tuple(factors))
    return Sliced(model, whole, tuple(names))


def without_barren(sliced: Sliced, told: Iterable[Factor]) -> Model:
    """The network without in-between variables of earlier states that nothing hangs on.

    Such a one sums to 1 whatever is told, and only makes tables large.
    """
    kept = list(sliced.model.factors)
    latest = set(sliced.latest.values())
    spoken = {name for factor in told for name in factor.names}
    answers = dict(sliced.model.answers)
    for name in reversed(list(answers)):
        plain = name.partition("@")[0]
        within = [factor for factor in kept if name in factor.names]
        kept_for_tests = name in latest and plain in ("driven", "pumps")
        if plain in IN_BETWEEN and not kept_for_tests and name not in spoken and len(within) == 1:
            kept = [factor for factor in kept if factor is not within[0]]
            del answers[name]
    return replace(sliced.model, answers=answers, factors=tuple(kept))


def touched(model: Model, change: Changed) -> list[str]:
    """The variables with a new answer: those changed, and what hangs on them for the moment."""
    found = [name for name in change if name in model.answers]
    if "amount" in found and "command" not in found and change["amount"] != EMPTIED:
        # What a switch refuses changes with the pressure. Of a loop that was emptied nobody asks:
        # what was told of the command before stands until it is filled again.
        found.append("command")
    for name in IN_BETWEEN:
        if set(COUPLINGS[name].given) & set(found):
            found.append(name)
    return found


def became(
    model: Model, name: str, how: Became, before: Mapping[str, str], since: Mapping[str, str]
) -> Factor:
    """The table of a variable's new answer."""
    codes = model.answers[name]
    if name in IN_BETWEEN:
        given = COUPLINGS[name].there(model.answers)
        table = COUPLINGS[name].shares(model.answers, codes)
        return Factor.of([*(since[one] for one in given), since[name]], table)
    if how == NEW:
        return Factor.of([since[name]], new_part(model, name))
    if how == FILLED and "tightness" in since:
        kinds = model.answers["tightness"]
        rows = [FILLED_AND_LEAKS if one in LEAKING else AMOUNTS[FILLED] for one in kinds]
        by_leak = [[row[code] for code in codes] for row in rows]
        return Factor.of([since["tightness"], since[name]], by_leak)
    if isinstance(how, str) and how in AMOUNTS:
        return Factor.of([since[name]], [AMOUNTS[how][code] for code in codes])
    if how == WORKED_ON or isinstance(how, tuple):
        parts = how if isinstance(how, tuple) else ()
        mended = {one: MENDED_IN_PART.get(one, MENDED) for one in parts}
        share = 0.0 if mended else CURED
        return Factor.of([before[name], since[name]], worked_on(codes, mended, share))
    return asked_again(model, before, since)


def new_part(model: Model, name: str) -> Array:
    """A new part: mostly in order, else as the usual shares are."""
    usual = model.usual[name]
    if name in NEW_PARTS:
        return np.asarray(filled(NEW_PARTS[name], model.answers[name], usual))
    others = sum(share for code, share in usual.items() if code != "ok")
    return np.asarray(
        [
            NEW_PART_OK if code == "ok" else (1 - NEW_PART_OK) * usual[code] / others
            for code in model.answers[name]
        ]
    )


def worked_on(codes: Sequence[str], mended: Mapping[str, float], cured: float) -> Array:
    """From the answer before to the answer since: cured or as it was, seldom a fault is made.

    `mended` has the shares of those whose own part was put right, `cured` that of the others.
    """
    count = len(codes)
    table = np.full([count, count], BROKEN_BY_WORK / (count - 1))
    for at, code in enumerate(codes):
        share = mended.get(code, cured)
        table[at, at] = 1 - BROKEN_BY_WORK if code == "ok" else max(1 - share, LEAST)
        if code != "ok":
            table[at, 0] = max(share, BROKEN_BY_WORK / (count - 1))
        table[at] /= table[at].sum()
    return table


def now(codes: Sequence[str], anew: Array) -> Array:
    """What can be said anew of a command with nothing broken in it: right, or refused rightly."""
    kept = np.array([code == "ok" or code in RIGHTLY for code in codes])
    shares = np.where(kept, anew, 0.0)
    whole: Array = shares / shares.sum()
    return whole


def asked_again(model: Model, before: Mapping[str, str], since: Mapping[str, str]) -> Factor:
    """The command after the amount changed: what was refused rightly is asked anew.

    A part that is broken in it stays so.
    """
    codes = model.answers["command"]
    amounts = model.answers["amount"]
    anew = COUPLINGS["command"].shares({"amount": amounts}, codes, model.usual["command"])
    table = np.zeros([len(codes), len(amounts), len(codes)])
    for at, code in enumerate(codes):
        stays = np.eye(len(codes))[at]
        for amount in range(len(amounts)):
            table[at, amount] = now(codes, anew[amount]) if code in (*RIGHTLY, "ok") else stays
    table = np.maximum(table, 1e-4)
    table /= table.sum(axis=-1, keepdims=True)
    return Factor.of([before["command"], since["amount"], since["command"]], table)
