"""What no kind of test may do, whatever it is told: on every kind, with anything for readings."""

import itertools
import json
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from diagnostics.evidence.catalogue import GROUPS, KINDS
from diagnostics.evidence.cautions import HIGH_VOLTAGE
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice, Number
from diagnostics.evidence.findings import Meaning
from diagnostics.evidence.kind import NOT_DONE, Kind
from diagnostics.evidence.lasting import LASTING
from diagnostics.evidence.readings import parse
from diagnostics.evidence.system import System
from tests.evidence.anything import SYSTEM_KEYS, arounds, readings_of
from tests.evidence.test_kind import BANNED
from tests.evidence.trial import asked_on, fine_on, is_elsewhere, words_of

ALL = pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
ANYTHING = settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.too_slow])
# Claims that no evidence of ours keeps, praise, blame, and a chance in figures.
CLAIMS = re.compile(
    r"no leak|leak[- ]free|defective|\bchances?\b|probab|\bodds are\b|%\s*(sure|certain|likely)",
    re.IGNORECASE,
)
# How a reading that is not there is spoken of.
MISSING = re.compile(
    r"\bnot (read|told|looked|tested|noted|used|measured|done|known|checked|made|both read|shown"
    r"|identified|searched)\b|no readings?|nothing|neither|missing",
    re.IGNORECASE,
)
NO_NUMBER = re.compile(r"\bnan\b|\binf\b|\{|\}|\bTrue\b|\bFalse\b")
STANDINGS = {"proved", "likely", "open", "ruled_out"}
SYSTEMS: tuple[System, ...] = (
    {},
    *(System(drive=drive, refrigerant="R-1234yf", voltage="12") for drive in SYSTEM_KEYS["drive"]),
)


def assert_unasked_feeds_nothing(kind: Kind, readings: dict, around: Circumstances) -> None:
    """What is not asked on such a system changes no outcome, and is asked about or marked."""
    asked = asked_on(kind, around.system)
    fed = {
        name: told
        for name, told in readings.items()
        if name in asked and not is_elsewhere(asked[name], told, around.system)
    }
    unasked = readings.keys() - fed.keys()
    assert kind.meaning(readings, around).outcome == kind.meaning(fed, around).outcome
    assert unasked <= kind.problems(readings, around).keys()


def assert_next_is_said_once(meaning: Meaning) -> None:
    """What to do next stands under Next, and in no finding or note beside it."""
    said = " ".join(words_of(meaning))
    assert not [step for step in meaning.onward if said.count(step) > 1], said


def hold(kind: Kind, readings: dict, around: Circumstances) -> Meaning:
    """Everything that holds of a meaning, and of what is odd about the readings."""
    meaning = kind.meaning(readings, around)
    assert_unasked_feeds_nothing(kind, readings, around)
    outcome = meaning.outcome
    listed = {one.code: one for one in kind.outcomes}
    assert outcome.code in listed
    assert outcome.sentence.strip()
    assert not (outcome.carries and not listed[outcome.code].carries)
    assert (
        outcome.carries
        or not [mark for mark in outcome.marks if mark.standing in ("proved", "likely")]
        or around.failing in ("no", "cannot_tell")
    )
    assert {mark.standing for mark in outcome.marks} <= STANDINGS
    assert {value.about for value in meaning.values} <= {one.name for one in kind.fields}
    odd = [one.sentence for found in kind.problems(readings, around).values() for one in found]
    assert_next_is_said_once(meaning)
    for text in (*words_of(meaning), *odd):
        assert not BANNED.search(text), text
        assert not CLAIMS.search(text), text
        assert not NO_NUMBER.search(text), text
    return meaning


@ALL
@ANYTHING
@given(data=st.data())
def test_anything_read_on_any_car_has_a_listed_outcome_in_honest_words(kind, data):
    around = data.draw(arounds())
    hold(kind, data.draw(readings_of(kind, around)), around)


@ALL
@pytest.mark.parametrize("system", SYSTEMS, ids=lambda one: one.get("drive", "bare") or "no drive")
def test_every_tap_alone_has_a_listed_outcome_in_honest_words(kind, system):
    for choice in kind.choices:
        for answer in choice.answers:
            hold(kind, {choice.name: answer.code}, Circumstances(system))


@ALL
@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_no_answer_speaks_of_belt_or_pulley_where_a_motor_turns_it(kind, drive):
    system = System(drive=drive)
    if kind.forbids(system):
        return
    for asked in asked_on(kind, system).values():
        for answer in asked.answers if isinstance(asked, Choice) else ():
            if not is_elsewhere(asked, answer.code, system):
                assert not re.search(r"\b(belt|pulley|idler)", answer.words, re.IGNORECASE)


@ALL
def test_high_voltage_is_minded_on_a_belt_driven_compressor_that_has_it_too(kind):
    """A belt turns it, or a motor inside does: the orange cables are there either way."""
    hv, both = (kind.remarks_for({"drive": drive}) for drive in ("electric_hv", "belt_electric"))
    assert {one for one in hv if HIGH_VOLTAGE in one} <= set(both)


@ALL
def test_every_two_taps_have_a_listed_outcome_in_honest_words(kind):
    around = Circumstances({"drive": "belt_clutch", "refrigerant": "R-134a", "voltage": "12"})
    taps = [(choice.name, answer.code) for choice in kind.choices for answer in choice.answers]
    for one, other in itertools.combinations(taps, 2):
        if one[0] != other[0]:
            hold(kind, dict((one, other)), around)


@ALL
@pytest.mark.parametrize("system", SYSTEMS[:3], ids=["bare", "clutch", "clutchless"])
def test_one_number_alone_has_a_listed_outcome_in_honest_words(kind, system):
    around = Circumstances(system)
    for number in kind.numbers:
        span = number.span_for(system)
        beyond = (span.most * 2 + 1, span.least - abs(span.least) - 1)
        for value in (span.low, span.high, span.least, span.most, *beyond):
            for unit in number.units:
                hold(kind, {number.name: parse(f"{value:.2f}", number.units, unit)}, around)


@ALL
@pytest.mark.parametrize("system", SYSTEMS, ids=lambda one: one.get("drive", "bare") or "no drive")
def test_nothing_told_carries_nothing_and_is_said_to_be_missing(kind, system):
    meaning = hold(kind, {}, Circumstances(system))
    assert not meaning.outcome.carries
    assert meaning.outcome.marks == ()
    assert any(MISSING.search(text) for text in words_of(meaning)), words_of(meaning)


@ALL
def test_circumstances_alone_carry_nothing(kind):
    for choice in kind.choices:
        for answer in choice.answers if choice.condition else ():
            meaning = kind.meaning({choice.name: answer.code}, Circumstances())
            assert not meaning.outcome.carries, (choice.name, answer.code)
    for number in (one for one in kind.numbers if one.condition):
        reading = parse(f"{number.span.low:g}", number.units, number.unit)
        assert not kind.meaning({number.name: reading}, Circumstances()).outcome.carries


@ALL
def test_numbers_that_were_not_read_are_said_to_be_missing(kind):
    # The button for fine sets no number: those it leaves out are named.
    if kind.fine is None or not any(_is_finding(one) for one in kind.numbers):
        return
    meaning = kind.meaning(dict(kind.fine.taps), Circumstances())
    assert any(MISSING.search(text) for text in words_of(meaning)), words_of(meaning)


def _is_finding(number: Number) -> bool:
    return not (number.condition or number.after or number.when)


@ALL
def test_the_button_for_fine_sets_taps_that_are_at_odds_with_nothing(kind):
    for system in SYSTEMS:
        if kind.fine and kind.forbids(system) is None:
            assert kind.problems(fine_on(kind, system), Circumstances(system)) == {}


@ALL
@pytest.mark.parametrize("failing", ["no", "cannot_tell"])
def test_what_is_normal_and_comes_and_goes_carries_nothing_while_it_is_not_failing(kind, failing):
    if kind.fine and kind.name not in LASTING:
        meaning = kind.meaning(dict(kind.fine.taps), Circumstances({}, failing))
        assert not (meaning.outcome.carries and kind.is_normal(meaning.outcome.code))


@ALL
def test_a_kind_has_all_that_pages_and_plans_need(kind):
    assert kind.about in GROUPS
    assert kind.minutes > 0
    assert kind.cautions
    assert kind.cautions[-1] == "Local codes and licensed practice come first."
    assert kind.not_done == NOT_DONE
    assert kind.question.endswith("?")
    assert not kind.title.endswith((".", "?"))
    (nothing,) = [one for one in kind.outcomes if one.code == "nothing_told"]
    assert not nothing.carries
    assert json.loads(json.dumps(kind.as_json()))["name"] == kind.name


@ALL
def test_the_outcomes_of_a_kind_are_graded_finely_enough(kind):
    carrying = [one for one in kind.outcomes if one.carries]
    assert len(carrying) >= 2
    assert not any(one.normal and not one.carries for one in kind.outcomes)


@ALL
def test_a_kind_has_tests_of_its_own(kind):
    assert Path(__file__).with_name(f"test_{kind.name}.py").exists()


def test_the_kinds_stand_in_the_order_of_their_groups():
    order = list(GROUPS)
    places = [order.index(kind.about) for kind in KINDS.values()]
    assert places == sorted(places)
