"""Which tests need the loop closed, and which look into an open one; common practice, no source."""

# Closed or with pressure in it, or the A/C runs for it.
NEEDS_CLOSED = frozenset(
    (
        *("complaint_seen", "belt_drive", "hot_retest", "noise", "hv_command"),
        *("gas_identity", "sealant_test", "static_pressure", "leak_search", "recovered_share"),
        *("vacuum_hold", "nitrogen_hold", "running_pressures", "equalising"),
        *("control_valve_duty", "condenser_face", "line_temperatures", "vent_temperature"),
    )
)
# Refrigerant in it: a sample, or the pressure that a leak is searched under.
NEEDS_CHARGE = frozenset(("gas_identity", "sealant_test", "leak_search", "equalising"))
# None is offered while refrigerant may be in it.
NEEDS_OPEN = frozenset(("debris", "oil_condition", "filter_second_look"))
