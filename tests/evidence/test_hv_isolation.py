"""High voltage isolated and proven dead: what is missing keeps it live.

Isolate, wait, prove dead, by a person qualified for it: trade articles. UN Regulation No. 100,
5.1.3.1: 100 ohm per volt for the DC side of a whole vehicle, for approval.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.kind import NOT_DONE
from diagnostics.evidence.kinds.hv_isolation import HV_ISOLATION
from diagnostics.evidence.orders import ORDERS, PROVEN_DEAD, Made
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

DEAD = Trial("hv_isolation")
HV: System = {"drive": "electric_hv"}
DONE = {
    "qualified": "yes",
    "plug": "out",
    "waited": "10",
    "figure": "5",
    "proof": "dead",
    "volts": "0.3",
}
AT_400 = DONE | {"system_volts": "400", "test_volts": "500"}
AT_500 = {"test_volts": "500"}

PATTERNS = [
    (DONE, "isolated_dead"),
    (DONE | {"volts": "0.4"}, "isolated_dead"),
    (DONE | {"plug": "none"}, "isolated_dead"),
    (DONE | AT_500 | {"insulation": "20", "least": "1"}, "dead_insulation_inside"),
    (AT_400 | {"insulation": "20", "least": "1", "test_volts": "9"}, "dead_insulation_recorded"),
    (DONE | {"insulation": "20", "least": "1"}, "dead_insulation_recorded"),
    (DONE | {"insulation": "0.5", "least": "1"}, "dead_insulation_low"),
    (AT_400 | {"insulation": "0.03"}, "dead_insulation_low"),
    (AT_400 | {"insulation": "20"}, "dead_insulation_recorded"),
    (DONE | {"insulation": "20"}, "dead_insulation_recorded"),
    (DONE | {"insulation": "1.01", "least": "1"}, "dead_insulation_recorded"),
    (DONE | {"volts": "380"}, "not_dead"),
    (DONE | {"proof": "alive"}, "not_dead"),
    ({"proof": "alive"}, "not_dead"),
    (DONE | {"proof": "dead_once"}, "not_proven"),
    (DONE | {"proof": "not_done"}, "not_proven"),
    (DONE | {"plug": "in"}, "not_proven"),
    (DONE | {"waited": "3"}, "not_proven"),
    (DONE | {"waited": ""}, "not_proven"),
    (DONE | {"waited": "0"}, "not_proven"),
    (DONE | {"waited": "0.02"}, "not_proven"),
    (DONE | {"figure": ""}, "not_proven"),
    (DONE | {"waited": "0.02", "figure": "0.02"}, "not_proven"),
    (DONE | {"figure": "0.02"}, "not_proven"),
    (DONE | {"figure": "", "insulation": "20", "least": "1"}, "not_proven"),
    (DONE | {"volts": ""}, "not_proven"),
    (DONE | {"volts": "59"}, "not_proven"),
    (DONE | {"volts": "12"}, "not_proven"),
    (DONE | {"qualified": ""}, "not_proven"),
    (DONE | {"volts": "-5000"}, "not_proven"),
    ({"qualified": "no"}, "nothing_told"),
    (DONE | {"qualified": "no"}, "nothing_told"),
    ({"waited": "10"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert DEAD.code(HV, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in DEAD.kind.outcomes}


TYPED = st.fixed_dictionaries(
    {},
    optional={
        **{
            one.name: st.sampled_from([answer.code for answer in one.answers])
            for one in HV_ISOLATION.choices
        },
        **{one.name: st.decimals(-5, 900, places=2).map(str) for one in HV_ISOLATION.numbers},
    },
)


@given(TYPED)
def test_it_is_dead_only_with_a_qualified_person_a_plug_out_a_wait_and_a_proven_tester(typed):
    if DEAD.code(HV, **typed) in PROVEN_DEAD:
        assert typed["qualified"] == "yes"
        assert typed["plug"] in ("out", "none")
        assert float(typed["waited"]) >= max(float(typed["figure"]), 1)
        assert float(typed["figure"]) >= 1
        assert abs(float(typed["volts"])) < 5
        assert typed["proof"] == "dead"
        assert float(typed.get("volts", "0")) < 60


def test_what_is_missing_is_named():
    sentence = DEAD.meaning(HV, **DONE | {"waited": "3", "proof": "dead_once"}).outcome.sentence
    assert "shorter than the maker’s" in sentence
    assert "tester was not proven before and after" in sentence


@pytest.mark.parametrize("typed", [{"volts": "380"}, {"volts": "59.99"}, {"proof": "alive"}])
def test_a_voltage_that_is_there_beats_what_was_told(typed):
    result = DEAD.meaning(HV, **DONE | typed)
    assert result.outcome.code == "not_dead"
    assert standing(result, "High voltage") == "open"
    assert result.onward[0].startswith("Hands off")


def test_a_little_voltage_that_remains_is_told():
    assert any(
        "12.0\u00a0V remain" in note for note in DEAD.meaning(HV, **DONE | {"volts": "12.0"}).notes
    )


def test_nobody_qualified_is_an_honest_end():
    assert "not_qualified" in [one.code for one in NOT_DONE]
    result = DEAD.meaning(HV, qualified="no")
    assert not result.outcome.carries
    assert "Nobody qualified" in result.outcome.sentence


def test_who_did_it_comes_before_what_was_done_and_is_marked_where_it_is_missing():
    (gate,) = DEAD.kind.gates
    assert gate.is_broken({"proof": "dead"})
    assert not gate.is_broken({"proof": "dead", "qualified": "yes"})


def test_only_proven_dead_opens_what_waits_for_it():
    order = ORDERS["dead_first"]
    for one in DEAD.kind.outcomes:
        assert order.is_kept([Made("hv_isolation", one.code)], HV) == (one.code in PROVEN_DEAD)
    again = [Made("hv_isolation", "isolated_dead"), Made("hv_isolation", "not_proven")]
    assert not order.is_kept(again, HV)


def test_insulation_is_never_good_by_the_general_figure():
    result = DEAD.meaning(HV, **AT_400, insulation="20")
    assert subjects(result, "ruled_out") == []
    assert "no proof that a part is good" in result.band
    assert "check your local rules" in result.band


def test_insulation_below_the_general_figure_says_what_it_was_held_against():
    result = DEAD.meaning(HV, **AT_400, insulation="0.03")  # 75 ohm per volt
    assert result.outcome.basis == "general"
    assert "100\u00a0Ω/V" in result.band
    assert [one.shown for one in result.values] == ["75\u00a0Ω/V"]
    assert any("1 %" in note for note in result.notes)


def test_the_makers_least_goes_before_the_general_figure():
    result = DEAD.meaning(HV, **AT_400, insulation="0.03", least="0.01")
    assert result.outcome.code == "dead_insulation_inside"
    assert result.outcome.basis == "vehicle"


def test_insulation_low_does_not_name_the_compressor():
    result = DEAD.meaning(HV, **AT_400, insulation="0.03")
    assert [mark.subject for mark in result.outcome.marks] == [
        "High voltage dead",
        "Insulation low",
    ]
    assert "not told by one reading" in result.outcome.marks[1].sentence


def test_insulation_is_asked_about_only_after_it_was_proven_dead():
    assert "insulation" in DEAD.asks(HV, proof="not_done", insulation="20")
    assert "insulation" not in DEAD.asks(HV, **DONE, insulation="20")


@pytest.mark.parametrize("drive", ["belt_clutch", "belt_clutchless"])
def test_it_is_barred_on_a_belt(drive):
    assert DEAD.kind.forbids({"drive": drive})
    assert DEAD.code({"drive": drive}, **DONE) == "nothing_told"


def test_48_volts_have_a_sentence_of_their_own():
    assert any("48 V class" in words for words in DEAD.kind.remarks_for({"drive": "electric_48"}))


def test_no_button_says_that_all_is_fine():
    assert DEAD.kind.fine is None


def test_it_warns_of_capacitors_and_of_being_alone():
    words = " ".join(DEAD.kind.cautions)
    assert "Capacitors" in words
    assert "never alone" in words


@pytest.mark.parametrize("number", HV_ISOLATION.numbers, ids=lambda one: one.name)
def test_any_number_alone_says_something_sensible(number):
    for typed in ("0", "-3", "30", "9000000"):
        assert DEAD.meaning(HV, **{number.name: typed}).outcome.sentence


def test_a_tester_weaker_than_the_car_rules_no_low_insulation_out():
    typed = AT_400 | {"insulation": "20", "least": "1", "test_volts": "9"}
    assert subjects(DEAD.meaning(HV, **typed), "ruled_out") == []
    assert "a good reading says nothing then" in DEAD.words(HV, **typed)
    low = DEAD.meaning(HV, **typed | {"insulation": "0.1"})
    assert subjects(low, "proved") == ["High voltage dead", "Insulation low"]


def test_a_voltage_that_was_not_read_is_named_before_anything_is_taken_as_dead():
    sentence = DEAD.meaning(HV, **DONE | {"volts": ""}).outcome.sentence
    assert "the highest voltage left was not read" in sentence


def test_without_a_plug_nobody_is_told_to_keep_one():
    onward = " ".join(DEAD.meaning(HV, **DONE | {"plug": "none"}).onward)
    assert "plug" not in onward
    assert "as its maker says" in onward


@pytest.mark.parametrize("waited", ["10", "0.02"])
def test_a_wait_without_the_makers_figure_proves_nothing_dead_and_asks_for_it(waited):
    result = DEAD.meaning(HV, **DONE | {"waited": waited, "figure": ""})
    assert "how long its maker asks to wait was not told" in result.outcome.sentence
    assert subjects(result, "proved") == []
    assert result.onward == (
        "Hands off until it is proven dead.",
        "Look up how long its maker asks to wait.",
    )


@pytest.mark.parametrize("name", ["waited", "figure"])
def test_a_wait_of_seconds_is_asked_about_and_said_to_be_our_judgement(name):
    typed = DONE | {name: "0.5"}
    assert name in DEAD.asks(HV, **typed)
    sentence = DEAD.meaning(HV, **typed).outcome.sentence
    assert "less than a minute" in sentence
    assert "our judgement" in sentence


@pytest.mark.parametrize("volts", ["-380", "-60"])
def test_a_voltage_read_with_the_leads_the_other_way_round_is_a_voltage(volts):
    assert DEAD.code(HV, **DONE | {"volts": volts}) == "not_dead"


def test_a_voltage_that_could_be_above_the_limit_by_the_meters_error_is_not_proven_dead():
    assert DEAD.code(HV, **DONE | {"volts": "4.99"}) == "not_proven"
    assert DEAD.code(HV, **DONE | {"volts": "4.5"}) == "isolated_dead"


def test_what_counts_as_dead_is_said_with_its_source_and_the_maker_goes_first():
    band = DEAD.meaning(HV, **DONE).band
    assert "5\u00a0V" in band
    assert "our judgement" in band
    assert "60\u00a0V" in band
    assert "trade articles" in band
    assert "maker’s own procedure goes first" in band
    assert "5\u00a0V" in DEAD.meaning(HV, **DONE | {"volts": "59"}).band


@pytest.mark.parametrize(
    ("typed", "why", "then"),
    [
        ({"insulation": "20", "least": "1", "test_volts": "9"}, "tester", "test voltage"),
        ({"insulation": "20", "least": "1"}, "tester", "test voltage"),
        (AT_500 | {"insulation": "1.01", "least": "1"}, "with this instrument", "again"),
        (AT_500 | {"insulation": "20"}, "without the maker’s least", "maker’s least"),
    ],
)
def test_why_insulation_is_not_judged_is_told_as_it_is(typed, why, then):
    result = DEAD.meaning(HV, **DONE | {"system_volts": "400"} | typed)
    assert result.outcome.code == "dead_insulation_recorded"
    assert why in result.outcome.marks[1].sentence
    assert then in result.onward[0]


@pytest.mark.parametrize("typed", [{}, {"insulation": "20"}, {"insulation": "0.03"}])
def test_whoever_isolated_it_keeps_it_so_whatever_the_insulation_is(typed):
    assert any("Keep the plug" in one for one in DEAD.meaning(HV, **AT_400 | typed).onward)


def test_an_insulation_tester_is_set_to_what_the_maker_names():
    assert any("only the one the maker names" in one for one in DEAD.kind.cautions)
