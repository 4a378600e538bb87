"""What the tests of a job told together, as tables of the network.

Tests of one kind, with the switch alike and nothing changed that they look at, hang on one true
outcome: five equal readings count little more than one, and their order never matters.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from diagnostics.evidence.inference.charge_said import charge_said
from diagnostics.evidence.inference.factors import Factor, product
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.states import Sliced
from diagnostics.evidence.lasting import LASTING

# How far the trouble was there when the test was made, by the job's switch; nobody told: as yes.
FAILING: Mapping[str, float] = {"yes": 1.0, "": 1.0, "cannot_tell": 0.5, "no": 0.0}
WEAKER = 3.0
# What a weighed charge speaks against; that it is too much for this car a scale does not know.
NOT_WEIGHED_IN = ("low", "empty")


@dataclass(frozen=True)
class Test:
    """One test that was made and told something: its kind, its outcome's code.

    `number` is the step's in its job, `state` the car's, `failing` the switch at that moment;
    `charge` how the charge was said to be known right beside it, empty: it was not.
    """

    number: int
    kind: str
    outcome: str
    failing: str = ""
    state: int = 0
    charge: str = ""


@dataclass(frozen=True)
class Told:
    """What tests of one kind told together: their numbers, their outcomes, the table.

    `factor` is over the variables as they were in that car state, its largest value 1; `last`: none
    of them was touched since. `names` are those of the model. `charge`: that the charge is known
    was said beside them, and is counted here.
    """

    looks: Looks
    tests: tuple[Test, ...]
    factor: Factor
    latest: Mapping[str, str]
    charge: bool = False

    @property
    def kind(self) -> str:
        """The kind's name."""
        return self.looks.kind

    @property
    def steps(self) -> tuple[int, ...]:
        """The steps' numbers."""
        return tuple(test.number for test in self.tests)

    def weaker(self) -> Factor:
        """The same with its strength three times smaller: nothing is told apart by as much."""
        return Factor(self.factor.names, (self.factor.values * WEAKER).clip(max=1.0))

    def speaks_of(self, variable: str, code: str) -> bool:
        """Whether the kind names this answer itself, of the car as it is now."""
        now = self.latest[variable] in self.factor.names
        weighed = self.charge and variable == "amount" and code in NOT_WEIGHED_IN
        return now and (weighed or code in self.looks.direct.get(variable, ()))

    @property
    def bears(self) -> bool:
        """Whether it tells anything apart."""
        return bool(self.factor.values.min() < 1 - 1e-9)


def told_by(
    sliced: Sliced, tests: Iterable[Test], tables: Mapping[str, Looks], *, each: bool = False
) -> list[Told]:
    """All tests that have a table, put together by kind and switch where they saw the same car.

    `each`: one by one. An outcome that the table has not carries nothing.
    """
    groups: dict[tuple[object, ...], list[Test]] = {}
    right: set[tuple[str, ...]] = set()
    wrong: set[tuple[str, ...]] = set()
    for test in tests:
        if test.kind in tables and test.outcome in tables[test.kind].outcomes:
            looks = tables[test.kind]
            what = (test.kind, *seen(sliced, looks, test))
            there = was_there(sliced, looks, test)
            key = (*what, there)
            groups.setdefault((*key, test.number) if each else key, []).append(test)
            if not there:
                right |= {what}
            elif test.outcome not in looks.normal and test.failing != "no":
                wrong |= {what}
    found = []
    both = right & wrong
    failed = {name for _, *names in both for name in names}
    for group in groups.values():
        looks = tables[group[0].kind]
        names = seen(sliced, looks, group[0])
        is_bad = any(test.outcome not in looks.normal for test in group)
        comes = (looks.kind, *names) in both or (is_bad and bool(failed & {*names}))
        found.append(told(sliced, looks, group, comes=comes))
    return with_charge(sliced, found)


def with_charge(sliced: Sliced, found: list[Told]) -> list[Told]:
    """What was said of the charge beside the tests, in the first of each that see that charge.

    Said several times it is still said by one person, so it counts once.
    """
    said = {
        sliced.names[min(test.state, len(sliced.names) - 1)].get("amount", ""): ""
        for one in found
        for test in one.tests
    }
    counted = []
    for one in found:
        amount = next((name for name in one.factor.names if name in said), "")
        how = sorted({test.charge for test in one.tests} - {""}) if amount else []
        if how and not said[amount]:
            said[amount] = how[0]
            table = charge_said(amount, how[0], sliced.plain.answers["amount"])
            names = one.factor.names
            both = product((one.factor, table), names, sliced.model.sizes)
            factor = Factor(names, both.values / both.values.max())
            counted.append(replace(one, factor=factor, charge=True))
        else:
            counted.append(one)
    return counted


def seen(sliced: Sliced, looks: Looks, test: Test) -> tuple[str, ...]:
    """What a test looked at, by its names in that car state."""
    names = sliced.names[min(test.state, len(sliced.names) - 1)]
    return tuple(names[name] for name in looks.given(sliced.plain))


def was_there(sliced: Sliced, looks: Looks, test: Test) -> float:
    """How far a test was made on the car as it fails: what is found wrong was there by itself.

    So is what does not come and go. And where what it looks at was changed before, the car is to
    be looked at as it is now: that it does not fail any more is what the repair was for.
    """
    came_to_stay = looks.kind in LASTING or test.outcome not in looks.normal
    if came_to_stay or mended_before(sliced, looks, test):
        return 1.0
    return FAILING.get(test.failing, 1.0)


def mended_before(sliced: Sliced, looks: Looks, test: Test) -> bool:
    """Whether something that a test looks at itself was changed before it."""
    names = sliced.names[min(test.state, len(sliced.names) - 1)]
    looked_at = [name for name in looks.direct if name in names]
    return any(names[name] != sliced.names[0][name] for name in looked_at)


def told(sliced: Sliced, looks: Looks, tests: list[Test], *, comes: bool = False) -> Told:
    """Tests of one kind that hang on one true outcome; `comes`: it does, right and wrong."""
    first = tests[0]
    read = sorted(test.outcome for test in tests)
    factor = looks.told(sliced.plain, read, was_there(sliced, looks, first), comes=comes)
    state = min(first.state, len(sliced.names) - 1)
    return Told(looks, tuple(tests), sliced.at(factor, state), sliced.latest)
