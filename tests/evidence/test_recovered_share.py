"""Recovered grams are a lower bound of what was in the car.

Older machines left over 18 % at 21 °C and nearly 30 % at 10 °C (tests told in SAE J2762); newer
ones take out at least 95 % at 21 to 24 °C (SAE J2788:2020). Label ±15 g: trade article.
"""

import pytest

from diagnostics.evidence.orders import OWN_HOSES
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

OUT = Trial("recovered_share")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a", "label_charge_kg": 0.65}
OLDER = {"machine": "older", "temperature": "21"}
NEWER = {"machine": "newer", "temperature": "22"}

PATTERNS = [
    (OLDER | {"recovered": "290"}, "clearly_low"),
    (NEWER | {"recovered": "290"}, "far_low"),
    (NEWER | {"recovered": "0"}, "nothing_came"),
    ({"recovered": "0"}, "nothing_came"),
    (NEWER | {"recovered": "100"}, "nearly_empty"),
    (OLDER | {"recovered": "560"}, "cannot_tell"),
    (NEWER | {"recovered": "560"}, "low"),
    (NEWER | {"recovered": "560", "years": "6"}, "low_as_age"),
    (NEWER | {"recovered": "640"}, "near_label"),
    (OLDER | {"recovered": "640"}, "cannot_tell"),
    (OLDER | {"recovered": "700"}, "above"),
    ({"recovered": "700"}, "above"),
    ({"recovered": "290"}, "cannot_tell"),
    ({"recovered": "290", "machine": "not_known", "temperature": "21"}, "clearly_low"),
    ({"recovered": "290", "machine": "older"}, "cannot_tell"),
    (OLDER | {"recovered": "290", "temperature": "5"}, "cannot_tell"),
    (OLDER, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_weighing_has_its_outcome(typed, outcome):
    assert OUT.code(CAR, **typed) == outcome


def test_near_the_label_is_never_called_as_on_the_label():
    # ±17 g by the scale and what stays behind: no weighing comes down to the label's ±15 g.
    result = OUT.meaning(CAR, **NEWER, recovered="640")
    assert "near the label’s 650\u00a0g" in result.outcome.sentence
    assert "by more than a tenth" in result.outcome.marks[0].sentence


def test_every_outcome_listed_has_its_pattern():
    seen = {outcome for _typed, outcome in PATTERNS}
    assert seen == {one.code for one in OUT.kind.outcomes}


def test_290_of_650_is_low_either_way():
    for typed in (OLDER, NEWER):
        assert OUT.code(CAR, **typed, recovered="290") in ("clearly_low", "far_low")


def test_560_of_650_cannot_be_told_with_an_old_machine():
    result = OUT.meaning(CAR, **OLDER, recovered="560")
    assert result.outcome.code == "cannot_tell"
    assert subjects(result, "likely", "proved", "ruled_out") == []


@pytest.mark.parametrize("typed", [typed for typed, _outcome in PATTERNS if "recovered" in typed])
def test_recovered_grams_are_never_called_the_charge(typed):
    result = OUT.meaning(CAR, **typed)
    assert any("as recovered, not as the charge" in note for note in result.notes)
    assert not any("the charge is" in text.lower() for text in words_of(result))


def test_what_stayed_behind_is_told_as_up_to_so_many_grams():
    # (290 + 17.3) / 0.82 = 374.8 g at most: 84.8 g more than came out.
    note = OUT.meaning(CAR, **OLDER, recovered="290").notes[0]
    assert "up to 85\u00a0g stayed in the car" in note


def test_colder_the_older_machine_leaves_more():
    # At 10 °C it took out 70 %: up to 307.3 / 0.70 = 439 g were in it.
    result = OUT.meaning(CAR, **OLDER | {"temperature": "10"}, recovered="290")
    assert "273–439\u00a0g" in result.outcome.sentence


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"machine": "older"}, "Temperature in the bay: no reading to go by."),
        ({"temperature": "21"}, "Which class of machine: not told."),
        ({"machine": "not_known"}, "Which class of machine: not known"),
        (OLDER | {"temperature": "5"}, "What stays behind below 10 °C: no test is known"),
    ],
)
def test_without_class_or_temperature_only_a_lower_bound_is_told(typed, words):
    result = OUT.meaning(CAR, recovered="290", **typed)
    assert "at least 273\u00a0g" in result.outcome.sentence
    assert any(words in one for one in result.outcome.not_tested)
    assert result.strip is None


def test_without_the_labels_charge_it_is_recorded_and_carries_nothing():
    result = OUT.meaning({"refrigerant": "R-134a"}, **OLDER, recovered="290")
    assert not result.outcome.carries
    assert "273–375\u00a0g in it" in result.outcome.sentence
    assert "Label charge: not noted with the car." in result.outcome.not_tested


def test_low_is_a_leak_or_an_earlier_short_fill():
    result = OUT.meaning(CAR, **NEWER, recovered="290")
    assert "leaked out or was not in it; cannot tell which" in result.outcome.marks[0].sentence


def test_60_to_90_g_low_on_an_old_car_is_no_proof_of_a_fault():
    # 6 years x 15.1 g (a fleet's average, trade article) are 91 g.
    result = OUT.meaning(CAR, **NEWER, recovered="560", years="6")
    assert standing(result, "Amount") == "open"
    assert any("91\u00a0g in 6\u00a0yr" in note for note in result.notes)
    assert "no proof of a fault" in OUT.words(CAR, **NEWER, recovered="560")


def test_waiting_and_recovering_again_is_named_where_it_was_not_done():
    told = "Waited and recovered again: not done."
    assert told in OUT.meaning(CAR, **OLDER, recovered="290").outcome.not_tested
    again = OUT.meaning(CAR, **OLDER, recovered="290", repeated="yes").outcome.not_tested
    assert told not in again


def test_the_rear_branch_is_not_forgotten():
    rear: System = {**CAR, "branches": ["front", "rear"]}
    assert any("with rear" in remark for remark in OUT.kind.remarks_for(rear))


def test_hose_oil_and_dye_are_no_refrigerant():
    asked = OUT.kind.asked("recovered")
    assert asked is not None
    assert "oil and hose content aside" in asked.hint


def test_it_follows_gas_and_leak_search():
    assert set(OUT.kind.orders) == {*OWN_HOSES, "leak_search_first"}


def test_grams_below_nothing_are_asked_about_and_used_for_nothing():
    assert "recovered" in OUT.asks(CAR, **OLDER, recovered="-20")
    assert OUT.code(CAR, **OLDER, recovered="-20") == "nothing_told"


def test_the_band_of_what_was_in_it_is_drawn_against_the_label():
    drawn = OUT.meaning(CAR, **OLDER, recovered="290").strip
    assert drawn is not None
    assert drawn.point - drawn.error == pytest.approx(272.7, abs=0.5)
    assert drawn.point + drawn.error == pytest.approx(374.8, abs=0.5)
    assert drawn.expected == pytest.approx((635, 665))


@pytest.mark.parametrize("gas", ["R-744", "other"])
def test_a_gas_no_machine_was_tested_with_is_recorded_and_not_judged(gas):
    system: System = {**CAR, "refrigerant": gas}
    result = OUT.meaning(system, **NEWER, recovered="200")
    assert result.outcome.code == "nothing_told"
    assert "recorded, not judged" in result.outcome.sentence
    assert result.strip is None
    assert {value.words for value in result.values} == {"Recovered", "Bay"}


def test_a_label_that_may_leave_out_a_branch_proves_nothing():
    system: System = {**CAR, "branches": ["front", "rear"]}
    assert subjects(OUT.meaning(CAR, **NEWER, recovered="100"), "proved")
    result = OUT.meaning(system, **NEWER, recovered="100")
    assert subjects(result, "proved") == []
    assert any("for all of them" in note for note in result.notes)


def test_more_than_any_car_holds_is_asked_about_in_words_that_fit():
    (sentence,) = OUT.asks(CAR, **NEWER, recovered="650 kg")["recovered"]
    assert "no car holds 20" in sentence
    assert "check the unit" in sentence
    assert "less than nothing" not in sentence


def test_nothing_missing_is_no_range_of_nothing():
    result = OUT.meaning(CAR, **NEWER, recovered="700")
    assert not any("missing" in value.words for value in result.values)


def test_of_r_744_no_remainder_of_another_gas_is_told():
    system: System = {"refrigerant": "R-744", "label_charge_kg": 0.65}
    result = Trial("recovered_share").meaning(
        system, recovered="300", machine="newer", temperature="20"
    )
    assert "a remainder stayed in the car" in " ".join(result.notes)
    assert "up to" not in " ".join(result.notes)
    assert result.onward == ()


def test_a_machine_whose_class_is_not_known_is_taken_as_the_one_that_leaves_more():
    # SAE J2762: the older class left over 18 % at 21 °C: 290 g are at most about 370 g of 650 g
    car: System = {"refrigerant": "R-134a", "label_charge_kg": 0.65}
    for machine in ("older", "not_known"):
        typed = {"recovered": "290", "machine": machine, "temperature": "21"}
        assert OUT.code(car, **typed) == "clearly_low"
    assert "taken as the one that leaves more" in OUT.meaning(car, **typed).band


@pytest.mark.parametrize("grams", ["0", "1"])
def test_next_to_nothing_out_proves_no_empty_loop_and_sends_to_the_coupler(grams):
    typed = {"recovered": grams, "machine": "newer", "temperature": "22"}
    result = OUT.meaning({"refrigerant": "R-134a", "label_charge_kg": 0.65}, **typed)
    assert subjects(result, "proved") == []
    assert any("coupler" in note for note in result.notes)
