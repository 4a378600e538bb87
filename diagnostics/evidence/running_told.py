"""Two running pressures told: lead, band, numbers worked out, the curve; and all of it together."""

from collections.abc import Iterator

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.findings import Line, Meaning, Outcome, Plot, Spot, Value
from diagnostics.evidence.loop_at_odds import superheat_words
from diagnostics.evidence.loop_pressures import SORTED_WORDS, THERMOMETER_U, Side, gauges_words
from diagnostics.evidence.readings import Readings, number
from diagnostics.evidence.running import Running, harms, look, pattern, ratio_place, sentence
from diagnostics.evidence.running_suspects import (
    HARDLY_LIQUID,
    HARM,
    NOT_PUMPED,
    marks,
    not_tested,
    onward,
)
from diagnostics.evidence.saturation_plot import kpa, saturation_plot
from diagnostics.physics.cycle import difference_u
from diagnostics.physics.units import from_si, shown, shown_range, with_unit


def lead(seen: Running) -> str:
    """What the gauges showed."""
    told = []
    for name, side in (("low", seen.loop.low), ("high", seen.loop.high)):
        if side.reading:
            told.append(f"{side.reading.shown} {name}")
    if not told:
        return ""
    if seen.loop.ambient:
        told.append(f"air {seen.loop.ambient.shown}")
    return f"{', '.join(told)}."


def band_words(seen: Running, code: str) -> str:
    """What both sides and their ratio were held against, and whose accuracy stands behind it."""
    said = []
    if seen.loop.charted:
        said.append("Held against this vehicle’s own chart.")
    elif code != "nothing_told":
        said += [SORTED_WORDS, gauges_words()]
    if seen.loop.band and seen.loop.ambient:
        ratios = shown_range(*seen.loop.band, 1)
        said.append(
            f"Ratio of a loop under load at {seen.loop.ambient.shown}: {ratios}, worked"
            " out with the evaporator at 2\u00a0°C and the condenser 15–25\u00a0K over the air"
            " (that span is from memory): to compare, no limit."
        )
    return " ".join(said)


def notes(seen: Running, code: str) -> Iterator[str]:
    """Where the ratio lies, and what does not fit."""
    places = {
        "below": "The ratio lies below what such air gives under load.",
        "not_pumping": "The ratio lies far below what such air gives under load.",
        "above": "The ratio lies above what such air gives under load.",
        "cannot_tell": "Where the ratio lies to that cannot be told with these gauges.",
    }
    harm = harms(seen)
    if harm:
        yield HARM[harm]
    if seen.refuted and code not in NOT_PUMPED:  # there its mark says so
        yield HARDLY_LIQUID[:1].upper() + HARDLY_LIQUID[1:]
    found = places.get(ratio_place(seen), "")
    if found and seen.shaft != "no":
        yield found
    if seen.charge and code != "nothing_told":
        yield f"Charge told as right: {seen.charge}."


def values(seen: Running, readings: Readings) -> Iterator[Value]:
    """How far the high side stands over the air, and the share of time it runs."""
    over = seen.loop.over_air
    high = seen.loop.high
    if over is not None and high.pressure:
        u = difference_u(seen.system.get("refrigerant", ""), high.pressure, THERMOMETER_U, high.u)
        text = with_unit(shown(over, 0), "K")
        yield Value("high", "High side over the air (compared, not judged)", text, over, "ΔK", u)
    on, off = number(readings, "on_s"), number(readings, "off_s")
    if on and off and on.si + off.si > 0:
        share = on.si / (on.si + off.si)
        text = with_unit(shown(100 * share, 0), "%")
        yield Value("off_s", "Runs (recorded, not judged)", text, share, "1")


def drawn(seen: Running, around: Circumstances) -> Plot | None:
    """Both sides on the saturation curve, with the air outside."""
    gas = around.system.get("refrigerant", "")
    spots = tuple(
        spot
        for name, side in (("low", seen.loop.low), ("high", seen.loop.high))
        if (spot := _spot(name, side, gas))
    )
    if not spots:
        return None
    lines: tuple[Line, ...] = ()
    words = f"Saturation curve of {gas} with " + " and ".join(spot.words for spot in spots)
    if seen.loop.ambient:
        celsius = from_si(seen.loop.ambient.si, "°C")
        top = max(spot.y for spot in spots)
        air = f"air {seen.loop.ambient.shown}"
        lines = (Line(((celsius, 0.0), (celsius, top)), air, "edge"),)
        words += f", and {air}"
    caption = "Each side stands on the curve by its pressure; what is in the lines is not measured."
    return saturation_plot(gas, around.air, spots, f"{words}.", caption, lines)


def _spot(name: str, side: Side, gas: str) -> Spot | None:
    """One side on the curve, or None."""
    if side.reading is None or side.pressure is None or side.kelvin is None:
        return None
    celsius = from_si(side.kelvin, "°C")
    words = f"{name} {side.reading.shown}, {with_unit(shown(celsius, 0), '°C')}"
    error = 2 * difference_u(gas, side.pressure, 0.0, side.u)
    return Spot(celsius, kpa(side.reading.si), words, error, kpa(2 * side.u))


def read(readings: Readings, around: Circumstances) -> Meaning:
    """The meaning of what was read."""
    seen = look(readings, around)
    code = pattern(seen)
    carries = code != "nothing_told"
    basis = ("vehicle" if seen.loop.charted else "general") if carries else ""
    found = tuple(marks(seen, code))
    outcome = Outcome(code, sentence(seen, code), found, not_tested(seen, code), carries, basis)
    return Meaning(
        outcome,
        lead(seen),
        band=band_words(seen, code),
        notes=(*notes(seen, code), *superheat_words(readings, around)),
        onward=onward(seen, code),
        values=tuple(values(seen, readings)),
        plot=drawn(seen, around),
    )
