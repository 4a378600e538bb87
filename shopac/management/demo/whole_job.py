"""Of the story told in full: its job, and what stands alike at both ends of a comparison."""

from shopac.management.demo.told import key_of

JOB = "carrow"
# What stands at both ends of a comparison: only then it is one.
LIKE = {
    "branch": "front",
    "humidity": "50",
    "recirculation": "fresh",
    "blower": "high",
    "doors": "open",
    "rpm": "1500",
    "minutes": "10",
}
METER, PROBE, SCALE = (str(key_of(name)) for name in ("meter", "probe", "scale"))
VOLTS = {"with_voltage": METER, "with_current": METER}
CLEAN = (
    "body",
    "ports_block",
    "suction",
    "discharge",
    "condenser",
    "condenser_joints",
    "drier",
    "lines",
    "expansion",
    "evaporator",
    "low_port",
    "high_port",
    "switch",
)
