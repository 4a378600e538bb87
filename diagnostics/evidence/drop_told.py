"""From which current and volts on a drop along the clutch's wires tells something."""

from diagnostics.evidence.coil_figure import coil_figure
from diagnostics.evidence.system import System
from diagnostics.physics.electrics import NO_CURRENT, PLAUSIBLE_12_V

# A drop clears a wire only when it carries what it has to carry. Our judgement: half of what the
# coil draws at 12 V, by the vehicle's figure or, at least, by what such coils have.
WORKING_SHARE = 0.5
WORKING_VOLTS = 12.0
LEAST_DRAWN = WORKING_VOLTS / PLAUSIBLE_12_V.high  # A
FAR = 1.0  # V: from here no meter's error and no long wire explains it; our judgement
ALL_LOST = 10.0  # V: of 12 V, what is left drives no coil's current; our judgement


def working_amps(system: System) -> float:
    """The current in A from which a drop that is small shows something."""
    figure = coil_figure(system)
    drawn = WORKING_VOLTS / figure[0].high if figure else LEAST_DRAWN
    return WORKING_SHARE * drawn


def tells_resistance(volt: float, ampere: float, system: System) -> bool:
    """Whether the resistance of a stretch follows from volts lost and current, leads either way.

    At little current only where far too much is lost, and never where nothing is made of the drop:
    without current, with all of the battery lost in spite of one, on 24 V.
    """
    volt, ampere = abs(volt), abs(ampere)
    if system.get("voltage") == "24" or ampere < NO_CURRENT:
        return False
    return volt < ALL_LOST if ampere >= working_amps(system) else volt >= FAR
