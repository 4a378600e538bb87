"""Which tests run the air conditioning, or need cold asked for or the clutch powered.

None of them is offered where it must not be run. Common practice, no source.
"""

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.orders import RUN

# By name; those that wait for what must be known before running belong to it by their orders.
ASKS_FOR_COLD = (
    *("complaint_seen", "relay", "command_data", "feed_voltage", "feed_drop", "ground_drop"),
    *("coil_power", "known_good", "hv_command", "condenser_fan"),
)


def runs(kind: Kind) -> bool:
    """Whether making the test runs it, or may."""
    return kind.name in ASKS_FOR_COLD or bool({*RUN} & {*kind.orders})
