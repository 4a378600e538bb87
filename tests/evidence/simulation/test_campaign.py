"""Two hundred jobs at home: what is counted, and that no proof is wrong too often."""

from dataclasses import replace

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.simulation.bay import Bay, Shop
from diagnostics.evidence.simulation.campaign import jobs
from diagnostics.evidence.simulation.cars import FITTED
from diagnostics.evidence.simulation.policies import AT_MOST
from diagnostics.evidence.simulation.results import TARGETS, Result
from diagnostics.evidence.tables import TABLES

SEED = 11
COUNT = 200


def quiet(_text: str) -> None:
    """Nothing is said."""


def a_shop() -> Shop:
    return Shop(KINDS, TABLES)


@pytest.fixture(scope="module")
def home() -> Result:
    return Result("home", "program", jobs("home", "program", COUNT, SEED, a_shop(), 1, quiet))


def test_a_proof_is_wrong_less_often_than_once_in_two_hundred(home):
    proofs = [one for one in home.proofs if one.at_most]
    assert len(proofs) == 3
    assert sum(one.wrong for one in proofs) / sum(one.of for one in proofs) < TARGETS["home"]


def test_what_is_ruled_out_is_seldom_so(home):
    ruled_out = next(one for one in home.proofs if one.what == "ruled out")
    assert ruled_out.of > COUNT
    assert ruled_out.share < 0.01


def test_every_job_has_tests_minutes_and_something_at_fault_or_rightly_so(home):
    assert len(home.jobs) == COUNT
    assert all(0 < job.tests <= AT_MOST and job.minutes > job.tests for job in home.jobs)
    assert all(0 <= job.missed <= job.faults for job in home.jobs)
    assert sum(job.faults > 0 for job in home.jobs) > 0.9 * COUNT


def test_no_decision_costs_less_than_one_with_nothing_hidden(home):
    assert all(job.cost >= job.least for job in home.jobs)
    assert home.means["of it needless"] > 0


def test_no_test_is_made_twice_nor_where_the_car_bars_it(home):
    assert all(len({*job.made}) == job.tests for job in home.jobs)


def test_slips_come_as_often_as_the_tables_say(home):
    """Between half a percent and a few percent of all readings (look.py)."""
    slips, tests = sum(job.slips for job in home.jobs), sum(job.tests for job in home.jobs)
    assert 0.003 < slips / tests < 0.04


@pytest.mark.parametrize("policy", ["program", "cheapest"])
def test_the_result_hangs_on_the_seed_and_not_on_the_number_of_processes(policy):
    world = "off" if policy == "program" else "outside"
    one, two = (jobs(world, policy, 11, SEED, a_shop(), count, quiet) for count in (1, 2))
    assert one == two
    assert one != jobs(world, policy, 11, SEED + 1, a_shop(), 1, quiet)


def test_what_the_program_chose_before_is_what_it_chooses_anew():
    shop = a_shop()
    first = jobs("home", "program", 4, SEED, shop, 1, quiet)
    assert shop.chosen
    assert first == jobs("home", "program", 4, SEED, shop, 1, quiet)


def test_progress_is_told():
    said: list[str] = []
    jobs("home", "fixed", 3, SEED, a_shop(), 1, said.append)
    assert said == ["home, fixed: 3 of 3 jobs"]


def names(kinds: list[Kind]) -> set[str]:
    return {kind.name for kind in kinds}


def test_nothing_is_run_before_gas_hub_and_charge_are_known():
    bay = Bay(FITTED[0][1], a_shop())
    assert "running_pressures" not in names(bay.free())
    bay.make("gas_identity", "as_label")
    bay.make("static_pressure", "as_expected")
    assert "running_pressures" not in names(bay.free())
    bay.make("hub_turn", "free")
    assert "running_pressures" in names(bay.free())


def test_the_loop_is_opened_after_recovery_and_then_nothing_that_needs_the_charge_is_made():
    bay = Bay(FITTED[0][1], a_shop())
    bay.make("gas_identity", "as_label")
    bay.make("leak_search", "none_found")
    assert "debris" not in names(bay.free())
    assert "vacuum_hold" not in names(bay.free())
    bay.make("recovered_share", "near_label")
    assert {"debris", "vacuum_hold"} <= names(bay.free())
    assert not {"static_pressure", "running_pressures"} & names(bay.free())


def test_setups_that_stand_are_not_paid_twice():
    bay = Bay(FITTED[0][1], a_shop())
    bay.make("hub_turn", "free")
    before = bay.minutes
    bay.make("air_gap", "inside")
    assert bay.minutes - before == KINDS["air_gap"].minutes


def test_an_open_loop_is_not_a_closed_one():
    bay = Bay(FITTED[0][1], a_shop())
    bay.make("vacuum_hold", "held")
    assert "loop closed" in bay.setups
    bay.make("debris", "clean")
    assert "loop closed" not in bay.setups
    assert replace(bay.asked(), made=()).setups == bay.setups
