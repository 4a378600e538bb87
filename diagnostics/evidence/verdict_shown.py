"""A verdict as people read it: six questions, the parts of each, and the steps for and against.

Nothing is said of what no test bears on but that it was not tested: what cars usually have is no
finding. No number and no share is in here.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from diagnostics.evidence.concluded import Concluded
from diagnostics.evidence.findings import Standing
from diagnostics.evidence.inference.network import OTHER, QUESTIONS, VARIABLES, Variable
from diagnostics.evidence.inference.verdict import NOT_OK, Carries, Stands
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.verdict_words import (
    INSIDE,
    TO_CUSTOMER,
    alone_words,
    carried_by,
    weaker_words,
)

NAMES: Mapping[str, str] = {
    "command": "Command",
    "clutch": "Clutch",
    "compressor": "Compressor",
    "charge": "Charge",
    "cleanliness": "Cleanliness",
    "heat": "Heat",
}
NOT_TESTED = "not tested yet"
NOT_ITSELF = "not tested itself yet"
NO_TEST_BEARS = "no test bears on it"
IN_ORDER = "in order"
# So many answers are named where one of them is at fault, if they leave out no more than that share
# of it. Our judgement.
FEW = 3
HARDLY = 2  # odds below which a test hardly speaks of an answer (verdict_words.SCALE)
LEFT_OUT = 0.05
ORDER: Mapping[Standing, int] = {"proved": 0, "likely": 1, "open": 2, "ruled_out": 3}


@dataclass(frozen=True)
class Spoken:
    """What one kind of test says of an answer: its steps, and a sentence."""

    steps: tuple[int, ...]
    sentence: str


@dataclass(frozen=True)
class AnswerShown:
    """One answer with its mark; `by_for` and `by_against` are the numbers of steps."""

    words: str
    standing: Standing
    by_for: tuple[int, ...] = ()
    by_against: tuple[int, ...] = ()

    @property
    def inside(self) -> str:
        """How it stands, in the technician's word."""
        return INSIDE[self.standing]

    @property
    def bears(self) -> str:
        """Which steps bear on it."""
        sides = (("for it", self.by_for), ("against it", self.by_against))
        said = [f"{side}: {numbered(steps)}" for side, steps in sides if steps]
        return " · ".join(said) or NO_TEST_BEARS


@dataclass(frozen=True)
class Part:
    """One variable. `about` is the answer that `spoken` speaks of, `notes` how firmly it stands.

    `looked_at`: a test named one of its answers, where others bear on it from afar only.
    `ruled_out` and `untested` are further answers, by their words.
    """

    name: str
    words: str
    standing: Standing
    said: str
    looked_at: bool = False
    answers: tuple[AnswerShown, ...] = ()
    ruled_out: tuple[str, ...] = ()
    untested: tuple[str, ...] = ()
    about: str = ""
    spoken: tuple[Spoken, ...] = ()
    notes: tuple[str, ...] = ()
    overturns: tuple[str, ...] = ()

    @property
    def to_customer(self) -> str:
        """How it stands, as the customer is told."""
        return TO_CUSTOMER[self.standing]

    @property
    def is_told(self) -> bool:
        """Whether there is more to say of it than that it was not tested itself."""
        return self.looked_at or self.standing != "open"


@dataclass(frozen=True)
class Question:
    """One of the six, in one line, with its parts."""

    code: str
    name: str
    words: str
    standing: Standing
    said: str
    parts: tuple[Part, ...]

    @property
    def untested(self) -> tuple[str, ...]:
        """The parts that no test looked at."""
        return tuple(one.words for one in self.parts if not one.is_told)

    @property
    def line(self) -> str:
        """All of it in one line, as the customer is told; what is open says itself how far."""
        begins = "" if self.standing == "open" else f"{TO_CUSTOMER[self.standing]}: "
        return begins + self.said

    @property
    def to_customer(self) -> str:
        """How it stands, as the customer is told."""
        return TO_CUSTOMER[self.standing]


def questions_shown(found: Concluded, kinds: Mapping[str, Kind]) -> tuple[Question, ...]:
    """All six, in their order; one that this car has no part of is left out."""
    there: dict[str, list[Part]] = {}
    for one in VARIABLES:
        if found.of(one.name, "ok"):
            there.setdefault(one.question, []).append(part_of(one, found, kinds))
    return tuple(
        question_of(code, words, tuple(there[code]))
        for code, words in QUESTIONS.items()
        if code in there
    )


def question_of(code: str, words: str, parts: tuple[Part, ...]) -> Question:
    """A question in one line: what is wrong before what is in order, else what is open."""
    standing, said = in_a_line(parts)
    return Question(code, NAMES[code], words, standing, said, parts)


def in_a_line(parts: tuple[Part, ...]) -> tuple[Standing, str]:
    """What is shown or likely to be wrong; else that all is in order; else what is open."""
    for standing in ("proved", "likely"):
        wrong = [one for one in parts if one.standing == standing and one.said != IN_ORDER]
        if wrong:
            said = "; ".join(f"{one.words.lower()}: {one.said}" for one in wrong)
            return wrong[0].standing, said
    if not any(one.looked_at for one in parts):
        return "open", NOT_TESTED
    fine = [one for one in parts if one.said == IN_ORDER]
    if len(fine) == len(parts):
        return ("proved" if all(one.standing == "proved" for one in fine) else "likely"), IN_ORDER
    if not fine:
        return "open", "tested, not settled"
    left = [one for one in parts if one not in fine]
    names = ", ".join(one.words.lower() for one in left)
    sure = "" if all(one.standing == "proved" for one in fine) else f"{TO_CUSTOMER['likely']} "
    in_order = f"{sure}{', '.join(one.words.lower() for one in fine)} {IN_ORDER}"
    return "open", f"{in_order}; open: {names}"


def part_of(variable: Variable, found: Concluded, kinds: Mapping[str, Kind]) -> Part:
    """One variable."""
    stands = [one for one in found.stands if one.variable == variable.name]
    tested = [one for one in stands if one.carried]
    if not tested:
        return Part(variable.name, variable.words, "open", NOT_TESTED)
    about = subject(tested)
    looked_at = any(name == variable.name for name, _ in found.spoken)
    few = few_of(about, stands)
    rest = [one for one in stands if one.code != NOT_OK and one not in few]
    answers = sorted(rest, key=by_strength)
    out = [one for one in answers if one.carried and one.standing == "ruled_out"]
    named = [one for one in answers if one.carried and one not in out]
    notes = (weaker_words(about), alone_words(about, kinds))
    return Part(
        variable.name,
        variable.words,
        about.standing if about.standing in ("proved", "likely") else "open",
        said_of(about, variable, stands, looked_at=looked_at),
        looked_at,
        (
            *([shown(about, variable, of=few)] if few else ()),
            *together(shown(one, variable) for one in named),
        ),
        tuple(words_of(one, variable) for one in out),
        tuple(words_of(one, variable) for one in answers if not one.carried),
        words_of(about, variable),
        tuple(spoken(one, found, kinds) for one in heard(about)),
        tuple(note for note in notes if note),
        tuple(overturn_words(about, found, kinds)),
    )


def subject(tested: Iterable[Stands]) -> Stands:
    """The answer that a variable's steps are told of: what is wrong, else that it is in order.

    Where several are open, the likeliest; a single answer before "not in order".
    """
    said = {one.code: one for one in tested}
    not_ok = said.get(NOT_OK)
    single = [one for code, one in said.items() if code not in ("ok", NOT_OK)]
    if not_ok and not_ok.standing in ("proved", "likely"):
        named = [one for one in single if one.standing in ("proved", "likely")]
        return max(named, key=lambda one: one.share, default=not_ok)
    if "ok" in said and said["ok"].standing in ("proved", "likely"):
        return said["ok"]
    return max(said.values(), key=lambda one: (one.code not in ("ok", NOT_OK), one.share))


def by_strength(one: Stands) -> tuple[int, bool, float]:
    """The strongest first, what is ruled out last, "something else" behind its like."""
    return ORDER[one.standing], one.code == OTHER, -one.share


def said_of(about: Stands, variable: Variable, stands: Iterable[Stands], *, looked_at: bool) -> str:
    """A variable in a few words."""
    if about.standing == "ruled_out":
        return f"{words_of(about, variable)} ruled out, the rest open"
    if about.standing == "open":
        return "tested, not settled" if looked_at else NOT_ITSELF
    if about.code == NOT_OK:
        return one_of(about, variable, stands)
    return IN_ORDER if about.code == "ok" else words_of(about, variable)


def one_of(about: Stands, variable: Variable, stands: Iterable[Stands]) -> str:
    """What is not in order: the few answers it lies between, where a few are enough."""
    few = few_of(about, stands)
    return either(few, variable) if few else "not in order, what is open"


def few_of(about: Stands, stands: Iterable[Stands]) -> list[Stands]:
    """The few answers between which it lies, likeliest first; none where it takes many."""
    if about.code != NOT_OK or about.standing not in ("proved", "likely"):
        return []
    single = [one for one in stands if one.code not in ("ok", NOT_OK) and one.standing == "open"]
    likeliest = sorted(single, key=lambda one: -one.share)
    for count in range(1, FEW + 1):
        few = likeliest[:count]
        if sum(one.share for one in few) >= (1 - LEFT_OUT) * about.share:
            return few
    return []


def either(few: Iterable[Stands], variable: Variable) -> str:
    """Coil open or the coil's melt fuse open."""
    return " or ".join(words_of(one, variable) for one in few)


def words_of(one: Stands, variable: Variable) -> str:
    """An answer's words, without its variable."""
    return "not in order" if one.code == NOT_OK else variable.answer(one.code).words


def shown(one: Stands, variable: Variable, of: Sequence[Stands] = ()) -> AnswerShown:
    """An answer on which tests bear, or the few `of` which one it is."""
    return AnswerShown(
        either(of, variable) if of else words_of(one, variable),
        one.standing,
        numbers(each for each in heard(one) if each.odds > 1),
        numbers(each for each in heard(one) if each.odds <= 1),
    )


def together(answers: Iterable[AnswerShown]) -> Iterator[AnswerShown]:
    """Open answers against which the same steps speak stand in one line: a list, no finding."""
    weak: dict[tuple[int, ...], list[AnswerShown]] = {}
    for one in answers:
        if one.standing == "open" and not one.by_for:
            weak.setdefault(one.by_against, []).append(one)
        else:
            yield one
    for steps, alike in weak.items():
        yield AnswerShown(", ".join(one.words for one in alike), "open", (), steps)


def heard(one: Stands) -> list[Carries]:
    """What carries an answer; what hardly speaks of it only where nothing speaks louder."""
    loud = [each for each in one.carried if max(each.odds, 1 / each.odds) >= HARDLY]
    return loud or list(one.carried)


def numbers(carried: Iterable[Carries]) -> tuple[int, ...]:
    """The numbers of the steps, in their order."""
    return tuple(sorted({number for one in carried for number in one.steps}))


def spoken(one: Carries, found: Concluded, kinds: Mapping[str, Kind]) -> Spoken:
    """What a kind of test says of an answer."""
    return Spoken(one.steps, carried_by(one, found.read, kinds))


def overturn_words(about: Stands, found: Concluded, kinds: Mapping[str, Kind]) -> Iterator[str]:
    """What would take the standing away: Hub turned by hand, if it came out: locked."""
    for one in found.overturns:
        if (one.variable, one.code) == (about.variable, about.code):
            kind = kinds[one.kind]
            words = next(row.words for row in kind.outcomes if row.code == one.outcome)
            yield f"{kind.title}, if it came out as: {words}"


def numbered(steps: Sequence[int]) -> str:
    """Steps by their numbers: step 3; steps 3, 7."""
    return f"step{'s' * (len(steps) > 1)} {', '.join(str(number) for number in steps)}"


def plain_words(questions: Iterable[Question]) -> Iterator[str]:
    """What may be told the customer: what was found wrong, each as it stands, in one sentence."""
    for question in questions:
        for part in question.parts:
            if part.standing in ("proved", "likely") and part.said != IN_ORDER:
                words = part.to_customer
                yield f"{words[:1].upper()}{words[1:]}: {part.said} ({part.words.lower()})."
