"""Every way to repair, by its code, and which of them a car can have."""

from collections.abc import Mapping

from diagnostics.evidence.options.option import Answers, Option, on_car
from diagnostics.evidence.options.repairs_air import AIR, NO_REPAIR
from diagnostics.evidence.options.repairs_clutch import CLUTCH
from diagnostics.evidence.options.repairs_command import COMMAND
from diagnostics.evidence.options.repairs_compressor import COMPRESSOR, WHOLE_LOOP
from diagnostics.evidence.options.repairs_loop import LOOP
from diagnostics.evidence.system import System, can_be_such

OPTIONS: Mapping[str, Option] = {
    one.code: one for one in (*COMMAND, *CLUTCH, *COMPRESSOR, *LOOP, *WHOLE_LOOP, *AIR, *NO_REPAIR)
}


def possible(system: System, answers: Answers) -> list[Option]:
    """Those that such a car can have; what is not known of it takes nothing out.

    An option that would cure nothing which this car can have is none, but for those that repair
    nothing.
    """
    return [
        one
        for one in OPTIONS.values()
        if can_be_such(one.on, system) and (not one.repairs or on_car(one.cures, answers))
    ]
