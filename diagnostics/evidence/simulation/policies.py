"""Who chooses the next test: the program, a fixed order, or always the quickest.

The last two stop when something is to be mended and nothing dear of it is unproved, or when no test
is left: as a careful technician with a list does.
"""

from collections.abc import Callable, Mapping

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.next_step import in_hand, tables_of
from diagnostics.evidence.inference.verdict import Weighed
from diagnostics.evidence.plan import DEAR, minutes, plan
from diagnostics.evidence.simulation.bay import Bay

AT_MOST = 25  # tests in a job

Policy = Callable[[Bay, Weighed, Mapping[str, Looks]], str]


def program(bay: Bay, weighed: Weighed, tables: Mapping[str, Looks]) -> str:
    """The program's own next test; empty: enough is known."""
    best = plan(weighed, bay.asked(), bay.kinds, tables).best
    return best.kind if best else ""


def fixed(bay: Bay, weighed: Weighed, tables: Mapping[str, Looks]) -> str:
    """The first that may be made in the order in which the command travels and a bay works."""
    free = bay.free(tables)
    return free[0].name if free and not settled(weighed) else ""


def cheapest(bay: Bay, weighed: Weighed, tables: Mapping[str, Looks]) -> str:
    """The quickest that may be made."""
    free = bay.free(tables)
    if not free or settled(weighed):
        return ""
    return min(free, key=lambda kind: minutes(kind, bay.setups)).name


def settled(weighed: Weighed) -> bool:
    """Whether something is to be mended and nothing dear of it is unproved."""
    tables = tables_of(weighed)
    mends = any(int((weighed.shares(name) @ table.T).argmin()) for name, table in tables.items())
    return mends and not any(one.cost >= DEAR for one in in_hand(weighed, tables))


POLICIES: Mapping[str, Policy] = {"program": program, "fixed": fixed, "cheapest": cheapest}
