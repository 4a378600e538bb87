"""What a kind is read with, and what whoever makes it has to be qualified for."""

from diagnostics.evidence.kind import Kind
from diagnostics.physics.quantities import OF_INSTRUMENT

# What a kind uses beside the instruments of its numbers.
ALSO: dict[str, tuple[str, ...]] = {
    "leak_search": ("leak",),
    "recovered_share": ("recovery",),
}
REFRIGERANT, HIGH_VOLTAGE = "refrigerant", "high_voltage"
# The tests that move refrigerant out of a loop or draw it empty, and those on high voltage. Which
# paper that work needs differs by place; that it needs one is common practice, no source.
NEEDS: dict[str, str] = {
    "recovered_share": REFRIGERANT,
    "vacuum_hold": REFRIGERANT,
    "hv_isolation": HIGH_VOLTAGE,
    "hv_command": HIGH_VOLTAGE,
}


def quantities_of(kind: Kind) -> tuple[str, ...]:
    """The quantities for which a step of this kind can name an instrument, each once, in order."""
    read = (OF_INSTRUMENT.get(number.instrument, "") for number in kind.numbers)
    return tuple(dict.fromkeys(one for one in (*read, *ALSO.get(kind.name, ())) if one))
