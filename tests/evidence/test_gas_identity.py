"""Which gas it is: only an instrument tells. Common practice, no source."""

import pytest

from diagnostics.evidence.orders import ORDERS, Made
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, subjects, words_of

GAS = Trial("gas_identity")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
BY = {"how": "instrument"}

PATTERNS = [
    (BY | {"result": "as_label", "share": "99", "air": "1"}, "as_label"),
    (BY | {"result": "air", "air": "6"}, "air"),
    (BY | {"result": "mixed", "share": "62"}, "mixed"),
    (BY | {"result": "other"}, "other"),
    (BY | {"result": "flammable"}, "flammable"),
    (BY | {"result": "did_not_tell"}, "nothing_told"),
    (BY | {"share": "99"}, "nothing_told"),
    (BY, "nothing_told"),
    ({"how": "label", "shown": "R-134a"}, "nothing_told"),
    ({"how": "port"}, "nothing_told"),
    ({"shown": "R-134a"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_finding_has_its_outcome(typed, outcome):
    assert GAS.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    seen = {outcome for _typed, outcome in PATTERNS}
    seen.add(GAS.code({"refrigerant": "R-1234yf"}, **BY, result="flammable"))
    assert seen == {one.code for one in GAS.kind.outcomes}


@pytest.mark.parametrize("how", ["label", "port"])
def test_what_a_label_or_a_port_says_identifies_nothing_and_carries_nothing(how):
    result = GAS.meaning(CAR, how=how, shown="R-134a")
    assert not result.outcome.carries
    assert result.outcome.marks == ()
    assert "once charged" in result.outcome.sentence or "not what is in it" in words_of(result)[0]
    assert "Which gas is in the loop: not identified." in result.outcome.not_tested


def test_a_result_told_beside_a_label_only_read_is_asked_about_and_used_for_nothing():
    typed = {"how": "label", "result": "as_label"}
    assert "result" in GAS.asks(CAR, **typed)
    assert GAS.code(CAR, **typed) == "nothing_told"


def test_only_a_gas_that_may_go_into_the_machine_opens_the_shops_hoses():
    order = ORDERS["gas_first"]
    opened = {
        one.code
        for one in GAS.kind.outcomes
        if order.is_kept([Made("gas_identity", one.code)], CAR)
    }
    assert opened == {"as_label", "air"}


@pytest.mark.parametrize("result", ["mixed", "other", "flammable"])
def test_a_gas_that_is_not_the_labels_keeps_the_shops_hoses_off(result):
    onward = " ".join(GAS.meaning(CAR, **BY, result=result).onward)
    assert "Keep the shop’s own hoses and machine off" in onward
    assert "cylinder of its own" in onward


def test_a_flammable_gas_asks_for_no_ignition_source():
    assert "No ignition source" in GAS.words(CAR, **BY, result="flammable")


@pytest.mark.parametrize("result", ["as_label", "air"])
def test_a_gas_that_is_right_still_asks_for_the_leak_stop_test_where_a_can_was_added(result):
    assert "test for leak-stop" in GAS.meaning(CAR, **BY, result=result).onward[0]


def test_what_an_instrument_does_not_see_is_named():
    told = GAS.meaning(CAR, **GAS.fine).outcome.not_tested
    assert any(one.startswith("Leak-stop, dye and oil") for one in told)
    assert "Share of air: no reading to go by." in told


def test_as_on_the_label_rules_out_another_gas_only_as_far_as_the_instrument_knows_gases():
    result = GAS.meaning(CAR, **GAS.fine)
    assert subjects(result, "ruled_out") == ["Mixed or another gas"]
    assert "as far as this instrument knows" in result.outcome.marks[0].sentence


def test_shares_are_recorded_with_their_accuracy_and_not_judged_by_a_limit():
    result = GAS.meaning(CAR, **BY, result="as_label", share="97.5", air="2")
    assert "97.5\u00a0% of the label’s gas" in result.lead
    assert "not judged by a limit" in result.band


def test_two_shares_above_the_whole_are_asked_about():
    assert "air" in GAS.asks(CAR, **BY, result="air", share="99", air="12")
    assert GAS.asks(CAR, **BY, result="air", share="98", air="2") == {}


def test_a_gas_as_labeled_with_little_of_it_is_held_back():
    typed = BY | {"result": "as_label", "share": "60"}
    assert "share" in GAS.asks(CAR, **typed)
    assert GAS.code(CAR, **typed) == "nothing_told"


def test_a_label_that_is_not_noted_is_named():
    assert "The gas on the label: not noted with the car." in (
        GAS.meaning({}, **GAS.fine).outcome.not_tested
    )


def test_fine_is_a_gas_identified_as_on_the_label():
    assert GAS.code(CAR, **GAS.fine) == "as_label"


def test_it_warns_of_flames_mixing_and_an_own_cylinder():
    words = " ".join(GAS.kind.cautions)
    assert all(part in words for part in ("flame", "never mix", "cylinder of its own"))


def test_air_that_was_not_shown_proves_no_air():
    typed = {"how": "instrument", "result": "air", "air": "0"}
    assert list(GAS.asks(CAR, **typed)) == ["air"]
    assert GAS.code(CAR, **typed) == "nothing_told"
    assert GAS.code(CAR, **typed | {"air": "3"}) == "air"


@pytest.mark.parametrize(
    ("gas", "standing_of_it"), [("R-1234yf", "open"), ("R-152a", "open"), ("R-134a", "proved")]
)
def test_a_label_gas_that_burns_itself_is_not_called_foreign_for_it(gas, standing_of_it):
    system: System = {"drive": "belt_clutch", "refrigerant": gas}
    result = GAS.meaning(system, how="instrument", result="flammable")
    assert [mark.standing for mark in result.outcome.marks] == [standing_of_it]
    assert result.outcome.carries == (standing_of_it == "proved")


@pytest.mark.parametrize("result", ["mixed", "other"])
def test_all_of_the_labels_gas_is_no_mixed_or_other_gas(result):
    assert "share" in GAS.asks(CAR, **BY, result=result, share="100")


def test_much_air_is_not_called_as_on_the_label():
    assert "air" in GAS.asks(CAR, **BY, result="as_label", air="30")
    assert GAS.asks(CAR, **BY, result="as_label", air="1") == {}


def test_a_label_gas_that_burns_itself_condemns_no_loop():
    system: System = {"drive": "belt_clutch", "refrigerant": "R-1234yf"}
    onward = " ".join(GAS.meaning(system, **BY, result="flammable").onward)
    assert "quote the whole loop" not in onward
    assert "No ignition source" in onward


@pytest.mark.parametrize("share", ["80", "90", "94"])
def test_a_gas_of_which_a_part_is_another_is_not_taken_for_the_label_s(share):
    typed = BY | {"result": "as_label", "share": share, "air": "0"}
    assert "share" in GAS.asks(CAR, **typed)
    assert GAS.code(CAR, **typed) == "nothing_told"


def test_a_gas_with_much_air_is_not_called_as_labeled():
    assert "air" in GAS.asks(CAR, **BY, result="as_label", air="9")
