"""What can only be said of several variables together, and is worded so.

After power at the coil without pull-in the command may be at fault as well; that it is the whole
of the trouble is another question, and the one that people mean.
"""

from dataclasses import dataclass

from diagnostics.evidence.inference.verdict import LIKELY, Weighed

# The links of one chain: a fault in one is enough, and none shows while another is broken.
LINKS = ("command", "clutch", "belt", "mechanics")
ALONE = 0.02  # below it a fault is not the cause on its own: our judgement
MAY_BE = 0.05  # what is less likely than that needs no such sentence
# What can be behind the fault of another link: a shaft that locks or runs stiff opens the melt fuse
# and breaks the hub. Of it the sentence would mislead. Common practice.
BEHIND = {"clutch": ("mechanics",), "command": ("clutch",)}


@dataclass(frozen=True)
class NotAlone:
    """A variable that may be at fault, but does not account for this on its own.

    `beside` is the variable that is at fault by what was found.
    """

    variable: str
    beside: str


def not_alone(weighed: Weighed) -> list[NotAlone]:
    """Each link that may be at fault, where another one surely is by a test that names it.

    Not one that is found itself, nor one that can be what broke the other.
    """
    there = {one.name for one in weighed.plain.variables}
    faulty = {name: 1 - weighed.share(name, ["ok"]) for name in LINKS if name in there}
    sure = max(faulty, key=lambda name: faulty[name])
    named = any(one.speaks_of(sure, code) for one in weighed.told for code in faults(weighed, sure))
    if faulty[sure] < LIKELY or not named:
        return []
    return [
        NotAlone(name, sure)
        for name, share in faulty.items()
        if name != sure
        and name not in BEHIND.get(sure, ())
        and MAY_BE <= share < LIKELY
        and weighed.joint({name: faults(weighed, name), sure: ["ok"]}) <= ALONE
    ]


def faults(weighed: Weighed, variable: str) -> list[str]:
    """The answers of a variable but "ok"."""
    return [code for code in weighed.plain.answers[variable] if code != "ok"]
