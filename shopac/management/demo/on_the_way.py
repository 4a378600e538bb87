"""Cars in the middle of it: tested, decided, open, under vacuum, waiting.

Their figures are invented; what they stand for is common practice.
"""

from shopac.management.demo.cylinders import BLUE, key, recovered
from shopac.management.demo.told import (
    DESK,
    QUIST,
    SAND,
    Line,
    entry,
    fails,
    key_of,
    step,
    taken_in,
)

# Metal all over the loop: the compressor came apart.
BURST = (
    taken_in(
        "burst", 54, customer_name="Lorcan Whitlock", phone="555 010 0139", plate="HB.2745F",
        make_model="Corvane Alder", model_year="2013", vin="ZZ9CT4BU7DT002745",
        odometer="166 000 mi", label_charge="600 g",
        complaint="A bang under the hood, then the belt squealed.", since="days",
        warm_when=["always"], consent_amount="240",
    ),
    fails("burst", 53.5),
    step("burst", "complaint_seen", 53.4, engages="no", there="yes", blower="yes", cold="no"),
    step("burst", "hub_turn", 53, turns="locked", warmth="cold"),
    step("burst", "gas_identity", 52.5, how="instrument", result="as_label"),
    recovered("burst", 52, "388", QUIST, oil_out="20"),
    entry("burst", "change", 51.5, QUIST, what="opened", where="Suction line off."),
    step(
        "burst", "debris", 51, QUIST, expansion="found", drier="not_opened", hose="found",
        port="not_opened", filter="not_opened", flakes="yes", brass="yes", paste="yes", beads="no",
        crumbs="no", jelly="no", condenser="parallel",
    ),
    step("burst", "oil_condition", 50.8, QUIST, look="black", smell="yes", acid="yes", dye="no",
         source="compressor", label="pag46"),
    entry("burst", "tag", 50, QUIST, reasons=["locked", "loop_open"]),
)  # fmt: skip
# A van with a second unit in the roof, and one of the two blows warm.
TRUCK = (
    taken_in(
        "truck", 28, customer_name="Hollow Lane School Transport", phone="555 010 0184",
        plate="TK.6191S", make_model="Kellwood Carrier", model_year="2017",
        vin="ZZ9KW8TR7HT006191", odometer="203 500 mi", displacement="variable_inner",
        label_charge="1250 g", branches=["front", "rear"], payer="fleet",
        complaint="Cold at the front, the children in the back sweat.", since="weeks",
        warm_when=["always"],
    ),
    fails("truck", 27.5),
    step("truck", "complaint_seen", 27.4, engages="yes", there="yes", blower="yes", cold="no"),
    step("truck", "gas_identity", 27.2, how="instrument", result="as_label"),
    step("truck", "cabin_airflow", 27, flow="strong", blower="all", filter="clean", rear="strong"),
    step(
        "truck", "vent_temperature", 26.8, branch="front", vent="8", intake="29", humidity="50",
        recirculation="fresh", blower="high", doors="open", rpm="1500", minutes="10",
    ),
    step(
        "truck", "vent_temperature", 26.5, branch="rear", vent="24", intake="30", humidity="50",
        recirculation="recirculated", blower="high", doors="open", rpm="1500", minutes="10",
    ),
)  # fmt: skip
# High voltage: made dead by the one who may, before anything else.
VOLTS = (
    taken_in(
        "volts", 26, customer_name="Sunniva Aldous", phone="555 010 0148", plate="EV.8830A",
        make_model="Dorvane Umbel E", model_year="2022", vin="ZZ9DU7EV5NT008830",
        odometer="38 200 mi", drive="electric_hv", displacement="speed", switched_side="",
        refrigerant="R-1234yf", label_charge="780 g", branches=["front", "battery"],
        complaint="Warm, and a warning about the air conditioning.", since="days",
        warm_when=["always"],
    ),
    fails("volts", 25.5),
    step("volts", "complaint_seen", 25.4, engages="no", there="yes", blower="yes", cold="no"),
    step("volts", "codes", 25.2, stored="stored", code_1="B3C10", state_1="stored", relevant="yes",
         cleared="no"),
    step("volts", "hv_command", 25, asked="yes", commanded="0", actual="0", warning="shown",
         refusal="insulation"),
    step(
        "volts", "hv_isolation", 24, qualified="yes", plug="out", waited="10", figure="5",
        proof="dead", volts="0.2", insulation="0.3", least="1", system_volts="400",
        test_volts="500",
    ),
)  # fmt: skip
# The pulley turns, the hub stands: the limiter gave way.
LIMITER = (
    taken_in(
        "limiter", 10, customer_name="Ike Thornbury", phone="555 010 0126", plate="HU.4412D",
        make_model="Kellwood Fells", model_year="2018", vin="ZZ9KW2HU9JT004412",
        odometer="92 750 mi", drive="belt_clutchless", displacement="variable_outer",
        switched_side="", refrigerant="R-1234yf", label_charge="510 g",
        complaint="Warm from one minute to the next, with a crack.", since="days",
        warm_when=["always"],
    ),
    fails("limiter", 9.6),
    step("limiter", "complaint_seen", 9.5, engages="cannot_tell", there="yes", blower="yes",
         cold="no"),
    step("limiter", "limiter", 9.2, hub="stands", looks="torn", shaft="not_free"),
    step("limiter", "hub_turn", 9, turns="locked", drive="stands", warmth="cold"),
)  # fmt: skip
# Filled without a vacuum: air is in it.
AIR = (
    taken_in(
        "air", 11, customer_name="Paloma Estevan", phone="555 010 0161", plate="AR.7708V",
        make_model="Brenloh Ilex 1.4", model_year="2015", vin="ZZ9BX2AR9FT007708",
        odometer="97 000 mi", label_charge="500 g", topped_up="cannot_tell", other_work="yes",
        complaint="Not cold in traffic. A radiator was changed in spring.", since="weeks",
        warm_when=["hot", "idle"],
    ),
    fails("air", 10.6),
    step("air", "complaint_seen", 10.5, QUIST, engages="yes", there="yes", blower="yes", cold="no"),
    step("air", "gas_identity", 10.2, QUIST, how="instrument", result="air", air="6"),
    step(
        "air", "static_pressure", 10, QUIST, low="640 kPa", high="642 kPa", temperature="24 °C",
        where="places", soaked="yes",
    ),
)  # fmt: skip
# One of two fans only goes when it is pushed.
FAN = (
    taken_in(
        "fan", 7, customer_name="Hettie Marchbanks", phone="555 010 0193", plate="FN.3356G",
        make_model="Maribel Sorrel", model_year="2012", vin="ZZ9MS5FA7CT003356",
        odometer="127 600 mi", label_charge="540 g",
        complaint="Cold on the road, warm at the lights.", since="weeks", warm_when=["idle"],
    ),
    fails("fan", 6.6),
    step("fan", "complaint_seen", 6.5, engages="yes", there="idle", blower="yes", cold="yes"),
    step("fan", "condenser_fan", 6.2, asked="yes", fan_1="runs", fan_2="push", air="hardly",
         shroud="whole"),
    step(
        "fan", "condenser_face", 6, dirt="some", bent="no", oily="no", between="some", added="no",
        guides="whole",
    ),
    entry("fan", "waiting", 5.5, SAND, what="part", words="Fan, right side", due_day="tomorrow",
          due_hour="12:00"),
)  # fmt: skip
# The loop stands open and capped while the part comes.
WAIT = (
    taken_in(
        "wait", 200, customer_name="Idris Pemberton", phone="555 010 0150", plate="WT.8063H",
        make_model="Kellwood Fells", model_year="2016", vin="ZZ9KW2WA6GT008063",
        odometer="118 900 mi", label_charge="560 g", complaint="Empty again after one month.",
        since="weeks", warm_when=["always"],
    ),
    fails("wait", 199),
    step("wait", "gas_identity", 198.5, QUIST, how="instrument", result="as_label"),
    step(
        "wait", "leak_search", 198, QUIST, method="electronic", setting="g7", pressure="310 kPa",
        condenser="found", condenser_joints="clean", nose="clean", low_port="clean",
        high_port="clean",
    ),
    recovered("wait", 196, "95", QUIST),
    entry("wait", "change", 190, QUIST, what="opened", where="Condenser out, lines capped."),
    entry("wait", "waiting", 189, DESK, what="part", words="Condenser, from the depot",
          due_day="tomorrow", due_hour="16:00"),
    entry("wait", "tag", 189.5, QUIST, reasons=["loop_open", "no_refrigerant"]),
)  # fmt: skip
# Handed over while the pump runs.
VACUUM = (
    taken_in(
        "vacuum", 12, customer_name="Signe Tolliver", phone="555 010 0107", plate="VC.2284K",
        make_model="Maribel Tarn 2.0", model_year="2020", vin="ZZ9MT6VA8LT002284",
        odometer="44 100 mi", refrigerant="R-1234yf", label_charge="520 g",
        complaint="Hiss at the front after a stone hit it.", since="days", warm_when=["always"],
        accident="yes", payer="insurer",
    ),
    fails("vacuum", 11.5),
    step("vacuum", "walk_round", 11.4, QUIST, hoses="fine", compressor="fine", turned="fine",
         ports="fine", condenser="not_fine", drier="no_reach", belt="fine", fan="fine",
         wiring="fine", what="A hole in the condenser, oil below it."),
    recovered("vacuum", 9.5, "0", QUIST, cylinder=key(BLUE), gas="label"),
    entry("vacuum", "change", 9, QUIST, what="fitted", part="condenser", source="new",
          serial="MTC-88120"),
    entry("vacuum", "change", 8.8, QUIST, what="fitted", part="drier", source="new"),
    entry("vacuum", "change", 8.7, QUIST, what="closed"),
    entry("vacuum", "waiting", 0.4, QUIST, what="vacuum", minutes="45"),
    entry("vacuum", "handover", 0.3, QUIST, to=str(key_of("R. Sand")),
          stands=["gauges_on", "vacuum", "hood_open"], next_test="vacuum_hold",
          said="Pump on since noon. Shut the valve, wait, read the micron gauge."),
)  # fmt: skip

ON_THE_WAY: tuple[Line, ...] = (
    *WAIT, *BURST, *TRUCK, *VOLTS, *VACUUM, *AIR, *LIMITER, *FAN,
)  # fmt: skip
