"""The figure that a clutch coil is held to, where it came from, and how warm such a coil can be."""

from diagnostics.evidence.fields import Span
from diagnostics.evidence.system import System
from diagnostics.physics.electrics import PLAUSIBLE_12_V, CoilFigure
from diagnostics.physics.uncertainty import INSTRUMENTS
from diagnostics.physics.units import shown, shown_range, to_si, with_unit

# What is noted of a car is the figure, never its tolerance: this much either way, our judgement.
TOLERANCE = 0.1
# A coil whose temperature was not read can be anything from winter to a hot bay after a long run.
AT_20 = with_unit("20", "°C")
COLDEST, HOTTEST = to_si(-20, "°C"), to_si(120, "°C")
SPREAD = INSTRUMENTS["thermometer"].fixed
WARMTH = Span(
    -40, 150, -60, 200,
    "Outside what a coil in a car has.",
    "No car is colder than −60 °C, and above 200 °C a winding has burnt.",
)  # fmt: skip


def coil_figure(system: System) -> tuple[CoilFigure, str, str] | None:
    """(figure at 20 °C, basis, words), or None where nothing general can be said."""
    ohm = system.get("coil_ohm")
    if ohm:
        source = system.get("coil_ohm_source") or "source not noted"
        words = f"Expected from {with_unit(f'{ohm:g}', 'Ω')} at {AT_20} ({source}), "
        words += f"±{with_unit(shown(100 * TOLERANCE, 0), '%')}"
        words += " (our judgement: no tolerance is noted)"
        return CoilFigure(ohm * (1 - TOLERANCE), ohm * (1 + TOLERANCE)), "vehicle", words
    if system.get("voltage") == "24":
        return None
    band = shown_range(PLAUSIBLE_12_V.low, PLAUSIBLE_12_V.high, 0)
    coils = f"{with_unit('12', 'V')} coils have, {with_unit(band, 'Ω')} at {AT_20}"
    words = f"No figure of this vehicle: expected from what {coils}"
    words += " (trade articles; not a limit)"
    return PLAUSIBLE_12_V, "general", words
