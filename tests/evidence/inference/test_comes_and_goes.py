"""Good while it did not fail and bad while it did: what that says for what fails at times."""

import pytest

from diagnostics.evidence.inference.told import Test as Made
from tests.evidence.inference.cars import one_made, verdict_on

COIL = (("coil_resistance", "inside", "open"), ("coil_power", "takes_hold", "no_current"))


def both(kind: str, good: str, bad: str) -> list[Made]:
    return [one_made(kind, good, 1, "no"), one_made(kind, bad, 2, "yes")]


@pytest.mark.parametrize(("kind", "good", "bad"), COIL)
def test_a_coil_that_was_right_while_it_did_not_fail_is_not_open_for_good(kind, good, bad):
    found, once = verdict_on(both(kind, good, bad)), verdict_on(both(kind, good, bad)[1:])
    assert found.of("clutch", "coil_open").share < once.of("clutch", "coil_open").share / 5
    assert found.of("clutch", "fails_hot").share > 10 * once.of("clutch", "fails_hot").share


@pytest.mark.parametrize(("kind", "good", "bad"), COIL)
def test_with_the_retest_that_quits_hot_it_most_likely_fails_hot(kind, good, bad):
    others = [one_made("hot_retest", "quits_hot", 3), one_made("air_gap", "inside", 4)]
    tests = [*both(kind, good, bad), *others]
    assert verdict_on(tests).of("clutch", "fails_hot").standing == "likely"


@pytest.mark.parametrize(("kind", "good", "bad"), COIL)
def test_the_good_reading_alone_rules_out_nothing(kind, good, bad):
    """The trouble was away: what it would have shown then nobody saw."""
    found = verdict_on(both(kind, good, bad)[:1])
    for code in ("coil_open", "melt_open", "fails_hot", "not_ok"):
        assert found.of("clutch", code).standing == "open"


@pytest.mark.parametrize(("kind", "good", "bad"), COIL)
def test_the_order_of_both_changes_nothing(kind, good, bad):
    tests = both(kind, good, bad)
    one, other = verdict_on(tests), verdict_on(tests[::-1])
    assert [each.share for each in one.stands] == [each.share for each in other.stands]
