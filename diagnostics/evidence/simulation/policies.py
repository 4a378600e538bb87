"""Who chooses the next test: the program, a fixed order, or always the quickest.

The last two stop when something is to be mended and nothing dear of it is unproved, or when no test
is left: as a careful technician with a list does.
"""

from collections.abc import Callable, Mapping

from diagnostics.evidence.inference.verdict import Weighed
from diagnostics.evidence.inference.worth import in_hand, mended, tables_of
from diagnostics.evidence.plan import DEAR, minutes, plan
from diagnostics.evidence.simulation.bay import Bay

AT_MOST = 25  # tests in a job

Policy = Callable[[Bay, Weighed], str]


def program(bay: Bay, weighed: Weighed) -> str:
    """The program's own next test; empty: enough is known."""
    key = bay.so_far()
    if key not in bay.shop.chosen:
        best = plan(weighed, bay.asked(), bay.shop.kinds, bay.shop.tables).best
        bay.shop.chosen[key] = best.kind if best else ""
    return bay.shop.chosen[key]


def fixed(bay: Bay, weighed: Weighed) -> str:
    """The first that may be made in the order in which the command travels and a bay works."""
    free = bay.free()
    return free[0].name if free and not settled(weighed) else ""


def cheapest(bay: Bay, weighed: Weighed) -> str:
    """The quickest that may be made."""
    free = bay.free()
    if not free or settled(weighed):
        return ""
    return min(free, key=lambda kind: minutes(kind, bay.setups)).name


def settled(weighed: Weighed) -> bool:
    """Whether something is to be mended and nothing dear of it is unproved."""
    dear = (one.cost >= DEAR for one in in_hand(weighed, tables_of(weighed)))
    return bool(mended(weighed)) and not any(dear)


POLICIES: Mapping[str, Policy] = {"program": program, "fixed": fixed, "cheapest": cheapest}
