"""Make the tables and equations of the refrigerants from CoolProp; nothing at run time needs it."""

import json
import math
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

try:
    from CoolProp import CoolProp
except ImportError:  # only who makes tables needs it
    CoolProp = None  # type: ignore[assignment]

PHYSICS = Path(__file__).resolve().parents[2] / "physics"
FLUIDS = {
    "R-134a": ("R134a", "Tillner-Roth and Baehr 1994, J. Phys. Chem. Ref. Data 23(5):657"),
    "R-1234yf": ("R1234yf", "Lemmon and Akasaka 2022, Int. J. Thermophys. 43:119"),
    "R-12": ("R12", "Marx, Pruss and Wagner 1992, VDI-Fortschritt-Berichte series 19 no. 57"),
    "R-152a": ("R152A", "Outcalt and McLinden 1996, J. Phys. Chem. Ref. Data 25(2):605"),
    "R-744": ("CO2", "Span and Wagner 1996, J. Phys. Chem. Ref. Data 25(6):1509"),
}
POINTS = 49
COLDEST = 213.15  # K, or the triple point
BELOW_CRITICAL = 0.1  # K: nearer to the critical point no table follows
NEAR = 1e-3  # of a step, for slopes by Richardson's extrapolation
COLUMNS = (
    "ln_pressure", "liquid_density", "vapor_density", "liquid_enthalpy", "vapor_enthalpy",
    "liquid_entropy", "vapor_entropy",
)  # fmt: skip
RULE = (
    "x = cbrt(1 - T/critical_temperature); u = (x - first)/step, i its whole part, t the rest; "
    "each column holds values y and slopes m per step; "
    "y = (1+2t)(1-t)^2 y[i] + t(1-t)^2 m[i] + t^2(3-2t) y[i+1] - t^2(1-t) m[i+1]"
)
REFERENCE = "IIR: saturated liquid at 0 °C has h = 200 kJ/kg and s = 1 kJ/(kg K)"
ASHRAE = "ASHRAE: saturated liquid at -40 °C has h = 0 and s = 0; subtract these"
HOTTEST = 500.0  # K: no use for hotter gas here

Row = tuple[float, ...]


class Command(BaseCommand):
    """`make_tables [--folder FOLDER]`."""

    help = "Write the refrigerants' tables and equations from CoolProp."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take another folder than the program's own."""
        parser.add_argument("--folder", type=Path, default=PHYSICS)

    def handle(self, *_args: object, **options: Any) -> None:
        """Write two files a refrigerant and say how large they are."""
        if CoolProp is None:
            raise CommandError("The tables are made with CoolProp, which is not installed here.")
        for name in FLUIDS:
            for kind, content in (("tables", table(name)), ("equations", equation(name))):
                path = options["folder"] / kind / f"{name}.json"
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(as_text(content), "utf-8")
                self.stdout.write(f"{kind}/{path.name}: {path.stat().st_size} bytes")


def as_text(content: Mapping[str, object]) -> str:
    """JSON with one entry a line, so that a change can be read."""
    lines = [
        f"{json.dumps(key)}: {json.dumps(value, ensure_ascii=False, separators=(',', ':'))}"
        for key, value in content.items()
    ]
    return "{\n" + ",\n".join(lines) + "\n}\n"


def head(name: str) -> dict[str, object]:
    """What both files begin with."""
    return {
        "refrigerant": name,
        "formulation": FLUIDS[name][1],
        "library": f"CoolProp {CoolProp.get_global_param_string('version')}",
        "reference": REFERENCE,
    }


class Saturation:
    """Both phases of one refrigerant by the library, on the IIR reference."""

    def __init__(self, name: str) -> None:
        self.fluid = FLUIDS[name][0]
        self.shift = (0.0, 0.0)
        _, _, _, enthalpy, _, entropy, _ = self(273.15)
        self.shift = (200e3 - enthalpy, 1e3 - entropy)

    def __call__(self, kelvin: float) -> Row:
        """The columns' values at a temperature."""

        def of(quantity: str, quality: int) -> float:
            return float(CoolProp.PropsSI(quantity, "T", kelvin, "Q", quality, self.fluid))

        return (
            math.log(of("P", 0)),
            *(of("Dmass", quality) for quality in (0, 1)),
            *(of("Hmass", quality) + self.shift[0] for quality in (0, 1)),
            *(of("Smass", quality) + self.shift[1] for quality in (0, 1)),
        )

    def constant(self, name: str) -> float:
        """A constant of the refrigerant under the library's own name, in SI."""
        return float(CoolProp.PropsSI(name, self.fluid))

    def coldest(self) -> float:
        """Where the table begins, in kelvin."""
        return max(COLDEST, math.ceil(self.constant("Ttriple") * 100) / 100)


def table(name: str) -> dict[str, object]:
    """Values and slopes on an even grid of the cube root of the distance to the critical point.

    Densities and enthalpies bend like that root, so that few points follow them to the end.
    """
    saturation = Saturation(name)
    critical = saturation.constant("Tcrit")

    def at(x: float) -> Row:
        return saturation(critical * (1 - x**3))

    coldest, hottest = saturation.coldest(), critical - BELOW_CRITICAL
    first, last = (math.cbrt(1 - kelvin / critical) for kelvin in (hottest, coldest))
    step = (last - first) / (POINTS - 1)
    grid = [first + index * step for index in range(POINTS)]
    values = list(zip(*map(at, grid), strict=True))
    slopes = list(zip(*(slope(at, x, step) for x in grid), strict=True))
    _, _, _, enthalpy, _, entropy, _ = saturation(233.15)
    return {
        **head(name),
        "ashrae": ASHRAE,
        "ashrae_enthalpy": rounded(enthalpy),
        "ashrae_entropy": rounded(entropy),
        "units": "K, Pa, kg/m3, J/kg, J/(kg K)",
        "rule": RULE,
        "critical_temperature": rounded(critical, 12),
        "critical_pressure": rounded(saturation.constant("pcrit")),
        "critical_density": rounded(saturation.constant("rhocrit")),
        "lowest_temperature": rounded(coldest),
        "highest_temperature": rounded(hottest),
        "first": rounded(first, 15),
        "step": rounded(step, 15),
        **{
            column: [[rounded(one) for one in values[n]], [rounded(one, 7) for one in slopes[n]]]
            for n, column in enumerate(COLUMNS)
        },
    }


def slope(at: Callable[[float], Row], x: float, step: float) -> Row:
    """Change per step, from two symmetric differences."""
    wide, narrow = (
        [(b - a) / 2 / part for a, b in zip(at(x - part * step), at(x + part * step), strict=True)]
        for part in (2 * NEAR, NEAR)
    )
    return tuple((4 * fine - coarse) / 3 for coarse, fine in zip(wide, narrow, strict=True))


def equation(name: str) -> dict[str, object]:
    """The coefficients of the Helmholtz energy, made specific and set to the IIR reference."""
    told = json.loads(CoolProp.get_fluid_param_string(FLUIDS[name][0], "JSON"))
    law = (told[0] if isinstance(told, list) else told)["EOS"][0]
    reducing = law["STATES"]["reducing"]
    saturation = Saturation(name)
    gas_constant = law["gas_constant"] / law["molar_mass"]
    ideal = ideal_part(law["alpha0"])
    ideal["lead"][0] -= saturation.shift[1] / gas_constant
    ideal["lead"][1] += saturation.shift[0] / gas_constant / reducing["T"]
    terms: dict[str, list[list[float]]] = {"power": [], "gaussian": [], "non_analytic": []}
    for part in law["alphar"]:
        kind, keys = RESIDUAL[part["type"]]
        terms[kind] += [list(term) for term in zip(*(part[key] for key in keys), strict=True)]
    return {
        **head(name),
        "gas_constant": gas_constant,
        "reducing_temperature": reducing["T"],
        "reducing_density": reducing["rhomolar"] * law["molar_mass"],
        "lowest_temperature": rounded(saturation.coldest()),
        "highest_temperature": min(law["T_max"], HOTTEST),
        "ideal": ideal,
        **terms,
    }


RESIDUAL = {
    "ResidualHelmholtzPower": ("power", ("n", "d", "t", "l")),
    "ResidualHelmholtzGaussian": ("gaussian", ("n", "d", "t", "eta", "epsilon", "beta", "gamma")),
    "ResidualHelmholtzNonAnalytic": (
        "non_analytic",
        ("n", "a", "b", "beta", "A", "B", "C", "D"),
    ),
}


def ideal_part(parts: Iterable[Mapping[str, Any]]) -> dict[str, Any]:
    """The ideal gas as lead, logarithm, powers and Planck-Einstein terms of tau alone."""
    ideal: dict[str, Any] = {"lead": [0.0, 0.0], "log_tau": 0.0, "power": [], "planck_einstein": []}
    for part in parts:
        match part["type"]:
            case "IdealGasHelmholtzLead" | "IdealGasHelmholtzEnthalpyEntropyOffset":
                ideal["lead"] = [ideal["lead"][0] + part["a1"], ideal["lead"][1] + part["a2"]]
            case "IdealGasHelmholtzLogTau":
                ideal["log_tau"] += part["a"]
            case "IdealGasHelmholtzPower":
                ideal["power"] += [list(one) for one in zip(part["n"], part["t"], strict=True)]
            case "IdealGasHelmholtzPlanckEinstein":
                pairs = zip(part["n"], part["t"], strict=True)
                ideal["planck_einstein"] += [list(one) for one in pairs]
            case "IdealGasHelmholtzCP0PolyT":
                add_heat_capacity(ideal, part)
            case other:
                raise CommandError(f"An ideal gas written as {other} is not known here.")
    return ideal


def add_heat_capacity(ideal: dict[str, Any], part: Mapping[str, Any]) -> None:
    """Integrate cp/R = sum c T^t twice, with the constants that the library takes."""
    critical, start = part["Tc"], part["T0"]
    for c, t in zip(part["c"], part["t"], strict=True):
        if t == 0:
            ideal["log_tau"] += c
            ideal["lead"][0] += c - c * math.log(critical / start)
            ideal["lead"][1] -= c * start / critical
        else:
            ideal["power"].append([-c * critical**t / t / (t + 1), -t])
            ideal["lead"][0] += c * start**t / t
            ideal["lead"][1] -= c * start ** (t + 1) / critical / (t + 1)


def rounded(value: float, digits: int = 9) -> float:
    """To significant digits."""
    return float(f"{value:.{digits}g}")
