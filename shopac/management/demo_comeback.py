"""A car of the demo that was here over a year ago and comes back with the same trouble."""

from shopac.management.demo_story import CONSENT, Fields, Line, key_of

TILIA: Fields = {
    "customer_name": "Runa Osterby",
    "phone": "555 010 0172",
    "plate": "MV.2864H",
    "make_model": "Corvane Tilia 1.4",
    "model_year": "2019",
    "vin": "ZZ9CT4HL9KT002864",
    "drive": "belt_clutch",
    "displacement": "fixed",
    "voltage": "12",
    "switched_side": "feed",
    "refrigerant": "R-134a",
    "label_charge": "450 g",
    "label_charge_source": "label",
    "branches": ["front"],
}
VENT: Fields = {
    "test_kind": "vent_temperature",
    "test_version": "1",
    "branch": "front",
    "humidity": "45",
    "recirculation": "fresh",
    "blower": "high",
    "doors": "open",
    "rpm": "1500",
    "minutes": "10",
}
# (name in this list, hours ago, who, entry kind, job, fields)
BEFORE: tuple[Line, ...] = (
    (
        "tilia",
        9600,
        "Noor Abanti",
        "intake",
        "tilia",
        {**TILIA, "odometer": "41 300 mi", "complaint": "Not cold any more.", **CONSENT},
    ),
    (
        "tilia fitted",
        9590,
        "R. Sand",
        "change",
        "tilia",
        {"what": "fitted", "part": "condenser", "source": "new", "serial": "TC-20418"},
    ),
    (
        "tilia vent",
        9588,
        "R. Sand",
        "step",
        "tilia",
        {**VENT, "vent": "9", "intake": "28"},
    ),
    (
        "tilia again",
        3,
        "Noor Abanti",
        "intake",
        "tilia again",
        {
            **TILIA,
            "odometer": "52 800 mi",
            "complaint": "Warm again, like last year.",
            "follows": str(key_of("tilia")),
            "before": "comeback",
        },
    ),
    (
        "tilia vent again",
        2.5,
        "E. Quist",
        "step",
        "tilia again",
        {**VENT, "vent": "22", "intake": "29"},
    ),
)
