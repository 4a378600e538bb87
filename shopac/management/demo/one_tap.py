"""Cars that stop one tap before the point: the note on top says what the instrument shows now.

Their figures are invented; what they stand for is common practice.
"""

from shopac.management.demo.cylinders import recovered
from shopac.management.demo.told import QUIST, SAND, Line, entry, fails, step, taken_in

GAS = {"how": "instrument", "result": "as_label"}
COIL_NO_PULL = {
    "engine": "off", "ground": "good", "volts": "12.4", "amps": "3.2", "temperature": "46",
    "magnet": "yes", "holds": "no", "pushed": "yes",
}  # fmt: skip


def note(job: str, hours: float, who: str, kind: str, said: str) -> Line:
    """What is read and not recorded yet, for whoever goes on."""
    return entry(job, "handover", hours, who, next_test=kind, said=said)


# The needle is full, and less than half of the label is in it.
NEEDLE = (
    taken_in(
        "needle", 30, customer_name="Maud Ferrant", phone="555 010 0131", plate="NB.7720L",
        make_model="Maribel Tarn 2.0", model_year="2018", vin="ZZ9MT6NE2JT002913",
        odometer="61 250 mi", label_charge="650 g", complaint="A little cool, never cold.",
        since="weeks", warm_when=["always"],
    ),
    fails("needle", 29.5),
    step("needle", "complaint_seen", 29.4, engages="yes", there="yes", blower="yes", cold="no"),
    step("needle", "gas_identity", 29, **GAS),
    step(
        "needle", "static_pressure", 28.8, low="566 kPa", high="568 kPa", temperature="25 °C",
        where="places", soaked="yes",
    ),
    step(
        "needle", "leak_search", 28.2, QUIST, method="electronic", setting="g7", pressure="566 kPa",
        nose="clean", ports_block="clean", suction="clean", discharge="clean", condenser="clean",
        condenser_joints="clean", lines="clean", expansion="clean", low_port="clean",
        high_port="clean", body="clean", drier="clean", switch="clean", evaporator="no_reach",
    ),
    recovered("needle", 27.8, "290", waited="again", grams_again="4", came_back="30"),
    note(
        "needle", 27.5, QUIST, "recovered_share",
        "Twice into cylinder 2: 294 g in all, 24 °C in the bay. Not noted yet what that tells.",
    ),
)  # fmt: skip
# The relay is the third in a month; nobody measured what it switches.
RELAY = (
    taken_in(
        "relay", 6, customer_name="Benat Oyelaran", phone="555 010 0166", plate="CV.9017P",
        make_model="Corvane Tilia 1.6", model_year="2013", vin="ZZ9CT4RE1DT007034",
        odometer="133 900 mi", label_charge="480 g", other_work="yes",
        complaint="Third relay in a month. Works for a week, then dead again.", since="weeks",
        warm_when=["always"],
    ),
    fails("relay", 5.8),
    step("relay", "complaint_seen", 5.7, engages="no", there="yes", blower="yes", cold="no"),
    step("relay", "fuse", 5.5, looked="whole", sides="both", rating="same"),
    step(
        "relay", "relay", 5.3, built="plug_in", click="yes", output="no", swapped="works",
    ),
    note(
        "relay", 5, SAND, "coil_resistance",
        "Meter on the coil, plug off: 1.7 Ω one way and the other, steady, coil at 22 °C."
        " Nothing to the case.",
    ),
)  # fmt: skip
# Quits hot, holds when pushed; the only shim is thicker than what may go.
SHIM = (
    taken_in(
        "shim", 8, customer_name="Tove Brandvold", phone="555 010 0118", plate="SL.2264M",
        make_model="Dorvane Umber 1.4", model_year="2015", vin="ZZ9DU3SH7FT004478",
        odometer="109 300 mi", label_charge="500 g", complaint="Cold for ten minutes, then warm.",
        since="weeks", warm_when=["hot"],
    ),
    fails("shim", 7.6),
    step("shim", "complaint_seen", 7.5, QUIST, engages="no", there="yes", blower="yes", cold="no"),
    step("shim", "hub_turn", 7.3, QUIST, turns="free", warmth="hot"),
    step("shim", "coil_power", 7.2, QUIST, **COIL_NO_PULL),
    step("shim", "hot_retest", 6.8, QUIST, hot="quits", cold="works", test="takes_hold",
         minutes="12", bay="29 °C"),
    note(
        "shim", 6.5, QUIST, "air_gap",
        "Gap all round 0.92, 0.95, 0.90 mm. One shim in it, 0.80 mm, and none to spare here."
        " Limits in the shop’s data for this car: 0.35 to 0.65 mm.",
    ),
)  # fmt: skip
# The coil is open, and the hub was not turned yet.
LOCKED = (
    taken_in(
        "locked", 4, customer_name="Ruben Castellane", phone="555 010 0155", plate="LD.6650C",
        make_model="Brenloh Ilex 1.6", model_year="2011", vin="ZZ9BX2LK7BT006650",
        odometer="158 400 mi", label_charge="520 g",
        complaint="A squeal, a smell of burning, and since then no cold air.", since="days",
        warm_when=["always"],
    ),
    fails("locked", 3.8),
    step("locked", "complaint_seen", 3.7, engages="no", there="yes", blower="yes", cold="no"),
    step(
        "locked", "coil_power", 3.5, engine="off", ground="good", volts="12.5", amps="0",
        magnet="no", holds="no", pushed="no",
    ),
    step(
        "locked", "coil_resistance", 3.3, beyond="both", temperature="24", wiggled="steady",
        case="open", plug="off",
    ),
    note("locked", 3, SAND, "hub_turn", "The hub does not turn by hand: cold, belt off."),
)  # fmt: skip
# Full voltage at the plug, until something draws current.
LAMP = (
    taken_in(
        "lamp", 5, customer_name="Greta Halloway", phone="555 010 0102", plate="WE.3907B",
        make_model="Maribel Sorrel", model_year="2014", vin="ZZ9MS5LA8ET003907",
        odometer="88 100 mi", label_charge="540 g", complaint="No cold air since the winter.",
        since="last_season", warm_when=["always"],
    ),
    fails("lamp", 4.8),
    step("lamp", "complaint_seen", 4.7, QUIST, engages="no", there="yes", blower="yes", cold="no"),
    step("lamp", "command_data", 4.5, QUIST, power="on", asked="yes", commanded="yes", line="wire"),
    step(
        "lamp", "feed_voltage", 4.2, QUIST, load="none", commanded="yes", volts="13.5",
        battery="13.9", black="minus",
    ),
    note(
        "lamp", 4, QUIST, "feed_voltage",
        "The same plug with the 21 W lamp across it: 5.1 V, battery 13.8 V, the lamp glows red.",
    ),
)  # fmt: skip
# A can was put in; until the kit is read the shop's own hoses stay off.
JELLY = (
    taken_in(
        "jelly", 9, customer_name="Anselm Okonjo", phone="555 010 0177", plate="JT.8241R",
        make_model="Corvane Tilia 1.4", model_year="2012", vin="ZZ9CT4JE8CT008241",
        odometer="141 700 mi", label_charge="450 g", topped_up="yes",
        complaint="A friend put a can in. Cold for two days.", since="days", warm_when=["always"],
    ),
    fails("jelly", 8.6),
    step("jelly", "complaint_seen", 8.5, engages="yes", there="yes", blower="yes", cold="no"),
    step(
        "jelly", "opened_before", 8.3, fittings="no", parts="no", seals="no", caps="missing",
        label="no", dye="not_looked", where="Low side cap missing, thread sticky.",
    ),
    note(
        "jelly", 8, SAND, "sealant_test",
        "Kit at the low port: the film set hard within two minutes. The can said “stops leaks”.",
    ),
)  # fmt: skip

ONE_TAP: tuple[Line, ...] = (*NEEDLE, *RELAY, *SHIM, *LOCKED, *LAMP, *JELLY)
