"""All kinds of test step, in the order in which the command travels and a bay works."""

from diagnostics.evidence.kind import Kind

_ALL: tuple[Kind, ...] = ()

KINDS: dict[str, Kind] = {kind.name: kind for kind in _ALL}
