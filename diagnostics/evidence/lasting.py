"""What does not come and go: a normal result says as much while the car does not fail.

Grams, gas, gap, dirt and a wet nose are as they are, whatever the complaint does at that hour.
Voltage, current, cold air and whether the plate comes are not. Our judgement.
"""

LASTING = frozenset(
    {
        "walk_round",
        "opened_before",
        "air_gap",
        "clutch_face",
        "limiter",
        "shaft_seal",
        "gas_identity",
        "sealant_test",
        "static_pressure",
        "leak_search",
        "vacuum_hold",
        "nitrogen_hold",
        "recovered_share",
        "debris",
        "oil_condition",
        "filter_second_look",
        "condenser_face",
    }
)
