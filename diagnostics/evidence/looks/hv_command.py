"""An electric compressor by scan data: what it is told, does, and says of itself."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="hv_command",
    outcomes=(
        "as_commanded", "slower", "faster", "at_the_edge", "stands", "not_commanded", "refused",
        "reports_itself", "no_answer", "insulation_warning",
    ),
    normal=("as_commanded",),
    misses=0.004,  # two speeds are read: one that stands is hardly taken for one that runs
    # One that runs as commanded is commanded, and its motor turns; that it pumps is not told.
    direct={"command": ("ok",), "mechanics": ("locked", "not_commanded", "inverter")},
    vague=("at_the_edge",),
    rows=Rows(
        ("mechanics", "command", "driven"),
        (
            Row({"mechanics": ("isolation",)}, {"insulation_warning": 0.68, "reports_itself": 0.09, "stands": 0.08, "refused": 0.05, "as_commanded": 0.05}, "the car watches its insulation", COMMON),
            Row({"command": ("refused_cold", "refused_low", "refused_high", "refused_engine", "refused_lock")}, {"refused": 0.90, "not_commanded": 0.07, "reports_itself": 0.012, "as_commanded": 0.002, "stands": 0.001}, "a refusal comes with its reason, and what is refused is told no speed", COMMON),
            Row({"command": ("not_asked",)}, {"not_commanded": 0.64, "refused": 0.16, "as_commanded": 0.04, "faster": 0.08, "stands": 0.002}, "what is not asked for is not commanded", COMMON),
            Row({"command": ("driver",)}, {"not_commanded": 0.62, "no_answer": 0.20, "stands": 0.004, "reports_itself": 0.005, "refused": 0.12, "as_commanded": 0.004}, "a control unit that does not command tells no speed", COMMON),
            Row({"command": ("fuse", "relay_open", "wire_open", "short_ground")}, {"no_answer": 0.72, "not_commanded": 0.14, "stands": 0.006, "reports_itself": 0.005, "refused": 0.08, "as_commanded": 0.004}, "without its own supply or data line it does not answer, so no speed of it is read", COMMON),
            Row({"driven": ("none",)}, {"refused": 0.48, "not_commanded": 0.27, "no_answer": 0.16, "stands": 0.010, "reports_itself": 0.005, "as_commanded": 0.003}, "what is not driven does not run as told, whatever keeps it off", COMMON),
            Row({"mechanics": ("inverter",)}, {"reports_itself": 0.50, "stands": 0.22, "no_answer": 0.13, "slower": 0.06, "as_commanded": 0.04}, "electronics that fail report it, or answer no more", COMMON),
            Row({"mechanics": ("not_commanded",)}, {"not_commanded": 0.54, "no_answer": 0.30, "refused": 0.08, "stands": 0.002, "as_commanded": 0.03}, "no command arrives, or nothing answers; a speed told it is a command", COMMON),
            Row({"mechanics": ("locked",)}, {"stands": 0.46, "reports_itself": 0.42, "refused": 0.05, "not_commanded": 0.02}, "a motor that cannot turn stands, and says so", COMMON),
            Row({"mechanics": ("stiff",)}, {"slower": 0.34, "as_commanded": 0.32, "reports_itself": 0.18, "at_the_edge": 0.08}, "a stiff pump is held back or switched off by its electronics", JUDGED),
            Row({"command": ("switch_false", "feed_resistance", "ground_resistance", "other")}, {"as_commanded": 0.62, "refused": 0.17, "not_commanded": 0.06, "at_the_edge": 0.05, "no_answer": 0.03, "slower": 0.03, "reports_itself": 0.004}, "refused or gone at times: while it turns it looks as it should", JUDGED),
            Row({"mechanics": ("other",)}, {"as_commanded": 0.42, "reports_itself": 0.18, "slower": 0.14, "stands": 0.08, "at_the_edge": 0.05}, "anything", JUDGED),
            Row({}, {"as_commanded": 0.848, "at_the_edge": 0.045, "slower": 0.035, "faster": 0.025, "insulation_warning": 0.015, "refused": 0.010, "not_commanded": 0.006, "reports_itself": 0.006, "no_answer": 0.004, "stands": 0.0045}, "runs as told; any other high-voltage part can raise the warning", COMMON),
        ),
    ),
)  # fmt: skip
