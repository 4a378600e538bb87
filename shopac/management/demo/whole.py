"""The story that is told in full: no pull-in with feed and ground proven under load, and what for.

Gap past its limit and face worn, shaft smooth, its seal wet by the detector, 410 of 650 g out; a
complete compressor with drier is chosen, clutch parts alone stand beside it as also possible.
Figures are invented; what they stand for is common practice.
"""

from shopac.management.demo.cylinders import charged, recovered
from shopac.management.demo.told import (
    DESK,
    SAND,
    Fields,
    Line,
    entry,
    fails,
    key_of,
    step,
    taken_in,
)

JOB = "carrow"
# What stands at both ends of a comparison: only then it is one.
LIKE = {
    "branch": "front", "humidity": "50", "recirculation": "fresh", "blower": "high",
    "doors": "open", "rpm": "1500", "minutes": "10",
}  # fmt: skip
CLEAN = ("body", "ports_block", "suction", "discharge", "condenser", "condenser_joints", "drier",
         "lines", "expansion", "evaporator", "low_port", "high_port", "switch")  # fmt: skip
PRICES: Fields = {
    "hours_clutch_in_car": "2", "hours_unbolt": "1.25", "hours_clutch_beside": "1",
    "hours_hoses_off": "1", "hours_recover": "0.5", "hours_evacuate": "0.75",
    "hours_charge": "0.25", "hours_sweep": "0.5", "hours_drier": "0.5", "hours_device": "0.75",
    "hours_shaft_seal": "2.5", "hours_oil": "0.25", "hours_find_again": "0.5",
    "hours_find_place": "0.5", "hours_leak_place": "1", "hours_gap": "0.75",
    "part_clutch": "268.00", "source_clutch": "new",
    "part_compressor": "489.00", "source_compressor": "new",
    "part_seals": "18.00", "part_shaft_seal": "74.00", "part_drier": "58.00",
    "source_drier": "new", "part_device": "36.50", "source_device": "new",
    "amount_oil": "90", "amount_refrigerant": "650",
    "keep_months": "4 years", "shop_months": "12", "shop_pays": ["labor", "parts"],
    "seller_months": "24", "seller_pays": ["parts"],
    "aside_gap_set": "No shim is left to take out, and the face is worn.",
}  # fmt: skip
# Each line with what its form asks, in the order of `lines`.
LINES = (
    ("labor", "Refrigerant recovered", "0.5", "96.00", "h", ""),
    ("labor", "Compressor unbolted, new one fitted", "2.25", "96.00", "h", ""),
    ("labor", "Drier and expansion device", "1.25", "96.00", "h", ""),
    ("labor", "Evacuated, held, charged by weight, searched", "1.5", "96.00", "h", ""),
    ("part", "Compressor, complete with clutch", "1", "489.00", "piece", "new"),
    ("part", "Receiver-drier", "1", "58.00", "piece", "new"),
    ("part", "Expansion device", "1", "36.50", "piece", "new"),
    ("part", "Seals and valve cores", "1", "18.00", "piece", "new"),
    ("fluid", "R-134a", "650 g", "42.00", "kg", ""),
    ("fluid", "Oil PAG 46", "90 mL", "0.12", "mL", ""),
    ("sundry", "Cleaning and caps", "1", "6.00", "piece", ""),
)


def lines() -> Fields:
    """The estimate's lines as its form names them."""
    names = ("sort", "words", "quantity", "price", "per", "source")
    return {
        f"{name}_{at}": text
        for at, row in enumerate(LINES, 1)
        for name, text in zip(names, row, strict=True)
    }


FOUND: tuple[Line, ...] = (
    taken_in(
        JOB, 54, customer_name="Halina Westergaard", phone="555 010 0190", plate="RW.5126C",
        make_model="Brenloh Carrow 1.8", model_year="2016", vin="ZZ9BR4CA1GT005126",
        odometer="104 850 mi", label_charge="650 g",
        complaint="Blows warm. It used to come back after a rest, now it does not.",
        since="weeks", warm_when=["always"],
    ),
    entry(JOB, "system", 53.8, SAND, expansion="valve", gap_low="0.35", gap_high="0.65",
          gap_unit="mm", gap_source="workshop_data"),
    fails(JOB, 53.7),
    entry(JOB, "conditions", 53.6, SAND, ambient="27"),
    step(JOB, "complaint_seen", 53.5, engages="no", there="yes", blower="yes", cold="no"),
    step(JOB, "walk_round", 53.4, hoses="fine", compressor="not_fine", turned="fine", ports="fine",
         condenser="fine", expansion="no_reach", drier="fine", belt="fine", fan_clutch="not_fitted",
         fan="fine", wiring="fine", gas="fine", what="Oil and dust around the nose."),
    step(JOB, "hub_turn", 53.35, turns="free", warmth="cold"),
    step(JOB, "gas_identity", 53.3, how="instrument", result="as_label"),
    step(JOB, "static_pressure", 53.25, low="560 kPa", high="562 kPa", temperature="25 °C",
         where="places", soaked="yes"),
    step(JOB, "vent_temperature", 53.2, vent="26", intake="27", **LIKE),
    step(JOB, "command_data", 53, power="on", asked="yes", commanded="yes", line="wire"),
    step(JOB, "feed_voltage", 52.8, load="coil", commanded="yes", volts="12.9", battery="13.1",
         black="minus", carries="yes", amps="3.2"),
    step(JOB, "ground_drop", 52.6, volts="0.04", carries="yes", amps="3.2", path="wire"),
    step(JOB, "coil_power", 52.2, engine="off", ground="good", volts="12.4",
         amps="3.1", temperature="31", magnet="yes", holds="no", pushed="yes"),
    step(JOB, "coil_resistance", 52, temperature="31", beyond="no", wiggled="steady", case="open",
         plug="off", **dict.fromkeys(("one", "other"), "3.7")),
    step(JOB, "air_gap", 51.8, gap_1="0.96", gap_2="0.99", gap_3="0.94", shims="none"),
    step(JOB, "clutch_face", 51.6, color="yes", smell="yes", melted="no", dust="yes", oil="no",
         rust="no", plate="off"),
    step(JOB, "shaft_seal", 50.8, nose="wet", dye="not_looked", detector="alarms",
         pressure="yes", whose="loop"),
    step(JOB, "leak_search", 50.4, method="electronic", setting="g7", pressure="560 kPa",
         nose="found", **dict.fromkeys(CLEAN, "clean")),
    recovered(JOB, 49.6, "410"),
    step(JOB, "recovered_share", 49.5, recovered="410", machine="newer", temperature="24",
         repeated="yes", years="4"),
)  # fmt: skip
DECIDED: tuple[Line, ...] = (
    entry(JOB, "prices_typed", 48, DESK, **PRICES),
    entry(JOB, "decision", 47, DESK, plan="compressor_device", decided_by="customer",
          told_how="phone", reasons=["shown", "once"],
          why="Keeps the car four more years and wants it opened once."),
    (f"{JOB} estimate", 46.8, DESK, "estimate", JOB,
     {**lines(), "decision": str(key_of(f"{JOB} decision 47"))}),
    entry(JOB, "consent", 46.5, DESK, consent_about=key_of(f"{JOB} estimate").hex,
          consent_outcome="agreed", consent_how="phone", consent_who="customer",
          number_called="555 010 0190", old_parts="seller", consent_asked="1"),
)  # fmt: skip
REPAIRED: tuple[Line, ...] = (
    step(JOB, "debris", 29, expansion="clean", drier="not_opened", hose="clean", filter="clean",
         condenser="parallel"),
    step(JOB, "oil_condition", 28.9, look="clear", smell="no", acid="no", dye="no", amount="55",
         source="compressor", label="pag46"),
    entry(JOB, "change", 28, SAND, what="fitted", part="compressor", source="new",
          serial="TC-771204", part_number="TY-2310", old_serial="OC-118553", seller="Tansy Parts",
          proof="TP 40177", also=["drier", "expansion_device", "seal"],
          number_drier="TY-1180", number_expansion_device="TY-1042",
          gap_1="0.45", gap_2="0.47", gap_3="0.46"),
    step(JOB, "debris", 27.95, expansion="not_opened", drier="clean", hose="clean",
         filter="clean", condenser="parallel"),
    entry(JOB, "taken_out", 27.9, SAND, change=str(key_of(f"{JOB} change 28")), went="core",
          core="60.00"),
    entry(JOB, "loop_parts", 27.8, SAND, condenser="clean", evaporator="unseen", hose="clean"),
    entry(JOB, "oil", 27.6, SAND, oil="pag46", source="compressor", part="compressor",
          drained_old="55", arrived="some", drained_new="120", prefilled="90"),
    entry(JOB, "change", 27.4, SAND, what="closed"),
    step(JOB, "hub_turn", 27.2, turns="free", warmth="cold"),
    entry(JOB, "evacuation", 26.5, SAND, gauge="system", depth="380", pumped="40",
          temperature="25", m1="10", v1="1100", m2="25", v2="520", t1="1", p1="400", t2="5",
          p2="430", t3="10", p3="440"),
    step(JOB, "vacuum_hold", 26.4, gauge="system", depth="380", pumped="40", temperature="25",
         t1="1", p1="400", t2="5", p2="430", t3="10", p3="440"),
    charged(JOB, 26, "650"),
)  # fmt: skip
SHOWN: tuple[Line, ...] = (
    fails(JOB, 25.9, "no"),
    entry(JOB, "conditions", 25.8, SAND, ambient="26"),
    step(JOB, "complaint_seen", 25.7, engages="yes", there="no", blower="yes", cold="yes"),
    step(JOB, "coil_power", 25.6, engine="off", ground="good", volts="12.4",
         amps="3.3", temperature="30", magnet="yes", holds="yes", lets_go="yes"),
    step(JOB, "condenser_fan", 25.4, asked="yes", fan_1="runs", fan_2="runs", air="drawn",
         shroud="whole"),
    step(JOB, "running_pressures", 25.2, low="190 kPa", high="1320 kPa", ambient="26", shaft="yes",
         charge_known="weighed_in", rpm="1500", vents="cold", cycles="no"),
    step(JOB, "vent_temperature", 25, vent="8", intake="26", **LIKE),
    step(JOB, "leak_search", 24.6, method="electronic", setting="g7", pressure="590 kPa",
         nose="clean", **dict.fromkeys(CLEAN, "clean")),
    entry(JOB, "verified", 24.2, SAND, caps="on", label="updated", label_refrigerant="R-134a",
          label_grams="650", label_oil="PAG 46"),
    entry(JOB, "stage", 24.1, SAND, came_from="repairing", to="verifying"),
    (f"{JOB} invoice", 23.8, DESK, "invoice", JOB, lines()),
    entry(JOB, "close", 23.5, DESK, came_from="verifying", closing_kind="repaired_verified",
          picked_up="customer", odometer_out="104 862 mi"),
)  # fmt: skip
WHOLE: tuple[Line, ...] = (*FOUND, *DECIDED, *REPAIRED, *SHOWN)
