"""Where the cars of the demo are, and what they wait for."""

from shopac.management.demo.told import Line

# (name in this list, hours ago, who, entry kind, job, fields)
BAYS: tuple[Line, ...] = (
    (
        "ilex place",
        1,
        "R. Sand",
        "place",
        "ilex",
        {"bay": "2", "key_hook": "7", "has_it": "me", "promised_hour": "16:00"},
    ),
    ("sorrel place", 3, "E. Quist", "place", "sorrel", {"bay": "1", "has_it": "me"}),
    ("sorrel vacuum", 0.3, "E. Quist", "waiting", "sorrel", {"what": "vacuum", "minutes": "45"}),
    ("umbel place", 1, "Noor Abanti", "place", "umbel", {"bay_words": "yard"}),
    (
        "umbel waits",
        1,
        "Noor Abanti",
        "waiting",
        "umbel",
        {
            "what": "person",
            "words": "qualified, to isolate, wait and prove it dead",
            "due_day": "tomorrow",
        }
        | {"due_hour": "08:00"},
    ),
)
