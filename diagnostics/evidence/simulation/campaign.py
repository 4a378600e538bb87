"""Many jobs, over several processes: the same result by the seed, however many these are."""

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

from diagnostics.evidence.simulation.bay import Shop
from diagnostics.evidence.simulation.cars import draw
from diagnostics.evidence.simulation.job import Ended, run
from diagnostics.evidence.simulation.worlds import world_of

AT_ONCE = 10  # jobs handed to a process together
Part = tuple[
    str, str, int, int, int
]  # world, policy, seed, the first job and the one after the last
Say = Callable[[str], None]

_shop: list[Shop] = []  # of a process that was started for a campaign


def jobs(
    world: str, policy: str, count: int, seed: int, shop: Shop, processes: int, say: Say
) -> list[Ended]:
    """So many jobs in the order of their numbers."""
    parts = [
        (world, policy, seed, first, min(first + AT_ONCE, count))
        for first in range(0, count, AT_ONCE)
    ]
    found: list[Ended] = []
    for done in in_processes(parts, shop, processes):
        before, now = (10 * at // count for at in (len(found), len(found) + len(done)))
        found += done
        if now > before:
            say(f"{world}, {policy}: {len(found)} of {count} jobs")
    return found


def in_processes(parts: Sequence[Part], shop: Shop, processes: int) -> Iterator[list[Ended]]:
    """Each part's jobs, the parts in their order."""
    if processes < 2:
        yield from (part_of(part, shop) for part in parts)
        return
    # Started anew rather than forked: what another thread holds is not taken along. The cores are
    # shared out by processes, so that threads of numpy within each would only wait for each other.
    context = get_context("spawn")
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    with ProcessPoolExecutor(processes, context, opened, (shop,)) as pool:
        yield from pool.map(part_in_process, parts)


def opened(shop: Shop) -> None:
    """The shop of this process from now on."""
    _shop[:] = [shop]


def part_in_process(part: Part) -> list[Ended]:
    """A part in a process of its own, with the shop that it was started with."""
    return part_of(part, _shop[0])


def part_of(part: Part, shop: Shop) -> list[Ended]:
    """The jobs of one part."""
    name, policy, seed, first, end = part
    found = []
    for number in range(first, end):
        world = world_of(name, seed, number)
        found.append(run(draw((seed, number), world, shop.kinds), world, policy, shop))
    return found
