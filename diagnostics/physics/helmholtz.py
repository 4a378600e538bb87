"""Equations of state: the Helmholtz energy of a refrigerant from temperature and density.

The form is that of Span, Multiparameter Equations of State (2000), and of Span and Wagner 1996 for
its last kind of term (both from memory); the coefficients are data, one file a refrigerant, which
names the formulation. For the desk: the tablet needs the saturation tables only.
"""

import json
import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from diagnostics.physics.pressure import Absolute
from diagnostics.physics.refrigerants import refrigerant_named

FOLDER = Path(__file__).parent / "equations"

Terms = tuple[tuple[float, ...], ...]


@dataclass(frozen=True)
class Equation:
    """Coefficients. `gas_constant` in J/(kg K), `reducing` in K and kg/m³, bounds in kelvin."""

    refrigerant: str
    formulation: str
    gas_constant: float
    reducing: tuple[float, float]
    lowest: float
    highest: float
    lead: tuple[float, float]
    log_tau: float
    ideal_power: Terms
    planck_einstein: Terms
    power: Terms
    gaussian: Terms
    non_analytic: Terms


@dataclass(frozen=True)
class State:
    """K, Pa absolute, kg/m³, J/kg, J/(kg K)."""

    kelvin: float
    pressure: Absolute
    density: float
    enthalpy: float
    entropy: float


@dataclass(frozen=True)
class Share:
    """A part of the reduced Helmholtz energy, with its delta and tau derivatives times those."""

    value: float
    by_delta: float
    by_tau: float


@cache
def _read(name: str) -> Equation:
    told = json.loads((FOLDER / f"{name}.json").read_text("utf-8"))
    ideal = told["ideal"]

    def terms(found: list[list[float]]) -> Terms:
        return tuple(tuple(term) for term in found)

    return Equation(
        refrigerant=name,
        formulation=told["formulation"],
        gas_constant=told["gas_constant"],
        reducing=(told["reducing_temperature"], told["reducing_density"]),
        lowest=told["lowest_temperature"],
        highest=told["highest_temperature"],
        lead=(ideal["lead"][0], ideal["lead"][1]),
        log_tau=ideal["log_tau"],
        ideal_power=terms(ideal["power"]),
        planck_einstein=terms(ideal["planck_einstein"]),
        power=terms(told["power"]),
        gaussian=terms(told["gaussian"]),
        non_analytic=terms(told["non_analytic"]),
    )


def equation_of(refrigerant: str) -> Equation:
    """The equation of a refrigerant, by any form of its name.

    Raises:
        Malformed: a refrigerant that is not known here.

    """
    return _read(refrigerant_named(refrigerant).name)


def state(equation: Equation, kelvin: float, density: float) -> State:
    """All of a state in one phase from its temperature in K and density in kg/m³; IIR reference.

    The caller keeps to states that are: between the two saturated densities the equation gives
    numbers that mean nothing.
    """
    delta, tau = density / equation.reducing[1], equation.reducing[0] / kelvin
    ideal, residual = _ideal(equation, delta, tau), _residual(equation, delta, tau)
    thermal = equation.gas_constant * kelvin
    by_tau = ideal.by_tau + residual.by_tau
    return State(
        kelvin=kelvin,
        pressure=Absolute(density * thermal * (1 + residual.by_delta)),
        density=density,
        enthalpy=thermal * (1 + by_tau + residual.by_delta),
        entropy=equation.gas_constant * (by_tau - ideal.value - residual.value),
    )


def pressure(equation: Equation, kelvin: float, density: float) -> float:
    """The same state's pressure alone, in pascal; below zero where no fluid is stable."""
    delta, tau = density / equation.reducing[1], equation.reducing[0] / kelvin
    thermal = equation.gas_constant * kelvin
    return density * thermal * (1 + _residual(equation, delta, tau).by_delta)


def _ideal(equation: Equation, delta: float, tau: float) -> Share:
    value = math.log(delta) + equation.lead[0] + equation.lead[1] * tau
    value += equation.log_tau * math.log(tau)
    by_tau = equation.lead[1] * tau + equation.log_tau
    for n, t in equation.ideal_power:
        part = n * tau**t
        value += part
        by_tau += t * part
    for n, t in equation.planck_einstein:
        cold = math.exp(-t * tau)
        value += n * math.log(1 - cold)
        by_tau += n * t * tau * cold / (1 - cold)
    return Share(value, 1.0, by_tau)


def _residual(equation: Equation, delta: float, tau: float) -> Share:
    value = by_delta = by_tau = 0.0
    for n, d, t, power in equation.power:
        reach = delta**power if power else 0.0
        part = n * delta**d * tau**t * math.exp(-reach)
        value += part
        by_delta += part * (d - power * reach)
        by_tau += part * t
    for n, d, t, eta, epsilon, beta, gamma in equation.gaussian:
        along, across = delta - epsilon, tau - gamma
        part = n * delta**d * tau**t * math.exp(-eta * along * along - beta * across * across)
        value += part
        by_delta += part * (d - 2 * eta * delta * along)
        by_tau += part * (t - 2 * beta * tau * across)
    for term in equation.non_analytic:
        share = _near_critical(term, delta, tau)
        value += share.value
        by_delta += share.by_delta
        by_tau += share.by_tau
    return Share(value, by_delta, by_tau)


def _near_critical(term: tuple[float, ...], delta: float, tau: float) -> Share:
    """Span and Wagner 1996, the term n D^b delta psi; names as there, D for their Delta."""
    n, a, b, beta, large_a, large_b, large_c, large_d = term
    along, across = delta - 1, tau - 1
    square = along * along
    theta = -across + large_a * square ** (0.5 / beta)
    distance = theta * theta + large_b * square**a
    psi = math.exp(-large_c * square - large_d * across * across)
    whole, inner = distance**b, b * distance ** (b - 1)
    slope = along * (
        large_a * theta * 2 / beta * square ** (0.5 / beta - 1)
        + 2 * large_b * a * square ** (a - 1)
    )
    by_delta = whole * (1 - 2 * large_c * along * delta) + inner * slope * delta
    by_tau = -2 * (inner * theta + whole * large_d * across)
    return Share(
        n * whole * delta * psi, n * delta * psi * by_delta, n * delta * psi * tau * by_tau
    )
