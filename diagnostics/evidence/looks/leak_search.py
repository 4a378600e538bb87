"""The leak searched place by place: what it finds is a leak, what it does not find may be one."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# What comes again after cleaning is seldom a slip; what every car seeps stands in the rows. Our
# judgement.
ALARMS = 0.002

LOOKS = Looks(
    kind="leak_search",
    outcomes=("found_again", "found", "suspect", "none_found", "part_searched"),
    normal=("part_searched", "none_found"),
    direct={"tightness": ("leaks",)},
    less={"found": ("found_again", "suspect"), "part_searched": ("none_found", "found", "found_again", "suspect")},
    alarms=ALARMS,
    rows=Rows(
        ("tightness",),
        (
            Row({"tightness": ("leaks",)}, {"found_again": 0.38, "found": 0.22, "suspect": 0.05, "none_found": 0.12, "part_searched": 0.22}, "most leaks that empty a loop are found, about a third hide from one search", COMMON),
            Row({"tightness": ("leaks_hidden",)}, {"found_again": 0.006, "found": 0.03, "suspect": 0.04, "none_found": 0.36, "part_searched": 0.56}, "a search does not reach it, so it looks as a tight loop does", COMMON),
            Row({"tightness": ("other",)}, {"found_again": 0.06, "found": 0.08, "suspect": 0.06, "none_found": 0.33, "part_searched": 0.46}, "anything", JUDGED),
            Row({}, {"found_again": 0.004, "found": 0.02, "suspect": 0.035, "none_found": 0.39, "part_searched": 0.55}, "none is found; a fine setting finds what every car seeps, and stains can be old", "trade article: cars lose 15.1 g a year on average"),
        ),
    ),
)  # fmt: skip
