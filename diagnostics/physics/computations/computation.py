"""A computation as data: what it takes, what it gives, how far it holds, where it comes from.

Each subject's file beside this one ends in `COMPUTATIONS`; `catalogue.py` merges them. The command
`manage.py compute` prints and runs them.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

Inputs = Mapping[str, float | str]


@dataclass(frozen=True)
class Input:
    """One input. A number is in SI with the bounds that `unit` names; a text is one of `answers`.

    `unit` is the one people use for it, in which `low`, `high` and `default` stand; "" is a bare
    number or a text. `reference` tells gauge from absolute pressure. No default: must be
    given; a default of "" on a number: may be left out, and stays "". `limit_of_error`: how far an
    instrument may be off, which is no reading.
    """

    name: str
    words: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    answers: tuple[str, ...] = ()
    reference: str = ""  # "gauge" or "absolute"
    default: float | str | None = None
    limit_of_error: bool = False


@dataclass(frozen=True)
class Result:
    """`value` and its standard uncertainty `u` (None: not known), both in SI.

    `unit` is the one to show it in. `meaning` is a sentence; `basis` tells what uncertainty and
    meaning rest on. `more` are further results by name. `at_most`: a limit, never shown larger than
    it is. `figures`: no more digits of it mean anything, however fine the readings; 0: as they are.
    """

    value: float
    unit: str
    u: float | None = None
    meaning: str = ""
    basis: str = ""
    more: Mapping[str, "Result"] = field(default_factory=dict)
    at_most: bool = False
    figures: int = 0


@dataclass(frozen=True)
class Computation:
    """`run` takes every input (numbers in SI, defaults filled in) and gives the result.

    It raises the errors of `diagnostics.physics.errors` and nothing else. `least_figures` are shown
    of what comes out, however coarse what was told.
    """

    name: str
    words: str
    inputs: tuple[Input, ...]
    unit: str
    source: str
    run: Callable[[Inputs], Result]
    least_figures: int = 3
