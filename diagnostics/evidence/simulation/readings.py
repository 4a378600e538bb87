"""What a test reads on a car whose hidden answers are known: the true outcome, then the slip."""

from dataclasses import replace
from math import prod

import numpy as np

from diagnostics.evidence.inference.factors import Array
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import filled
from diagnostics.evidence.simulation.cars import Car, chosen
from diagnostics.evidence.simulation.worlds import World, row_of


def read(looks: Looks, car: Car, world: World) -> tuple[str, str]:
    """The outcome that was true and the one that was read; both empty: nothing could be read."""
    first, second, third = car.dice[looks.kind]
    if third >= readable(looks, car):
        return "", ""
    true = chosen(true_shares(looks, car, world), first)
    slips = replace(
        looks,
        misses=world.slip(looks.kind, "misses", looks.misses),
        alarms=world.slip(looks.kind, "alarms", looks.alarms),
    ).slips()
    return looks.outcomes[true], looks.outcomes[chosen(slips[true], second)]


def readable(looks: Looks, car: Car) -> float:
    """How often anything can be read on such a car."""
    return prod(
        shares.get(car.answers.get(name, "ok"), 1.0) for name, shares in looks.can_be_read.items()
    )


def true_shares(looks: Looks, car: Car, world: World) -> Array:
    """How often each outcome is true on such a car in that world.

    What lies outside every list looks like nothing anybody knows: any outcomes, each set of them as
    likely as another, but the same ones on that car.
    """
    if car.beyond in looks.rows.given:
        seed = [*car.key, *looks.kind.encode()]
        drawn: Array = np.random.default_rng(seed).dirichlet(np.ones(len(looks.outcomes)))
        return drawn
    given = {name: car.answers[name] for name in looks.rows.given if name in car.answers}
    row, number = row_of(looks.rows, given)
    shares = filled(row.shares, looks.outcomes)
    return world.shaken(f"{looks.kind} {number}", looks.outcomes, shares)
