"""The refrigerants that are known here: names, label forms, safety class, warming potential."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnostics.physics.errors import Malformed, OutOfRange

# AR4 and AR5 as the GHG Protocol sheet lists them, AR6 from WGI Table 7.SM.7.
REPORTS: Mapping[str, str] = {
    "AR4": "IPCC Fourth Assessment Report (AR4, 2007), 100 years",
    "AR5": "IPCC Fifth Assessment Report (AR5, 2013), 100 years",
    "AR6": "IPCC Sixth Assessment Report (AR6, 2021), 100 years",
}


@dataclass(frozen=True)
class Warming:
    """Global warming potential over 100 years, with the report it stands in.

    `less_than`: the report only says that it is below `value`.
    """

    value: float
    report: str
    less_than: bool = False


@dataclass(frozen=True)
class Refrigerant:
    """`name` is the designation of ASHRAE 34; `safety` its class there.

    `family` is the prefix by kind of molecule (CFC, HFC, HFO). `warming` goes by report.
    """

    name: str
    family: str
    chemical: str
    formula: str
    safety: str
    warming: Mapping[str, Warming]


def _warming(ar4: float, ar5: float, ar6: float) -> Mapping[str, Warming]:
    values = zip(REPORTS.items(), (ar4, ar5, ar6), strict=True)
    return {key: Warming(value, words) for (key, words), value in values}


# R-1234yf is younger than AR4: its 4 stands in EU Regulation 517/2014, since repealed (from
# memory). "Below 1" is AR5 Table 8.A.1 (from memory).
_WARMING_1234YF = {
    "AR4": Warming(4, "EU Regulation 517/2014 (repealed); not listed in AR4"),
    "AR5": Warming(1, REPORTS["AR5"], less_than=True),
    "AR6": Warming(0.501, REPORTS["AR6"]),
}
# Safety classes: ASHRAE 34. R-744 and R-1234yf were read, the others are from memory.
REFRIGERANTS: Mapping[str, Refrigerant] = {
    one.name: one
    for one in (
        Refrigerant(
            "R-134a",
            "HFC",
            "1,1,1,2-tetrafluoroethane",
            "CH2FCF3",
            "A1",
            _warming(1430, 1300, 1530),
        ),
        Refrigerant(
            "R-1234yf", "HFO", "2,3,3,3-tetrafluoropropene", "CF3CF=CH2", "A2L", _WARMING_1234YF
        ),
        Refrigerant(
            "R-12", "CFC", "dichlorodifluoromethane", "CCl2F2", "A1", _warming(10900, 10200, 12500)
        ),
        Refrigerant(
            "R-152a", "HFC", "1,1-difluoroethane", "CHF2CH3", "A2", _warming(124, 138, 164)
        ),
        Refrigerant("R-744", "", "carbon dioxide", "CO2", "A1", _warming(1, 1, 1)),
    )
}
NAMES = tuple(REFRIGERANTS)
SAFETY_WORDS: Mapping[str, str] = {
    "A1": "lower toxicity, no flame propagation",
    "A2L": "lower toxicity, lower flammability, burns slowly",
    "A2": "lower toxicity, flammable",
}


def label_forms(refrigerant: Refrigerant) -> tuple[str, ...]:
    """How the name stands on labels and cans, the designation first."""
    number = refrigerant.name.removeprefix("R-")
    forms = [refrigerant.name, f"R{number}"]
    if refrigerant.family:
        forms += [f"{refrigerant.family}-{number}", f"{refrigerant.family}{number}"]
    if refrigerant.formula == "CO2":
        forms += ["CO2", "CO₂"]
    return tuple(forms)


def _folded(typed: str) -> str:
    return "".join(typed.casefold().replace("₂", "2").split()).replace("-", "")


_BY_FORM = {
    _folded(form): refrigerant
    for refrigerant in REFRIGERANTS.values()
    for form in label_forms(refrigerant)
}


def refrigerant_named(typed: str) -> Refrigerant:
    """The refrigerant of a name as it stands on labels; case, spaces and hyphens aside.

    Raises:
        Malformed: none of those known here.

    """
    found = _BY_FORM.get(_folded(typed))
    if found is None:
        raise Malformed(f"“{typed.strip()}” is none of the refrigerants known here: {_listed()}.")
    return found


def warming(name: str, report: str) -> Warming:
    """Global warming potential of a refrigerant over 100 years, as one assessment report has it.

    Raises:
        Malformed: a refrigerant or report that is not known here.

    """
    if report not in REPORTS:
        raise Malformed(f"“{report}” is none of the reports known here: {', '.join(REPORTS)}.")
    return refrigerant_named(name).warming[report]


def co2_equivalent(name: str, kilogram: float, report: str = "AR4") -> float:
    """Mass of CO2 in kilogram that warms as much in 100 years as this mass of refrigerant.

    Raises:
        Malformed: a refrigerant or report that is not known here.
        OutOfRange: a mass below zero.

    """
    if not kilogram >= 0:
        raise OutOfRange("A mass below zero cannot be weighed against CO₂.")
    return kilogram * warming(name, report).value


def _listed() -> str:
    return ", ".join(NAMES)
