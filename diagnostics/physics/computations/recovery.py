"""Recovered grams, losses, hose, gas left in a loop, and what it would do to the climate."""

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    AIR,
    REFRIGERANT,
    VOLUME,
    accuracy,
    basis,
    basis_in_air,
    gauge_pressure,
    in_figures,
    name_of,
    number,
    plain,
    read_gauge,
    standard,
    temperature,
    text,
    words,
)
from diagnostics.physics.errors import OutOfRange
from diagnostics.physics.recovery import (
    MACHINES,
    MORE_OUT,
    Against,
    InCar,
    against_label,
    hose_content,
    least_share,
    loss_per_day,
    normal_loss,
    residual_gas,
    was_in_car,
)
from diagnostics.physics.refrigerants import (
    REPORTS,
    SAFETY_WORDS,
    co2_equivalent,
    refrigerant_named,
    warming,
)
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured
from diagnostics.physics.units import from_si, shown

MACHINE = Input(
    "machine",
    "Class of the recovery machine: older (SAE J2210) or newer (SAE J2788)",
    answers=tuple(MACHINES),
)
BAY = Input("temperature", "Temperature in the bay at recovery", "°C", -60, 70)
RECOVERED = Input("recovered", "Grams recovered by the scale", "g", 0, 20_000)
SCALE = accuracy("scale", "scale", "g", from_si(INSTRUMENTS["scale"].fixed, "g"))
REPORT = Input(
    "report",
    "Assessment report: AR4, AR5 or AR6",
    answers=tuple(REPORTS),
    default="AR4",
)
TESTS = "tests told in SAE J2762 (older class); SAE J2788:2020 (newer class)"
AGAINST: dict[Against, str] = {
    "low": "Low against the label: a leak or an earlier short fill.",
    "as_label": "As the label says.",
    "above": f"More than the label says came out: {MORE_OUT}",
    "cannot_tell": (
        "Cannot tell whether the label charge was in it: the machine leaves, or the scale may be "
        "off by, that much."
    ),
}


def _in_car(inputs: Inputs) -> InCar:
    recovered = Measured(number(inputs, "recovered"), standard(inputs, "scale"))
    return was_in_car(recovered, text(inputs, "machine"), number(inputs, "temperature"))


def _ends(found: InCar) -> dict[str, Result]:
    ends = {"was_in_car_low": plain(found.low, "g")}
    if found.high is not None:
        ends["was_in_car_high"] = plain(found.high, "g")
    return ends


def _span(found: InCar) -> str:
    low = shown(from_si(found.low, "g"), 0)
    if found.high is None:
        return f"At least {low} g were in the car; no upper end is known below 10 °C."
    return f"Between {low} and {words(found.high, 'g', 0)} were in the car."


def _against(found: InCar, recovered: float, label: float) -> str:
    """Against the label; more than it came out is told before what a charge may be off."""
    if found.low > label:
        return AGAINST["above"]
    where = AGAINST[against_label(found, label)]
    if recovered > label:
        return (
            "The scale shows a little more than the label, by less than the scale may be off: "
            "cannot tell whether the label charge or more was in it."
        )
    return where


def _recovered(inputs: Inputs) -> Result:
    found, label = _in_car(inputs), number(inputs, "label_charge")
    against = _against(found, number(inputs, "recovered"), label)
    return Result(
        number(inputs, "recovered") / label,
        "%",
        standard(inputs, "scale") / label,
        meaning=f"{_span(found)} {against} Recovered grams are a lower bound.",
        basis=MACHINES[text(inputs, "machine")].source,
        more=_ends(found),
    )


def _least_share(inputs: Inputs) -> Result:
    share = least_share(text(inputs, "machine"), number(inputs, "temperature"))
    if share is None:
        raise OutOfRange("No test is known below 10 °C: nothing can be said.")
    return Result(
        share,
        "%",
        meaning=f"Such a machine takes out at least {words(share, '%', 0)} at this temperature.",
        basis=MACHINES[text(inputs, "machine")].source,
    )


def _normal(inputs: Inputs) -> Result:
    seconds = number(inputs, "time")
    lost = normal_loss(from_si(seconds, "yr"))
    told = in_figures(seconds, "yr" if from_si(seconds, "yr") >= 1 else "d")
    return Result(
        lost,
        "g",
        meaning=f"A tight car loses about {words(lost, 'g', 0)} in {told}: no proof of a fault.",
        basis="fleet reports: 15.1 g a year on average, trade article",
    )


def _per_day(inputs: Inputs) -> Result:
    charged = Measured(number(inputs, "charged"), standard(inputs, "scale"))
    found = _in_car(inputs)
    least, most = (
        one / 86_400 for one in loss_per_day(charged, found, from_si(number(inputs, "time"), "d"))
    )
    return Result(
        (least + most) / 2,
        "g/d",
        meaning=(
            f"Between {in_figures(least, 'g/d')} and {in_figures(most, 'g/d')} were lost "
            f"since the known charge. {_span(found)}"
        ),
        basis=MACHINES[text(inputs, "machine")].source,
        more={"least": plain(least, "g/d"), "most": plain(most, "g/d"), **_ends(found)},
    )


def _hose(inputs: Inputs) -> Result:
    wet, dry = hose_content(
        text(inputs, "refrigerant"),
        number(inputs, "length"),
        number(inputs, "bore"),
        number(inputs, "temperature"),
    )
    return Result(
        wet,
        "g",
        meaning=(
            f"Full of liquid the hose holds {words(wet, 'g', 0)}, full of vapor at most "
            f"{words(dry, 'g', 1)}. That is not in the car."
        ),
        basis=basis(inputs),
        more={"liquid": plain(wet, "g"), "vapor": plain(dry, "g")},
    )


def _residual(inputs: Inputs) -> Result:
    left = residual_gas(
        text(inputs, "refrigerant"),
        number(inputs, "temperature"),
        read_gauge(inputs, "pressure"),
        number(inputs, "volume"),
    )
    volume = words(number(inputs, "volume"), "L", 1)
    return Result(
        left,
        "g",
        meaning=(
            f"{words(left, 'g', 1)} {name_of(inputs)} are left as gas in {volume}; what the oil "
            "holds is not counted."
        ),
        basis=f"equation of state; {basis_in_air(inputs)}",
    )


def _co2(inputs: Inputs) -> Result:
    name, report = text(inputs, "refrigerant"), text(inputs, "report")
    found = warming(name, report)
    kilogram = co2_equivalent(name, number(inputs, "mass"), report)
    less = "less than " if found.less_than else ""
    return Result(
        kilogram,
        "kg",
        meaning=f"It warms like {less}{words(kilogram, 'kg', 1)} of CO₂. Factor: {found.report}.",
        basis=found.report,
        more={"warming_potential": plain(found.value, "")},
    )


def _warming(inputs: Inputs) -> Result:
    found = warming(text(inputs, "refrigerant"), text(inputs, "report"))
    one = refrigerant_named(text(inputs, "refrigerant"))
    times = f"{found.value:g}"
    less = "less than " if found.less_than else ""
    return Result(
        found.value,
        "",
        meaning=(
            f"{one.name} ({one.chemical}) warms {less}{times} times as much as CO₂. Safety class "
            f"{one.safety} of ASHRAE 34: {SAFETY_WORDS[one.safety]}."
        ),
        basis=found.report,
    )


TIME_DAYS = Input("time", "Time since the known charge", "d", 0, 20_000)
COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "recovered_share",
        "Recovered over label charge, and what was in the car by class of machine",
        (
            RECOVERED,
            Input("label_charge", "Charge on the label", "g", 1, 20_000),
            MACHINE,
            BAY,
            SCALE,
        ),
        "%",
        TESTS,
        _recovered,
    ),
    Computation(
        "machine_share",
        "Least share of a charge that a class of machines takes out",
        (MACHINE, BAY),
        "%",
        TESTS,
        _least_share,
    ),
    Computation(
        "normal_loss",
        "Grams that a tight car loses over some time",
        (Input("time", "Time since the charge was known to be right", "yr", 0, 25),),
        "g",
        "fleet reports, trade article",
        _normal,
    ),
    Computation(
        "loss_per_day",
        "Grams lost a day since the last known charge: middle between least and most",
        (
            Input("charged", "Grams charged then", "g", 1, 20_000),
            RECOVERED,
            MACHINE,
            BAY,
            TIME_DAYS,
            SCALE,
        ),
        "g/d",
        TESTS,
        _per_day,
    ),
    Computation(
        "hose_content",
        "Grams that a service hose holds",
        (
            REFRIGERANT,
            Input("length", "Length of the hose", "m", 0.01, 20),
            Input("bore", "Inner diameter of the hose", "mm", 0.5, 50, default=4.8),
            temperature("temperature", "Temperature of the hose"),
        ),
        "g",
        "volume of the bore x density of the saturated liquid and vapor",
        _hose,
    ),
    Computation(
        "residual_gas",
        "Grams left as gas in a loop without liquid",
        (
            REFRIGERANT,
            temperature("temperature", "Temperature of the loop"),
            gauge_pressure("pressure", "Gauge reading"),
            *AIR,
            VOLUME,
        ),
        "g",
        "volume x density of the gas by the equation of state",
        _residual,
    ),
    Computation(
        "co2_equivalent",
        "Mass of CO₂ that warms as much in 100 years",
        (REFRIGERANT, Input("mass", "Mass of refrigerant", "g", 0, 1_000_000), REPORT),
        "kg",
        "IPCC assessment reports; the result names which",
        _co2,
    ),
    Computation(
        "warming_potential",
        "Global warming potential over 100 years, and the safety class",
        (REFRIGERANT, REPORT),
        "",
        "IPCC assessment reports; ASHRAE 34",
        _warming,
    ),
)
