"""What is counted of jobs, from jobs written by hand."""

import pytest

from diagnostics.evidence.simulation.bounds import upper_bound
from diagnostics.evidence.simulation.job import Ended, Stood
from diagnostics.evidence.simulation.printed import said
from diagnostics.evidence.simulation.results import Result, Share

STOOD = (
    Stood("proved", "clutch", "worn", "gap_wide", True, ("coil_power", "air_gap"), 0.008),
    Stood("proved", "amount", "low", "low", False, ("recovered_share",), 0.002),
    Stood("proved", "amount", "not_ok", "low", False, ("recovered_share",), 0.001),
    Stood("ruled_out", "belt", "slips", "slips", True),
    *(Stood("ruled_out", "belt", code, "slips", False) for code in ("ok", "off", "other")),
)
GOOD = Ended(tests=5, minutes=30.0, cost=200.0, least=150.0, faults=1, missed=0)
BAD = Ended(
    tests=7,
    minutes=50.0,
    cost=500.0,
    least=100.0,
    faults=2,
    missed=1,
    stood=STOOD,
    slips=2,
    slips_found=1,
    outside=(0.01, 0.4),
)
RESULT = Result("home", "program", (GOOD, BAD, BAD))


def counted(what: str) -> tuple[int, int]:
    found = {one.what: one for one in (*RESULT.proofs, *RESULT.disagreements)}
    return found[what].wrong, found[what].of


def test_proofs_are_counted_by_their_sort():
    assert counted("proved, one answer") == (2, 4)
    assert counted("proved, not in order") == (0, 2)
    assert counted("proved, in order") == (0, 0)


def test_what_is_ruled_out_and_so_is_counted_apart():
    assert counted("ruled out") == (2, 8)
    assert counted("jobs with a wrong proof") == (2, 3)


def test_slips_are_found_and_clean_jobs_are_those_without_one():
    assert counted("slips found") == (2, 4)
    assert counted("jobs without a slip that tell of one") == (0, 1)


def test_means_are_by_job():
    assert RESULT.means["bay minutes"] == pytest.approx(130 / 3, abs=1e-3)
    assert RESULT.means["of it needless"] == pytest.approx(850 / 3, abs=1e-3)
    assert RESULT.means["faults missed"] == pytest.approx(2 / 3, abs=1e-3)


def test_causes_outside_the_list_are_told_with_how_far_their_share_rose():
    assert RESULT.outside == {"jobs": 2, "at first": 0.01, "at last": 0.4, "rose": 1.0}
    assert Result("home", "program", (GOOD,)).outside == {}


def test_the_worst_comes_first_with_the_test_that_carried_it():
    first = RESULT.worst[0]
    assert (first["times"], first["code"], first["true"]) == (2, "worn", "gap_wide")
    assert first["by"] == "coil_power"


@pytest.mark.parametrize(
    ("wrong", "of", "words"), [(0, 5000, "kept"), (0, 20, "too few to tell"), (9, 90, "NOT KEPT")]
)
def test_a_target_is_kept_by_the_bound_and_missed_by_the_share(wrong, of, words):
    one = Share("proved", wrong, of, 0.005)
    assert one.bound == upper_bound(wrong, of)
    assert said(one.as_json()) == words


def test_what_is_wrong_by_the_shares_themselves_is_added_up():
    single = next(one for one in RESULT.proofs if one.what == "proved, one answer")
    assert single.doubted == pytest.approx(2 * (0.008 + 0.002))
    first = RESULT.doubtful[0]
    assert (first["code"], first["by"], first["times"]) == ("worn", "coil_power", 2)
    assert first["doubt"] == pytest.approx(0.008)
