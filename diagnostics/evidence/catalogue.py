"""All kinds of test step, in the order in which the command travels and a bay works."""

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.kinds.coil_power import COIL_POWER

_ALL: tuple[Kind, ...] = (COIL_POWER,)

KINDS: dict[str, Kind] = {kind.name: kind for kind in _ALL}
