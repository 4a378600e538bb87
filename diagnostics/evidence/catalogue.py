"""All kinds of test step, in the order in which the command travels and a bay works.

Common practice, no source. The groups are the parts of the job the tests belong to.
"""

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.kinds.air_doors import AIR_DOORS
from diagnostics.evidence.kinds.air_gap import AIR_GAP
from diagnostics.evidence.kinds.belt_drive import BELT_DRIVE
from diagnostics.evidence.kinds.cabin_airflow import CABIN_AIRFLOW
from diagnostics.evidence.kinds.clutch_face import CLUTCH_FACE
from diagnostics.evidence.kinds.codes import CODES
from diagnostics.evidence.kinds.coil_power import COIL_POWER
from diagnostics.evidence.kinds.coil_resistance import COIL_RESISTANCE
from diagnostics.evidence.kinds.command_data import COMMAND_DATA
from diagnostics.evidence.kinds.complaint_seen import COMPLAINT_SEEN
from diagnostics.evidence.kinds.condenser_face import CONDENSER_FACE
from diagnostics.evidence.kinds.condenser_fan import CONDENSER_FAN
from diagnostics.evidence.kinds.control_valve_duty import CONTROL_VALVE_DUTY
from diagnostics.evidence.kinds.debris import DEBRIS
from diagnostics.evidence.kinds.equalising import EQUALISING
from diagnostics.evidence.kinds.evaporator_sensor import EVAPORATOR_SENSOR
from diagnostics.evidence.kinds.feed_drop import FEED_DROP
from diagnostics.evidence.kinds.feed_voltage import FEED_VOLTAGE
from diagnostics.evidence.kinds.filter_second_look import FILTER_SECOND_LOOK
from diagnostics.evidence.kinds.fuse import FUSE
from diagnostics.evidence.kinds.gas_identity import GAS_IDENTITY
from diagnostics.evidence.kinds.ground_drop import GROUND_DROP
from diagnostics.evidence.kinds.hot_retest import HOT_RETEST
from diagnostics.evidence.kinds.hub_turn import HUB_TURN
from diagnostics.evidence.kinds.hv_command import HV_COMMAND
from diagnostics.evidence.kinds.hv_isolation import HV_ISOLATION
from diagnostics.evidence.kinds.known_good import KNOWN_GOOD
from diagnostics.evidence.kinds.leak_search import LEAK_SEARCH
from diagnostics.evidence.kinds.limiter import LIMITER
from diagnostics.evidence.kinds.line_temperatures import LINE_TEMPERATURES
from diagnostics.evidence.kinds.nitrogen_hold import NITROGEN_HOLD
from diagnostics.evidence.kinds.noise import NOISE
from diagnostics.evidence.kinds.oil_condition import OIL_CONDITION
from diagnostics.evidence.kinds.opened_before import OPENED_BEFORE
from diagnostics.evidence.kinds.pressure_switch import PRESSURE_SWITCH
from diagnostics.evidence.kinds.pulley_bearing import PULLEY_BEARING
from diagnostics.evidence.kinds.recovered_share import RECOVERED_SHARE
from diagnostics.evidence.kinds.relay import RELAY
from diagnostics.evidence.kinds.running_pressures import RUNNING_PRESSURES
from diagnostics.evidence.kinds.sealant_test import SEALANT_TEST
from diagnostics.evidence.kinds.shaft_seal import SHAFT_SEAL
from diagnostics.evidence.kinds.static_pressure import STATIC_PRESSURE
from diagnostics.evidence.kinds.vacuum_hold import VACUUM_HOLD
from diagnostics.evidence.kinds.vent_temperature import VENT_TEMPERATURE
from diagnostics.evidence.kinds.walk_round import WALK_ROUND

GROUPS = {
    "see_first": "See first",
    "command": "Command",
    "clutch": "Clutch",
    "compressor": "Compressor",
    "charge": "Charge and tightness",
    "cleanliness": "Cleanliness",
    "heat": "Heat",
}

_ALL: tuple[Kind, ...] = (
    COMPLAINT_SEEN,
    WALK_ROUND,
    CODES,
    BELT_DRIVE,
    OPENED_BEFORE,
    HOT_RETEST,
    FUSE,
    RELAY,
    PRESSURE_SWITCH,
    COMMAND_DATA,
    FEED_VOLTAGE,
    FEED_DROP,
    GROUND_DROP,
    COIL_POWER,
    COIL_RESISTANCE,
    AIR_GAP,
    CLUTCH_FACE,
    PULLEY_BEARING,
    LIMITER,
    KNOWN_GOOD,
    HUB_TURN,
    RUNNING_PRESSURES,
    EQUALISING,
    SHAFT_SEAL,
    NOISE,
    CONTROL_VALVE_DUTY,
    HV_COMMAND,
    HV_ISOLATION,
    GAS_IDENTITY,
    SEALANT_TEST,
    STATIC_PRESSURE,
    LEAK_SEARCH,
    VACUUM_HOLD,
    NITROGEN_HOLD,
    RECOVERED_SHARE,
    DEBRIS,
    OIL_CONDITION,
    FILTER_SECOND_LOOK,
    CONDENSER_FAN,
    CONDENSER_FACE,
    LINE_TEMPERATURES,
    EVAPORATOR_SENSOR,
    VENT_TEMPERATURE,
    AIR_DOORS,
    CABIN_AIRFLOW,
)

KINDS: dict[str, Kind] = {kind.name: kind for kind in _ALL}
