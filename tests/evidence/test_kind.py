"""What every kind of test step has to keep to."""

import json
import re

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice, Number, When
from diagnostics.evidence.kind import NOT_DONE, Kind, as_plain
from diagnostics.evidence.system import SystemRule
from diagnostics.physics.uncertainty import INSTRUMENTS
from diagnostics.physics.units import UNITS, to_si

ALL = pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
CODE = re.compile(r"[a-z][a-z0-9_]{0,39}")
# What no sentence of ours says: praise, blame, haste, a promise that the evidence cannot keep.
BANNED = re.compile(
    r"!|\boops\b|successful|\bplease\b|\berror\b|\bdefective\b|leak-free|\bpass(ed)?\b|\bfail(ed)?\b"
    r"|\bdiagnosed\b|\bunknown\b|inconclusive|\bn/a\b",
    re.IGNORECASE,
)


def sentences(value):
    """Every text in a plain description, whatever its depth."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for part in value.values():
            yield from sentences(part)
    elif isinstance(value, list):
        for part in value:
            yield from sentences(part)


@ALL
def test_a_kind_is_plain_data_and_survives_json(kind):
    plain = kind.as_json()
    assert json.loads(json.dumps(plain)) == plain
    assert [field["type"] for field in plain["fields"]] == [
        type(field).__name__.lower() for field in kind.fields
    ]


@ALL
def test_names_and_codes_of_a_kind_are_codes_and_none_comes_twice(kind):
    names = [field.name for field in kind.fields]
    outcomes = [outcome.code for outcome in kind.outcomes]
    for codes in (names, outcomes, *([a.code for a in c.answers] for c in kind.choices)):
        assert len(set(codes)) == len(codes)
        assert all(CODE.fullmatch(code) for code in codes)


@ALL
def test_every_condition_of_a_kind_names_a_field_and_its_answers(kind):
    def holds(when: When) -> bool:
        asked = kind.asked(when.field)
        return isinstance(asked, Choice) and all(
            code == "" or asked.answer(code) for code in when.values
        )

    conditions = [when for field in kind.fields for when in field.when]
    conditions += [when for choice in kind.choices for a in choice.answers for when in a.when]
    conditions += [when for gate in kind.gates for when in gate.when]
    assert all(holds(when) for when in conditions)
    assert all(holds(When(gate.field, gate.passes)) for gate in kind.gates)
    taps = kind.fine.taps if kind.fine else {}
    assert all(kind.asked(name).answer(code) for name, code in taps.items())


@ALL
def test_what_is_asked_only_sometimes_says_why_when_it_was_answered_all_the_same(kind):
    for field in kind.fields:
        assert bool(field.when) == bool(field.why_not)
    for choice in kind.choices:
        assert all(bool(answer.when) == bool(answer.why_not) for answer in choice.answers)


@ALL
def test_the_fields_that_need_an_order_are_the_kinds_own(kind):
    needs = [one.field if isinstance(one, When) else one for one in kind.orders_for]
    assert all(kind.asked(name) for name in (*needs, *kind.by_hoses))
    assert kind.orders or not kind.orders_for
    assert "gas_first" in kind.orders or not kind.by_hoses


@ALL
def test_fine_sets_taps_and_never_a_number(kind):
    taps = kind.fine.taps if kind.fine else {}
    assert all(isinstance(kind.asked(name), Choice) for name in taps)


@ALL
def test_what_fine_sets_is_at_odds_with_nothing(kind):
    assert kind.problems(kind.fine.taps if kind.fine else {}, Circumstances()) == {}


@ALL
def test_limits_of_a_number_stand_in_order_and_in_units_that_exist(kind):
    for number in kind.numbers:
        assert all(UNITS[unit].quantity == UNITS[number.unit].quantity for unit in number.units)
        assert number.instrument in INSTRUMENTS
        for span in (number.span, *(one.span for one in number.spans)):
            assert span.least <= span.low < span.high <= span.most
            assert to_si(span.least, number.unit) < to_si(span.most, number.unit)


@ALL
def test_a_kind_warns_and_defers_to_local_codes(kind):
    assert any("Local codes" in caution for caution in kind.cautions)


@ALL
def test_no_sentence_of_a_kind_says_what_we_do_not_say(kind):
    for sentence in sentences(kind.as_json()):
        assert not BANNED.search(sentence), sentence


def test_could_not_be_done_has_six_reasons_in_words():
    assert [reason.code for reason in NOT_DONE] == [
        "no_access", "no_tool", "not_authorized", "unsafe", "not_qualified", "no_time",
    ]  # fmt: skip


def test_a_rule_about_the_system_holds_only_when_every_part_of_it_does():
    rule = SystemRule({"drive": ("belt_electric",), "clutch": ("none",)}, "no")
    assert rule.holds({"drive": "belt_electric", "clutch": "none"})
    assert not rule.holds({"drive": "belt_electric"})


def test_what_is_not_known_of_a_system_counts_as_empty_not_as_no():
    rule = SystemRule({"drive": ("",)}, "ask")
    assert rule.holds({})
    assert rule.holds({"drive": ""})
    assert not rule.holds({"drive": "belt_clutch"})


def test_the_catalogue_names_each_kind_by_its_own_name():
    assert all(isinstance(kind, Kind) and kind.name == name for name, kind in KINDS.items())


def test_a_number_says_its_type_in_plain_data():
    number = next(iter(KINDS["coil_power"].numbers))
    assert isinstance(number, Number)
    assert as_plain(number)["type"] == "number"
