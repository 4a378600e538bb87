"""Cars that left, each in another way.

Their figures are invented; what they stand for is common practice.
"""

from shopac.management.demo.cylinders import recovered
from shopac.management.demo.told import DESK, QUIST, Line, entry, fails, step, taken_in

# Another gas than the label: it stays where it is.
MIXED = (
    taken_in(
        "mixed", 160, customer_name="Osric Delamare", phone="555 010 0114", plate="MX.9063J",
        make_model="Maribel Tarn 1.6", model_year="2009", vin="ZZ9MT6MX79T009063",
        odometer="187 200 mi", label_charge="600 g", topped_up="yes",
        complaint="Filled abroad last summer, weak since.", since="last_season",
        warm_when=["always"],
    ),
    step("mixed", "gas_identity", 159, how="instrument", result="mixed", share="71"),
    entry(
        "mixed", "close", 158, DESK, came_from="testing", closing_kind="refused",
        refused_for=["unknown_gas"], told_how="in_person", tag="yes", picked_up="customer",
        reason="71 % R-134a, the rest not known. It needs its own marked cylinder.",
    ),
)  # fmt: skip
# The price was known, and the answer was no.
DECLINED = (
    taken_in(
        "declined", 130, customer_name="Wenna Trevose", phone="555 010 0135", plate="DC.9914X",
        make_model="Corvane Alder", model_year="2010", vin="ZZ9CT4DE4AT009914",
        odometer="192 300 mi", label_charge="600 g", complaint="Rumbles and does not cool.",
        since="weeks", warm_when=["always"],
    ),
    fails("declined", 129),
    step("declined", "complaint_seen", 128.9, engages="yes", there="yes", blower="yes", cold="no"),
    step("declined", "hub_turn", 128.5, turns="rough", warmth="cold"),
    step("declined", "noise", 128.3, on="yes", off="no", speed="yes", what="rumble",
         where="compressor"),
    entry(
        "declined", "close", 125, DESK, came_from="testing", closing_kind="declined",
        declined_by="customer", told_how="phone", tag="yes", picked_up="customer",
        reason="The car is sold in fall.",
    ),
)  # fmt: skip
# It left on a truck with the work half done.
TOWED = (
    taken_in(
        "towed", 110, customer_name="Corin Blackwood", phone="555 010 0158", plate="TW.1529N",
        make_model="Dorvane Umber 1.4", model_year="2014", vin="ZZ9DU3TW0ET001529",
        odometer="121 000 mi", label_charge="500 g",
        complaint="Started elsewhere and never finished.", since="weeks", warm_when=["always"],
    ),
    fails("towed", 109),
    step("towed", "gas_identity", 108.5, QUIST, how="instrument", result="as_label"),
    recovered("towed", 108, "180", QUIST),
    entry("towed", "change", 107, QUIST, what="opened", where="Suction line off."),
    entry(
        "towed", "close", 100, DESK, came_from="repairing", closing_kind="released_unfinished",
        left_how="towed", refrigerant_at="shop_cylinder", loop_capped="capped",
        refrigerant_words="180 g of R-134a in cylinder 2 of this shop.", told_how="phone",
        tag="yes", picked_up="towed", reason="The owner moves away and has it fetched.",
    ),
)  # fmt: skip
# It did not fail while it was here.
AWAY = (
    taken_in(
        "away", 90, customer_name="Linnea Farrow", phone="555 010 0169", plate="NR.6647W",
        make_model="Brenloh Ilex 1.4", model_year="2021", vin="ZZ9BX2NR0MT006647",
        odometer="29 800 mi", label_charge="500 g",
        complaint="Sometimes warm for a minute, never at the shop.", since="weeks",
        warm_when=["hot"],
    ),
    fails("away", 89, "no"),
    step("away", "complaint_seen", 88.9, QUIST, engages="yes", there="no", blower="yes",
         cold="yes"),
    step(
        "away", "vent_temperature", 88, QUIST, branch="front", vent="7", intake="26", humidity="45",
        recirculation="fresh", blower="high", doors="open", rpm="1500", minutes="12",
    ),
    entry(
        "away", "close", 87, DESK, came_from="testing", closing_kind="not_reproduced",
        picked_up="customer", come_back="On the next day that it fails, at once.",
    ),
)  # fmt: skip
# A hot, damp day, and the car did what such a system can do.
DESIGNED = (
    taken_in(
        "designed", 70, customer_name="Faro Iversholt", phone="555 010 0181", plate="WD.5035E",
        make_model="Dorvane Umbra", model_year="2023", vin="ZZ9DU3AD0PT005035",
        odometer="8 900 mi", refrigerant="R-1234yf", label_charge="480 g",
        complaint="My neighbor’s car is colder.", since="weeks", warm_when=["hot"],
    ),
    fails("designed", 69.5, "no"),
    step("designed", "complaint_seen", 69.4, engages="yes", there="hot", blower="yes", cold="yes"),
    step(
        "designed", "vent_temperature", 69, branch="front", vent="14", intake="38", humidity="60",
        recirculation="fresh", blower="high", doors="closed", rpm="1500", minutes="15",
    ),
    entry(
        "designed", "close", 68, DESK, came_from="testing", closing_kind="as_designed",
        air="38 °C", carried_by=["2"], picked_up="customer",
    ),
)  # fmt: skip

ENDED: tuple[Line, ...] = (*MIXED, *DECLINED, *TOWED, *AWAY, *DESIGNED)
