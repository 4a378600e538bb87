"""Jobs whose car was changed and tested again, told as they happen."""

from typing import Any

from tests.diagnostics.jobs_told import CLUTCH, COMES_NOT, HOLDS, Told

ENGAGES: dict[str, Any] = {"test_kind": "complaint_seen", "engages": "yes", "there": "no"}
ENGAGES_NOT: dict[str, Any] = {"test_kind": "complaint_seen", "engages": "no", "there": "yes"}
GAP: dict[str, Any] = {"test_kind": "air_gap", "gap_1": "0.92", "gap_2": "0.95", "gap_3": "0.88"}
VENT: dict[str, Any] = {
    "test_kind": "vent_temperature",
    "branch": "front",
    "vent": "24.8",
    "intake": "27",
    "humidity": "45",
    "recirculation": "fresh",
    "blower": "high",
    "doors": "open",
    "rpm": "1500",
    "minutes": "10",
}
COOLS: dict[str, Any] = {**VENT, "vent": "7.1", "intake": "26", "minutes": "11"}
COMPRESSOR: dict[str, Any] = {
    "what": "fitted",
    "part": "compressor",
    "source": "new",
    "serial": "0417",
}


def as_it_came(**intake: Any) -> Told:
    """A car whose clutch does not take hold, with the vent and the gap measured."""
    told = Told(**intake)
    told.failing("yes")
    told.test(ENGAGES_NOT)
    told.test(COMES_NOT)
    told.test(GAP)
    told.test(VENT)
    return told


def repaired(**intake: Any) -> Told:
    """The same with a new clutch, which nobody tested yet."""
    told = as_it_came(**intake)
    told.change(**CLUTCH)
    return told


def shown(**intake: Any) -> Told:
    """The same, tested again and found in order."""
    told = repaired(**intake)
    told.test(GAP, gap_1="0.45", gap_2="0.50", gap_3="0.48")
    told.test(HOLDS)
    told.failing("no")
    told.test(ENGAGES)
    told.test(COOLS)
    return told
