"""Tests that do not go together are found; what comes and goes is a pattern, and what fits is not.

Nobody promises that every slip is found: most contradict nothing.
"""

import pytest

from diagnostics.evidence.changed import FITTED
from diagnostics.evidence.inference.disagree import Disagree
from diagnostics.evidence.inference.told import Test as Made
from tests.evidence.inference.cars import CLUTCHED, made, one_made, verdict_on

TOGETHER = (
    (("coil_power", "holds_when_pushed"), ("air_gap", "far_wide")),
    (("coil_power", "no_current"), ("coil_resistance", "open")),
    (("static_pressure", "empty"), ("recovered_share", "far_low")),
    (("static_pressure", "as_expected"), ("recovered_share", "far_low")),
    (("coil_power", "takes_hold"), ("coil_resistance", "inside"), ("air_gap", "inside")),
    (("hub_turn", "free"), ("coil_power", "takes_hold"), ("running_pressures", "inside")),
)
APART = (
    (("coil_power", "takes_hold"), ("coil_resistance", "open")),
    (("static_pressure", "empty"), ("recovered_share", "near_label")),
    (("hub_turn", "locked"), ("hub_turn", "free")),
    (("air_gap", "too_small"), ("coil_power", "holds_when_pushed")),
)


def found(tests: list[Made]) -> tuple[Disagree, ...]:
    return verdict_on(tests).disagree


@pytest.mark.parametrize("told", APART, ids=str)
def test_two_tests_that_cannot_both_be_right_are_named_with_the_one_to_repeat(told):
    odd = found(made(*told))
    assert odd
    assert all(one.what == "odd" for one in odd)
    assert {one.again for one in odd} <= {kind for kind, _ in told}
    assert {step for one in odd for step in one.steps} <= {1, 2}


@pytest.mark.parametrize("told", TOGETHER, ids=str)
def test_what_goes_together_is_not_called_odd(told):
    assert found(made(*told)) == ()


def test_good_while_it_did_not_fail_and_bad_while_it_did_is_a_pattern():
    """Good cold and bad hot are both true."""
    told = [
        one_made("coil_power", "takes_hold", 1, "no"),
        one_made("coil_power", "drops_out", 2, "yes"),
    ]
    assert found(told) == (Disagree("pattern", ("coil_power",), (1, 2)),)


def test_of_a_pattern_nothing_is_to_be_made_again():
    told = [
        one_made("coil_resistance", "inside", 1, "no"),
        one_made("coil_resistance", "open", 2, "yes"),
    ]
    assert [one.again for one in found(told) if one.what == "pattern"] == [""]


def test_both_while_it_failed_is_no_pattern():
    told = made(("coil_power", "takes_hold"), ("coil_power", "no_current"))
    assert "pattern" not in {one.what for one in found(told)}


def test_before_and_after_a_new_part_need_not_agree():
    tests = [
        one_made("coil_power", "no_current", 1),
        one_made("coil_power", "takes_hold", 2, state=1),
    ]
    assert verdict_on(tests, CLUTCHED, [FITTED["clutch"]]).disagree == ()


def test_a_planted_slip_among_tests_that_agree_is_the_one_to_repeat():
    told = made(
        ("coil_power", "no_current"), ("coil_resistance", "open"), ("air_gap", "inside"),
        ("coil_power", "takes_hold"),
    )  # fmt: skip
    assert "coil_power" in {one.again for one in found(told)}


def test_the_order_in_which_they_were_made_does_not_matter():
    told = list(APART[0])
    one = {(each.what, frozenset(each.kinds), each.again) for each in found(made(*told))}
    two = {(each.what, frozenset(each.kinds), each.again) for each in found(made(*told[::-1]))}
    assert one == two


def test_what_was_put_right_in_between_does_not_come_and_go():
    tests = [one_made("hub_turn", "locked"), one_made("hub_turn", "free", 2, "no", state=1)]
    assert not verdict_on(tests, CLUTCHED, [FITTED["compressor"]]).disagree
    assert verdict_on(tests, CLUTCHED, [FITTED["belt"]]).disagree[0].what == "pattern"


@pytest.mark.parametrize(
    ("kind", "bad", "good"),
    [
        ("gas_identity", "mixed", "as_label"),
        ("static_pressure", "vacuum", "as_expected"),
        ("recovered_share", "far_low", "near_label"),
        ("debris", "metal", "clean"),
    ],
)
def test_what_is_in_the_loop_does_not_come_and_go_with_the_trouble(kind, bad, good):
    odd = found([one_made(kind, bad), one_made(kind, good, 2, "no")])
    assert [(one.what, one.again) for one in odd] == [("odd", kind)]
