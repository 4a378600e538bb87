"""What can be wrong with a car's air conditioning: variables, how often, and what goes together.

Each variable's answers exclude each other and the first is "ok"; what can occur together is two
variables. Shares are of cars that come because they do not cool. A trade survey counted 53 % of
poor cooling as low charge and 8.6 % of systems contaminated, half of those by air; every other
figure is common practice or our judgement, and says so.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows
from diagnostics.evidence.system import System, SystemIs, can_be_such

SURVEY = "trade survey: 53 % low charge, 8.6 % contaminated, half of those by air"
CLUTCHED = ("belt_clutch", "belt_electric")
MAGNETIC = {"drive": CLUTCHED, "clutch": ("magnetic",)}  # what is not told may be one
BELTED = ("belt_clutch", "belt_clutchless", "belt_electric")
ELECTRIC = ("electric_hv", "electric_48", "belt_electric")
OTHER = "other"


@dataclass(frozen=True)
class Answer:
    """One answer. `share` counts where no coupling says otherwise; `on`: systems that can have it.

    `rightly`: nothing is broken, it is as it should be under these circumstances. `looked_at`: no
    other answer rules it out, only a test that looks at it. `beside`: it may be there beside another
    answer, so a fault that is found rules it out as little. `for_good`: it does not come and go, so
    it is there while the trouble is not; `at_times`: it is seen only while the trouble is there.
    """

    code: str
    words: str
    share: float
    on: SystemIs = field(default_factory=dict)
    rightly: bool = False
    looked_at: bool = False
    beside: bool = False
    for_good: bool = False
    at_times: bool = False


@dataclass(frozen=True)
class Variable:
    """A part of a question. `basis` says where its shares come from; `on`: systems that have it."""

    name: str
    question: str
    words: str
    answers: tuple[Answer, ...]
    basis: str = JUDGED
    on: SystemIs = field(default_factory=dict)

    def codes(self, system: System) -> tuple[str, ...]:
        """The answers that such a car can have."""
        return tuple(one.code for one in self.answers if can_be_such(one.on, system))

    def answer(self, code: str) -> Answer:
        """The answer of that code."""
        return next(one for one in self.answers if one.code == code)


QUESTIONS = {
    "command": "Does power reach the clutch when cold is asked for?",
    "clutch": "Does the clutch take hold?",
    "compressor": "Does the compressor turn and pump?",
    "charge": "Is the right amount of the right gas in a tight loop?",
    "cleanliness": "Can refrigerant and oil circulate clean?",
    "heat": "Is heat moved from the cabin to the outside?",
}

VARIABLES: tuple[Variable, ...] = (
    Variable(
        "command", "command", "Command",
        (
            Answer("ok", "power reaches it", 0.70),
            Answer("not_asked", "not asked for", 0.0075, rightly=True),
            Answer("refused_cold", "refused: too cold", 0.006, rightly=True),
            Answer("refused_low", "refused: pressure too low", 0.002, rightly=True),
            Answer("refused_high", "refused: pressure too high", 0.0075, rightly=True),
            Answer("refused_engine", "refused by the engine computer", 0.006, rightly=True),
            Answer("refused_lock", "refused: lock or slip seen", 0.004, rightly=True),
            Answer("switch_false", "a switch or sensor reads wrong", 0.0225),
            Answer("driver", "the control unit does not command", 0.01),
            Answer("fuse", "fuse blown or open", 0.0125, for_good=True),
            Answer("relay_open", "relay does not close", 0.0175),
            Answer("relay_stuck", "relay stays closed", 0.004),
            Answer("wire_open", "feed wire open", 0.0125),
            Answer("short_ground", "feed wire shorted to ground", 0.003),
            Answer("feed_resistance", "resistance in the feed", 0.015),
            Answer("ground_resistance", "resistance in the ground", 0.0125),
            Answer(OTHER, "something else in the command", 0.015),
        ), COMMON,
    ),
    Variable(
        "clutch", "clutch", "Clutch and hub",
        (
            Answer("ok", "takes hold", 0.79),
            Answer("coil_open", "coil open", 0.0175, MAGNETIC, for_good=True),
            Answer("melt_open", "the coil’s melt fuse open", 0.005, MAGNETIC, for_good=True),
            Answer("coil_shorted", "coil shorted", 0.006, MAGNETIC),
            Answer("fails_hot", "lets go when hot", 0.0075, MAGNETIC, at_times=True),
            Answer("gap_wide", "air gap too wide", 0.0225, MAGNETIC),
            Answer("gap_small", "air gap too small", 0.0025, MAGNETIC),
            Answer("worn", "friction face worn or burnt", 0.0175, MAGNETIC),
            Answer("oily", "oil on the friction face", 0.005, MAGNETIC),
            Answer("hub_broken", "hub or limiter broken", 0.006, {"drive": BELTED}, beside=True),
            Answer("bearing", "pulley bearing", 0.011, {"drive": BELTED}, beside=True),
            Answer(OTHER, "something else at the clutch", 0.009),
        ), COMMON, {"drive": BELTED},
    ),
    Variable(
        "belt", "clutch", "Belt",
        (
            Answer("ok", "drives", 0.965),
            Answer("slips", "slips", 0.011),
            Answer("off", "off or torn", 0.008),
            Answer(OTHER, "something else at the belt", 0.005),
        ), COMMON, {"drive": BELTED},
    ),
    Variable(
        "mechanics", "compressor", "Compressor",
        (
            Answer("ok", "turns and pumps", 0.83),
            Answer("locked", "locked", 0.0125, looked_at=True),
            Answer("stiff", "stiff or rough", 0.011, looked_at=True),
            Answer("not_pumping", "turns, does not pump", 0.0225),
            Answer(
                "valve", "control valve does not follow", 0.026,
                {"displacement": ("variable_inner", "variable_outer")},
            ),
            Answer("not_commanded", "its electronics are not commanded", 0.02, {"drive": ELECTRIC}),
            Answer("isolation", "insulation too low", 0.01, {"drive": ELECTRIC}),
            Answer("inverter", "its electronics", 0.02, {"drive": ELECTRIC}),
            Answer(OTHER, "something else in the compressor", 0.012),
        ), COMMON,
    ),
    Variable(
        "seal", "compressor", "Shaft seal",
        (Answer("ok", "dry", 0.95), Answer("wet", "leaks", 0.025)),
        COMMON, {"drive": BELTED},
    ),
    Variable(
        "tightness", "charge", "Tightness",
        (
            Answer("ok", "no leak beyond what all cars lose", 0.43),
            Answer("leaks", "leaks at a place that can be searched", 0.29),
            Answer("leaks_hidden", "leaks where a search does not reach", 0.0653),
            Answer("short_filled", "was filled short", 0.0435),
            Answer(OTHER, "something else took the charge", 0.0145),
        ), SURVEY,
    ),
    Variable(
        "amount", "charge", "Amount",
        (
            Answer("ok", "right", 0.42),
            Answer("low", "too little", 0.185),
            Answer("empty", "empty or next to it", 0.08),
            Answer("too_much", "too much", 0.025),
        ), SURVEY,
    ),
    Variable(
        "gas", "charge", "Gas",
        (
            Answer("ok", "as on the label", 0.914),
            Answer("air", "with air", 0.0215),
            Answer("mixed", "mixed or not known", 0.0215),
        ), SURVEY,
    ),
    Variable(
        "dirt", "cleanliness", "Inside of the loop",
        (
            Answer("ok", "clean", 0.86),
            Answer("metal", "metal", 0.015),
            Answer("burnt", "burnt oil", 0.015),
            Answer("moisture", "moisture", 0.0225),
            Answer("leak_stop", "leak-stop", 0.01),
            Answer(OTHER, "something else in it", 0.015),
        ), COMMON,
    ),
    Variable(
        "flow", "cleanliness", "Flow",
        (
            Answer("ok", "free", 0.865),
            Answer("device_blocked", "expansion device blocked", 0.02),
            Answer("device_open", "expansion device stuck open", 0.011),
            Answer("condenser_blocked", "condenser blocked inside", 0.009),
            Answer("drier_hose", "drier or hose blocked", 0.015),
            Answer(OTHER, "something else in the flow", 0.025),
        ), COMMON,
    ),
    Variable(
        "oil", "cleanliness", "Oil",
        (
            Answer("ok", "right", 0.87),
            Answer("little", "too little", 0.03),
            Answer("much", "too much", 0.02),
            Answer("wrong", "wrong kind", 0.015),
        ), JUDGED,
    ),
    Variable(
        "outside", "heat", "Outside air",
        (
            Answer("ok", "goes through", 0.855),
            Answer("fan", "fan", 0.03, looked_at=True),
            Answer("face", "condenser’s face", 0.0275, looked_at=True),
            Answer("engine_heat", "heat of the engine", 0.006, looked_at=True),
            Answer(OTHER, "something else outside", 0.018),
        ), COMMON,
    ),
    Variable(
        "cabin", "heat", "Cabin air",
        (
            Answer("ok", "cold air gets in", 0.815),
            Answer("airflow", "too little air", 0.036, looked_at=True),
            Answer("door", "an air door", 0.032, looked_at=True),
            Answer("heater", "heater valve", 0.014, looked_at=True),
            Answer("iced", "evaporator ices", 0.0075),
            Answer("rear", "rear unit", 0.01, {"branches": ("rear",)}, looked_at=True),
            Answer("as_designed", "as designed for this heat", 0.015, rightly=True),
            Answer(OTHER, "something else in the cabin", 0.02),
        ), COMMON,
    ),
)  # fmt: skip

# In between: what parts do together, and what was done before. Nobody asks for these alone.
BETWEEN: dict[str, tuple[str, ...]] = {
    "worked_before": ("no", "yes"),
    "power": ("full", "part", "none"),
    "driven": ("full", "part", "none"),
    "pumps": ("full", "weak", "none"),
    "chills": ("full", "weak", "none"),
    "cools": ("yes", "no"),
}
IN_BETWEEN = (
    "power",
    "driven",
    "pumps",
    "chills",
    "cools",
)  # in the order in which they hang on each other
BEFORE = {"no": 0.75, "yes": 0.25}  # common practice: about every fourth loop was opened before

NO_POWER = (
    "not_asked", "refused_cold", "refused_low", "refused_high", "refused_engine", "refused_lock",
    "driver", "fuse", "relay_open", "wire_open", "short_ground",
)  # fmt: skip
COUPLINGS: Mapping[str, Rows] = {
    "tightness": Rows(
        ("seal",),
        (
            Row(
                {"seal": ("wet",)},
                {"ok": 0.03, "leaks": 0.93, "leaks_hidden": 0.02, "short_filled": 0.01},
                "a wet seal is a leak at a place", COMMON,
            ),
        ),
    ),
    "amount": Rows(
        ("tightness",),
        (
            Row({"tightness": ("ok",)}, {"ok": 0.90, "low": 0.03, "too_much": 0.06}, "tight and never filled wrong: it is right", JUDGED),
            Row({"tightness": ("leaks",)}, {"ok": 0.12, "low": 0.56, "empty": 0.31}, "a leak that brought the car in has emptied it in part or whole", COMMON),
            Row({"tightness": ("leaks_hidden",)}, {"ok": 0.14, "low": 0.66, "empty": 0.19}, "the same, slower", JUDGED),
            Row({"tightness": ("short_filled",)}, {"ok": 0.02, "low": 0.93, "empty": 0.03}, "short is low", COMMON),
        ),
    ),
    "gas": Rows(
        ("worked_before",),
        (
            Row({"worked_before": ("yes",)}, {"ok": 0.81, "air": 0.085}, "air and other gas get in when a loop is opened or topped up", SURVEY),
            Row({}, {"ok": 0.953, "air": 0.026}, "seldom in a loop nobody opened", SURVEY),
        ),
    ),
    "dirt": Rows(
        ("mechanics", "worked_before"),
        (
            Row({"mechanics": ("locked",)}, {"ok": 0.42, "metal": 0.38, "burnt": 0.12}, "a compressor that locks sheds metal", COMMON),
            Row({"mechanics": ("stiff", "not_pumping")}, {"ok": 0.66, "metal": 0.18, "burnt": 0.08}, "wear sheds metal", COMMON),
            Row({"worked_before": ("yes",)}, {"ok": 0.80, "moisture": 0.08, "leak_stop": 0.05, "metal": 0.02}, "moisture and leak-stop come with earlier work", COMMON),
            Row({}, {"ok": 0.925, "metal": 0.015, "burnt": 0.02, "moisture": 0.025, "leak_stop": 0.004}, "a loop nobody opened stays clean", COMMON),
        ),
    ),
    "clutch": Rows(
        ("mechanics", "seal", "worked_before"),
        (
            Row(
                {"mechanics": ("locked",)},
                {"ok": 0.42, "melt_open": 0.18, "hub_broken": 0.14, "worn": 0.12, "coil_open": 0.04},
                "a locked compressor opens the melt fuse, breaks the hub or burns the face", COMMON,
            ),
            Row(
                {"mechanics": ("stiff",)}, {"ok": 0.62, "worn": 0.14, "melt_open": 0.05, "hub_broken": 0.05},
                "a stiff one makes the clutch slip", COMMON,
            ),
            Row({"seal": ("wet",)}, {"ok": 0.65, "oily": 0.18}, "a seal that leaks throws its oil on the faces behind it, sooner or later", COMMON),
            Row({"worked_before": ("yes",)}, {"ok": 0.765, "gap_wide": 0.06, "gap_small": 0.012}, "a gap set wrong comes with earlier work", JUDGED),
        ),
    ),
    "command": Rows(
        ("amount", "clutch"),
        (
            Row(
                {"amount": ("empty",)}, {"ok": 0.13, "refused_low": 0.75, "switch_false": 0.02},
                "an empty loop locks the command out; where it does not, the switch is bridged or stuck", COMMON,
            ),
            Row({"clutch": ("coil_shorted",)}, {"ok": 0.38, "fuse": 0.28, "relay_open": 0.10, "relay_stuck": 0.04, "driver": 0.10}, "a shorted coil blows fuses and ends relays and drivers", COMMON),
            Row({"amount": ("low",)}, {"ok": 0.60, "refused_low": 0.16}, "a low charge can be refused", COMMON),
        ),
    ),
    # What reaches clutch or compressor is all that they see of the command: tables stay small.
    "power": Rows(
        ("command",),
        (
            Row({"command": NO_POWER}, {"none": 0.98, "part": 0.015}, "nothing reaches it", COMMON),
            Row({"command": ("switch_false", "feed_resistance", "ground_resistance", OTHER)}, {"part": 0.96, "none": 0.02}, "not enough, or at times", COMMON),
            Row({}, {"full": 0.994, "part": 0.004}, "power reaches it", COMMON),
        ),
    ),
    "driven": Rows(
        ("power", "clutch", "belt"),
        (
            Row({"power": ("none",)}, {"none": 0.985, "part": 0.01}, "without power it is not driven", COMMON),
            Row({"clutch": ("coil_open", "melt_open", "hub_broken")}, {"none": 0.97, "part": 0.02}, "nothing turns the shaft", COMMON),
            Row({"belt": ("off",)}, {"none": 0.985, "part": 0.01}, "no belt, no turning", COMMON),
            Row({"power": ("part",)}, {"none": 0.56, "part": 0.36}, "not, or at times", COMMON),
            Row({"clutch": ("gap_wide", "coil_shorted")}, {"none": 0.50, "part": 0.38}, "not, or as long as it is cold", COMMON),
            Row({"clutch": ("fails_hot",)}, {"none": 0.15, "part": 0.72}, "until it is hot", COMMON),
            Row({"clutch": ("worn", "oily", OTHER), }, {"none": 0.22, "part": 0.62}, "it slips", COMMON),
            Row({"belt": ("slips", OTHER)}, {"none": 0.03, "part": 0.80}, "the belt slips", COMMON),
            Row({"clutch": ("bearing",)}, {"full": 0.78, "part": 0.15}, "noisy, and turns", COMMON),
            Row({}, {"full": 0.985, "part": 0.010}, "all that drives it is in order", COMMON),
        ),
    ),
    # What comes of it all. The car came because it does not cool: a fault that accounts for that
    # leaves less for others, and what every car has anyway stays.
    "chills": Rows(
        ("pumps", "amount", "flow"),
        (
            Row({"pumps": ("none",)}, {"none": 0.985, "weak": 0.012}, "nothing is pumped", COMMON),
            Row({"amount": ("empty",)}, {"none": 0.96, "weak": 0.035}, "there is nothing to pump", COMMON),
            Row({"flow": ("device_blocked", "condenser_blocked", "drier_hose")}, {"weak": 0.55, "none": 0.38}, "little gets through", COMMON),
            Row({"pumps": ("weak",)}, {"weak": 0.80, "none": 0.10}, "little is pumped", COMMON),
            Row({"amount": ("low",)}, {"weak": 0.68, "full": 0.24}, "a low charge chills less, a little low hardly", COMMON),
            Row({"amount": ("too_much",)}, {"weak": 0.60, "full": 0.38}, "too much stands in the way", COMMON),
            Row({"flow": ("device_open",)}, {"weak": 0.75, "full": 0.20}, "it floods instead of chilling", COMMON),
            Row({"flow": (OTHER,)}, {"weak": 0.50, "full": 0.35}, "anything", JUDGED),
            Row({}, {"full": 0.97, "weak": 0.025}, "all is there", COMMON),
        ),
    ),
    "cools": Rows(
        ("chills", "outside", "cabin"),
        (
            Row({"chills": ("none",)}, {"no": 0.99}, "no cold is made", COMMON),
            Row({"chills": ("weak",)}, {"no": 0.88}, "little cold is made", COMMON),
            Row({"cabin": ("door", "heater", "airflow", "as_designed")}, {"no": 0.80}, "the cold does not get in, or not enough", COMMON),
            Row({"outside": ("fan", "face")}, {"no": 0.65}, "the heat does not get out, at least while it stands", COMMON),
            Row({"cabin": ("iced", "rear", OTHER)}, {"no": 0.65}, "at times, or in the back", COMMON),
            Row({"outside": ("engine_heat", OTHER)}, {"no": 0.45}, "at times", JUDGED),
            Row({}, {"no": 0.04}, "it cools, and somebody hoped for more", JUDGED),
        ),
    ),
    "pumps": Rows(
        ("driven", "mechanics"),
        (
            Row({"mechanics": ("locked", "not_commanded", "isolation", "inverter")}, {"none": 0.965, "weak": 0.025}, "it does not turn", COMMON),
            Row({"driven": ("none",)}, {"none": 0.99}, "not driven", COMMON),
            Row({"mechanics": ("not_pumping",)}, {"none": 0.45, "weak": 0.53}, "worn inside", COMMON),
            Row({"mechanics": ("valve",)}, {"none": 0.25, "weak": 0.65}, "stays at a small stroke", COMMON),
            Row({"mechanics": ("stiff", OTHER)}, {"full": 0.45, "weak": 0.45}, "less than it should", JUDGED),
            Row({"driven": ("part",)}, {"weak": 0.70, "full": 0.20}, "at times", COMMON),
            Row({}, {"full": 0.985, "weak": 0.012}, "driven and whole: it pumps", COMMON),
        ),
    ),
}  # fmt: skip
