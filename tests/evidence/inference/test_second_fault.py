"""Where something is found, the tests that bear on it come before the hunt for a second fault."""

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.changed import became
from diagnostics.evidence.inference import told as tables_told
from diagnostics.evidence.next_words import reason
from diagnostics.evidence.plan import Asked, Plan, plan
from diagnostics.evidence.tables import TABLES
from tests.evidence.inference.cars import CLUTCHED, verdict_on


def planned(*told: tuple[str, str]) -> Plan:
    tests = [
        tables_told.Test(at, kind, came, "yes") for at, (kind, came) in enumerate(told, start=1)
    ]
    done = frozenset(kind for kind, _ in told)
    return plan(verdict_on(tests, CLUTCHED).weighed, Asked(CLUTCHED, done=done), KINDS, TABLES)


def test_a_relay_is_not_replaced_before_the_coil_it_switches_was_measured():
    """Trade article: a coil that draws too much ends the next relay too."""
    found = planned(
        ("complaint_seen", "not_engaging"), ("fuse", "carries"), ("relay", "swap_cures")
    )
    assert found.best
    assert found.best.kind == "coil_resistance"


def test_a_clutch_that_is_found_leads_to_its_own_tests_or_says_that_it_can_be_decided():
    found = planned(
        ("complaint_seen", "not_engaging"),
        ("hub_turn", "free"),
        ("coil_power", "holds_when_pushed"),
    )
    assert found.best
    assert found.best.second == (found.best.variable != "clutch")


def test_a_look_for_a_second_fault_says_that_the_first_can_be_decided():
    found = planned(("complaint_seen", "only_then"), ("condenser_fan", "push"))
    seconds = [one for one in (found.best, *found.others) if one and one.second]
    assert seconds
    assert "second fault" in reason(seconds[0], KINDS)


def test_where_nothing_is_found_no_test_is_for_a_second_fault():
    found = planned(("complaint_seen", "not_engaging"))
    assert not any(one.second for one in (found.best, *found.others) if one)


def test_with_the_whole_compressor_in_hand_its_clutch_needs_no_test():
    found = planned(
        ("complaint_seen", "not_engaging"),
        ("hub_turn", "locked"),
        ("debris", "several"),
        ("oil_condition", "acid"),
    )
    assert found.best
    assert found.best.variable != "clutch" or found.best.second


def test_a_loop_that_was_opened_on_purpose_is_nothing_found():
    verdict = verdict_on([], CLUTCHED, [became("opened")])
    found = plan(verdict.weighed, Asked(CLUTCHED), KINDS, TABLES)
    assert not any(one.second for one in (found.best, *found.others) if one)
